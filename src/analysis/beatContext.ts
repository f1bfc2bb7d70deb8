/** What the finders of beats share: the bars laid out, what each hand strikes in each, and how to count them. */
import type { Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { countingLine } from './beatCounting.js';
import { barMetres, offsetInBar, type BarMetre } from './beatMetre.js';
import type { BeatSpot, Counting } from './beatTypes.js';
import { BOTH_HANDS, handLines, type HandEvent, type HandLines, type OneHand } from './handLines.js';

/** Everything of a score that finders of beats look at. */
export interface BeatContext {
  readonly score: Score;
  readonly language: Language;
  readonly metres: readonly BarMetre[];
  readonly lines: HandLines;
  /** Events of each hand by bar. */
  readonly byBar: Readonly<Record<OneHand, readonly (readonly HandEvent[])[]>>;
}

/** Lays a score out once for all finders. */
export function beatContext(score: Score, language: Language = 'british'): BeatContext {
  const lines = handLines(score);
  return { score, language, metres: barMetres(score), lines, byBar: { right: grouped(score, lines.right), left: grouped(score, lines.left) } };
}

/** What a hand (or both) strikes in a bar, as offsets from the full bar's first beat, ascending and once each. */
export function struckOffsets(context: BeatContext, barIndex: number, hand: OneHand | 'both'): readonly number[] {
  const metre = context.metres[barIndex];
  if (metre === undefined) return [];
  const hands = hand === 'both' ? BOTH_HANDS : [hand];
  const offsets = hands.flatMap((one) => (context.byBar[one][barIndex] ?? []).map((event) => offsetInBar(metre, event.onsetTick)));
  return [...new Set(offsets)].sort((a, b) => a - b);
}

/** A spot in one bar with the line to count it by. */
export function spotAt(context: BeatContext, at: { readonly barIndex: number; readonly tick: number; readonly hand: OneHand | 'both' }): BeatSpot {
  return {
    fromBar: at.barIndex,
    toBar: at.barIndex,
    fromTick: at.tick,
    hand: at.hand,
    counting: countingOf(context, at.barIndex, at.hand),
  };
}

/** How to count one bar of a hand. */
export function countingOf(context: BeatContext, barIndex: number, hand: OneHand | 'both'): Counting | null {
  const metre = context.metres[barIndex];
  const counted = metre === undefined ? null : countingLine(metre, struckOffsets(context, barIndex, hand));
  return counted === null ? null : { barIndex, ...counted };
}

/** The other hand. */
export function otherHand(hand: OneHand): OneHand {
  return hand === 'right' ? 'left' : 'right';
}

/** Events of one hand, a list a bar. */
function grouped(score: Score, line: readonly HandEvent[]): readonly (readonly HandEvent[])[] {
  const bars: HandEvent[][] = score.bars.map(() => []);
  for (const event of line) bars[event.barIndex]?.push(event);
  return bars;
}
