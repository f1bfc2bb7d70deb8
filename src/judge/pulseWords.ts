/** Sentences on the pulse. */
import type { PitfallKind } from '../analysis/index.js';
import { listInWords, spokenIn, word } from '../base/index.js';
import { barNames } from '../score/index.js';
import type { Untold } from './merge.js';
import { placesInWords, whereInWords } from './placeWords.js';
import type { FoundPlace, JudgeInput, Told } from './types.js';

/** Pitfalls that make a hand wait, by name: "the jump is in time". */
export const HARD_FOR_HANDS: Readonly<Partial<Record<PitfallKind, string>>> = {
  jump: 'the jump', stretch: 'the stretch', wideChord: 'the wide chord', octaves: 'the octaves', crossing: 'the crossing of hands', positionChange: 'the change of position', fastRun: 'the run',
};

/** Pitfalls that make a hand wait, as the reason of a wait: "for the jump". */
const CAUSES: Readonly<Partial<Record<PitfallKind, string>>> = {
  jump: 'for the jump', stretch: 'for the stretch', wideChord: 'for the wide chord', octaves: 'for the octaves', crossing: 'for the crossing', positionChange: 'for the change of position',
  fastRun: 'for the run', ornament: 'for the ornament', signatureChange: 'where the key changes', crossRhythm: 'for the cross-rhythm', longRest: 'over the rest',
};

/** More waits than these (>) are not told apart by their places in the bar. */
const MOST_TOLD_APART = 5;

/** The sentences of one observation, in the English asked for. */
export function tellPulse(input: JudgeInput, untold: Untold): Told {
  const { text, advice } = toldOf(input, untold);
  return { text, advice: spokenIn(advice, input.language) };
}

/** The sentences with British advice. */
function toldOf(input: JudgeInput, untold: Untold): Told {
  const { kind, places } = untold;
  if (kind === 'hesitation' || kind === 'stop') return tellWait(input, untold);
  const where = whereInWords(input, null, places);
  if (kind === 'rushing') return { text: `${where}: the tempo runs away.`, advice: 'Count aloud in the smallest notes through these bars, and keep the last one as broad as the first.' };
  if (kind === 'dragging') return { text: `${where}: the tempo sinks from ${word('bar', input.language)} to ${word('bar', input.language)}.`, advice: 'Keep the beat of the bars before in mind, and think ahead to the first beat of each bar.' };
  if (kind === 'creepsUp') return { text: `${where}: the tempo creeps up bit by bit.`, advice: 'Hum the first line in its tempo before you go on, and once more before the last.' };
  if (kind === 'creepsDown') return { text: `${where}: the tempo sinks bit by bit.`, advice: 'Hum the first line in its tempo before you go on, and once more before the last.' };
  if (kind === 'slowerWhereHard') return { text: `You slow down where it gets hard: ${placesInWords(input, places)}.`, advice: 'Find the tempo at which these bars go, and begin the whole piece in it.' };
  if (untold.topic === 'bars') return { text: `${where}: the tempo jumps from ${word('bar', input.language)} to ${word('bar', input.language)}.`, advice: 'Count aloud through these bars, hands separately first.' };
  return { text: `${where}: the beat is uneven.`, advice: 'Tap the beat with the other hand, hands separately first.' };
}

/** "You wait before bar 11 for the jump." */
function tellWait(input: JudgeInput, { kind, places }: Untold): Told {
  const verb = kind === 'stop' ? 'You stop' : 'You wait';
  const at = placesAt(input, places);
  const single = new Set(places.map(({ fromBar }) => fromBar)).size === 1 ? places[0] : undefined;
  const cause = single === undefined ? '' : causeAt(input, single.fromBar);
  const again = places.length > 1 && new Set(places.map(({ fromBar }) => fromBar)).size === 1 ? ' each time' : '';
  return { text: `${verb} ${at}${cause === '' ? '' : ` ${cause}`}${again}.`, advice: adviceFor(input, places) };
}

/** "before bars 4 and 11", "in bar 7", or both. */
function placesAt(input: JudgeInput, places: readonly FoundPlace[]): string {
  if (places.length > MOST_TOLD_APART) return `at ${placesInWords(input, places)}`;
  const before = places.filter((place) => atBarStart(input, place));
  const within = places.filter((place) => !atBarStart(input, place));
  const parts = [before.length > 0 ? `before ${placesInWords(input, before)}` : '', within.length > 0 ? `in ${placesInWords(input, within)}` : ''];
  return listInWords(parts.filter((part) => part !== ''));
}

/** True where the first of its notes begins the bar. */
function atBarStart({ score }: JudgeInput, { fromBar, notes }: FoundPlace): boolean {
  const start = score.bars[fromBar]?.startTick;
  return notes.some((index) => score.notes[index]?.onsetTick === start);
}

/** What the analysis expected to be hard there. */
function causeAt({ analysis }: JudgeInput, bar: number): string {
  const pitfall = analysis.pitfalls.find(({ kind, places }) => CAUSES[kind] !== undefined && places.some(({ fromBar, toBar }) => fromBar <= bar && toBar >= bar && toBar - fromBar <= 1));
  return pitfall === undefined ? '' : CAUSES[pitfall.kind] ?? '';
}

/** What to do about waits. */
function adviceFor({ score }: JudgeInput, places: readonly FoundPlace[]): string {
  const only = new Set(places.map(({ fromBar }) => fromBar)).size === 1 ? places[0] : undefined;
  if (only === undefined) return 'Practise each join by itself: the last beat into the next bar, without stopping.';
  if (only.fromBar === 0) return 'Hear the whole figure inwardly before you begin.';
  return `Practise only the end of ${barNames(score).long(only.fromBar - 1)} into it, moving early.`;
}
