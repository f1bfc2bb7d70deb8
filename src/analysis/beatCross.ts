/**
 * The question: where do the hands divide one stretch of time differently, three against two and the like?
 * Conventions: a stretch is a beat, a part of one, two beats or the bar; the shortest that shows it whole counts, else the
 * shortest that shows it with one note missing in one hand. The ratio is right hand, then left.
 * Method: both hands divide the stretch evenly, and the two numbers share no divisor. A bar of two dotted beats against three
 * is left to the hemiola. Dotted pairs against triplets stand apart: placing the short note is a matter of style.
 * It does not tell cross-rhythms inside one hand.
 */
import { commonDivisor, evenDivision, isDottedPair } from './beatDivisions.js';
import type { BarMetre } from './beatMetre.js';
import { spotAt, struckOffsets, type BeatContext } from './beatContext.js';
import type { BeatFinding, BeatPlace } from './beatTypes.js';

/** Cross-rhythms, bar by bar; one place for each kind in a bar. */
export function crossRhythms(context: BeatContext): readonly BeatPlace[] {
  return context.metres.flatMap((metre) => {
    const hands = [struckOffsets(context, metre.bar.index, 'right'), struckOffsets(context, metre.bar.index, 'left')] as const;
    if (!metre.regular || hands[0].length < 2 || hands[1].length < 2) return [];
    const found = new Map<string, BeatFinding & { readonly tick: number }>();
    for (const look of looksAt(metre)) {
      if (found.size > 0) break;
      for (const one of crossingsOf(hands, look, metre)) found.set(one.kind === 'crossRhythm' ? one.ratio.join(':') : one.kind, one);
    }
    return [...found.values()].map(({ tick, ...finding }) => ({ ...spotAt(context, { barIndex: metre.bar.index, tick, hand: 'both' }), ...finding }));
  });
}

/** A length of stretch to look at, and whether both hands must be complete in it. */
interface Look {
  readonly spanTicks: number;
  readonly whole: boolean;
}

/** What to look at, in order. */
function looksAt({ beatTicks, beats, compound, bar }: BarMetre): readonly Look[] {
  const spans = compound
    ? [beatTicks / 3, beatTicks]
    : [beatTicks / 2, beatTicks, ...(beats % 2 === 0 ? [beatTicks * 2] : []), bar.nominalTicks];
  const ticks = [...new Set(spans.filter((span) => Number.isInteger(span)))];
  return [true, false].flatMap((whole) => ticks.map((spanTicks) => ({ spanTicks, whole })));
}

/** Every cross-rhythm of a bar in stretches of one length, from the last to the first, so that the first is kept. */
function crossingsOf(
  [right, left]: readonly [readonly number[], readonly number[]],
  { spanTicks, whole }: Look,
  { bar, leadTicks }: BarMetre,
): readonly (BeatFinding & { readonly tick: number })[] {
  const inRight = bySpan(right, spanTicks);
  const inLeft = bySpan(left, spanTicks);
  return [...inRight].reverse().flatMap(([span, offsets]) => {
    const finding = crossing(offsets, inLeft.get(span) ?? [], { spanTicks, whole });
    return finding === null ? [] : [{ ...finding, tick: bar.startTick - leadTicks + span * spanTicks }];
  });
}

/** Offsets by the stretch they fall into, from its start. */
function bySpan(offsets: readonly number[], spanTicks: number): ReadonlyMap<number, readonly number[]> {
  const spans = new Map<number, number[]>();
  for (const offset of offsets) {
    const span = Math.floor(offset / spanTicks);
    const list = spans.get(span);
    if (list === undefined) spans.set(span, [offset - span * spanTicks]);
    else list.push(offset - span * spanTicks);
  }
  return spans;
}

/** What two hands make of one stretch. */
function crossing(right: readonly number[], left: readonly number[], { spanTicks, whole }: Look): BeatFinding | null {
  const [inRight, inLeft] = [evenDivision(right, spanTicks), evenDivision(left, spanTicks)];
  if ((inRight === 3 && isDottedPair(left, spanTicks)) || (inLeft === 3 && isDottedPair(right, spanTicks))) return { kind: 'dotsAgainstTriplets' };
  if (inRight === null || inLeft === null || inRight < 2 || inLeft < 2 || commonDivisor(inRight, inLeft) > 1) return null;
  const missing = Number(right.length < inRight) + Number(left.length < inLeft);
  // one of the two must be complete, else there is no pattern to hear
  if (missing > (whole ? 0 : 1)) return null;
  return { kind: 'crossRhythm', ratio: [inRight, inLeft], spanTicks };
}
