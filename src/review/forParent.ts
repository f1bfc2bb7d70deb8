/** A remark for a child's parent: who reads it is not who plays, so the child is spoken of, and the advice is help. */
import type { Told } from '../judge/index.js';

/** What is said to a pupil, as it is said of one. */
const SAID_OF: readonly (readonly [said: RegExp, of: string])[] = [[/\bwait\b/, 'waits'], [/\bstop\b/, 'stops']];

/**
 * The sentences as a parent reads them: "Nilo waits before bar 6." "Help at home: practise only the end of bar 5 into it."
 * @param name of the child, at the start of a sentence
 */
export function forParent({ text, advice }: Told, name: string): Told {
  return { text: spokenOf(text, name), advice: advice === '' ? '' : `Help at home: ${advice.charAt(0).toLowerCase()}${advice.slice(1)}` };
}

/** "You wait before bar 6." as "Nilo waits before bar 6."; a sentence that speaks to nobody stays as it is. */
export function spokenOf(text: string, name: string): string {
  if (!/^You\b/.test(text)) return text.replace(/\byou\b/g, name.replace(/^The /, 'the '));
  const [first = '', ...rest] = text.split('. ');
  const of = SAID_OF.reduce((sentence, [said, word]) => sentence.replace(said, word), first.replace(/^You/, name));
  return [of, ...rest].join('. ');
}
