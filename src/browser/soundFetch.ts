import type { Heard, Sounding, SoundingPage } from './soundTypes.js';

/** What the room answers; it is this program's own answer and is taken as it is. @throws TypeError where there is none */
async function answerOf<T>(address: string, isIt: (answer: unknown) => answer is T): Promise<T> {
  const response = await fetch(address, { headers: { Accept: 'application/json' } });
  if (!response.ok) throw new TypeError('the room did not answer');
  const answer: unknown = await response.json();
  if (!isIt(answer)) throw new TypeError('the room answered something else');
  return answer;
}

/** The recording as played, with its places on the page. @param beside number of a recording that it is matched in level with */
export function fetchPage(address: string, beside?: number): Promise<SoundingPage> {
  return answerOf(beside === undefined ? address : `${address}?beside=${beside}`, isPage);
}

/** One version of it. */
export function fetchVersion(address: string, heard: Heard): Promise<Sounding> {
  return answerOf(`${address}?as=${heard}`, isSounding);
}

/** True for the room's answer about a version. */
function isSounding(answer: unknown): answer is Sounding {
  return typeof answer === 'object' && answer !== null && 'format' in answer && answer.format === 'barwise-sound/1';
}

/** True for its answer about the recording as played. */
function isPage(answer: unknown): answer is SoundingPage {
  return isSounding(answer) && 'moments' in answer && 'bars' in answer;
}
