/** Notes in words, "B flat", and what a key signature does to a letter: the one place of the analysis where notes get their names. */
import type { Pitch, Step } from '../score/index.js';

/** A letter and its sign. */
export type Spelling = Pick<Pitch, 'step' | 'alter'>;

/** Letters upwards. */
export const STEPS: readonly Step[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** Letters in the order in which sharps are added; flats go the other way. */
export const FIFTHS: readonly Step[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** Semitones above C of each plain letter. */
const SEMITONES: Readonly<Record<Step, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Signs in words. */
const SIGNS: ReadonlyMap<number, string> = new Map([[-2, ' double flat'], [-1, ' flat'], [0, ''], [1, ' sharp'], [2, ' double sharp']]);

/** "G sharp"; a plain letter is "G", or "G natural" where that is asked for. */
export function spellingInWords({ step, alter }: Spelling, sayNatural = false): string {
  if (alter === 0 && sayNatural) return `${step} natural`;
  return step + (SIGNS.get(alter) ?? '');
}

/** A spelled name such as "F#" or "Bb" in words: "F sharp", "B flat"; doubled signs too. "" for an empty one. */
export function noteInWords(name: string): string {
  const letter = STEPS.find((step) => name.startsWith(step));
  if (letter === undefined) return '';
  const signs = name.slice(1);
  return spellingInWords({ step: letter, alter: signs.startsWith('b') ? -signs.length : signs.length });
}

/** What the key signature does to a letter: 1, 0 or -1. */
export function alterInSignature(step: Step, fifths: number): number {
  const place = FIFTHS.indexOf(step);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}

/** Pitch class of a spelling, 0-11. */
export function pitchClass({ step, alter }: Spelling): number {
  return (SEMITONES[step] + alter + 24) % 12;
}
