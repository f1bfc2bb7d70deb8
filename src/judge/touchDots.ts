/*
 * Dots and wedges: are they short?
 *
 * What is a fault: dots that last as long as portato would. Half the written value is a staccato, three quarters a portato (manuals,
 * common practice); a slow one is under 0.2 s, so very long notes are measured against less than their value. Under the pedal
 * only the attack of a staccato can be judged, and nothing is said here. One key of a chord that stays down is heard.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { HANDS, type BarFacts, type Hand } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import { lapses, type LapseRule } from './lapses.js';
import type { Finding } from './types.js';

/** Share of the written value that a dot lasts: half (manuals, common practice). */
export const DOT_SHARE = 0.5;

/** From this share (>=) of the written value on a dot is too long: that of portato (manuals, common practice). */
export const DOT_LONG_SHARE = 0.75;

/** Of a slow note no more than this counts as its value, seconds: three quarters of it are three times what a slow staccato lasts (0.2 s, common practice). */
export const DOT_SLOW_S = 0.8;

/** Shorter (<) than this a key press is short whatever the value, seconds: about the shortest that a finger makes on purpose without effort. Our own rule. */
export const DOT_ALWAYS_SHORT_S = 0.1;

/** So many long dots of so many are heard as one thing. Our own rule. */
const RULE: LapseRule = { least: 3, share: 0.5 };

/** One chord with dots, played without pedal. */
export interface Dot {
  readonly bar: BarFacts;
  readonly hand: Hand;
  /** Share of the written value that its longest key was down. */
  readonly share: number;
  readonly bad: boolean;
  readonly notes: readonly HeldNote[];
}

/** Every chord with dots that the fingers alone decided. */
export function dotsOf(ground: HeldGround): readonly Dot[] {
  const marked = ground.notes.filter(({ asked }) => asked.touch === 'staccato' || asked.touch === 'staccatissimo');
  return [...groupBy(marked, ({ chord }) => chord).values()].flatMap(dotOf);
}

/** A chord; nothing where the pedal kept it, or no length could be measured. */
function dotOf(notes: readonly HeldNote[]): readonly Dot[] {
  const [first] = notes;
  const lengths = notes.flatMap(({ holding: { length } }) => (length.measured ? [length.value] : []));
  if (first === undefined || lengths.length === 0 || lengths.some(({ soundS, keyS }) => soundS > keyS)) return [];
  const share = Math.max(...lengths.map(({ keyS, writtenS }) => keyS / Math.min(writtenS, DOT_SLOW_S)));
  const longestS = Math.max(...lengths.map(({ keyS }) => keyS));
  return [{ bar: first.bar, hand: first.hand, share, bad: share >= DOT_LONG_SHARE && longestS >= DOT_ALWAYS_SHORT_S, notes }];
}

/** Bars in which the dots are too long, each hand by itself. */
export function dotFindings(ground: HeldGround, dots: readonly Dot[]): readonly Finding[] {
  return HANDS.flatMap((hand) => lapses(dots.filter((dot) => dot.hand === hand), RULE).map(({ bar, bad }) => {
    const share = median(bad.map((dot) => Math.min(dot.share, 1)));
    return heldFinding(ground, {
      aspect: 'touch', kind: 'staccatoLong', hand, bar, notes: bad.flatMap(({ notes }) => notes), value: percent(share), unit: '%', threshold: percent(DOT_LONG_SHARE),
      ratio: (share - DOT_SHARE) / (DOT_LONG_SHARE - DOT_SHARE), confidence: 1,
    });
  }));
}
