/**
 * The question: where is three times two put for two times three?
 * Conventions: the place covers the two bars, or the one.
 * Method: a hand strikes exactly at beats 1, 3 and 5 of two bars of three, or divides a bar of two dotted beats in three
 * (the definition of the trade: the same six units grouped in twos).
 * It does not tell a hemiola made by harmony or phrasing alone.
 */
import { spotAt, struckOffsets, type BeatContext } from './beatContext.js';
import type { BarMetre } from './beatMetre.js';
import type { BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type OneHand } from './handLines.js';

/** Hemiolas of either hand. */
export function hemiolas(context: BeatContext): readonly BeatPlace[] {
  return BOTH_HANDS.flatMap((hand) => context.metres.flatMap((metre) => withinBar(context, metre, hand) ?? acrossBars(context, metre, hand) ?? []));
}

/** A bar of two dotted beats struck in three. */
function withinBar(context: BeatContext, metre: BarMetre, hand: OneHand): BeatPlace | null {
  if (!metre.compound || metre.beats !== 2 || !isFull(metre)) return null;
  const { index, nominalTicks, startTick } = metre.bar;
  if (!strikesAt(struckOffsets(context, index, hand), [0, nominalTicks / 3, (2 * nominalTicks) / 3])) return null;
  return { ...spotAt(context, { barIndex: index, tick: startTick, hand }), kind: 'hemiola', shape: 'withinBar' };
}

/** Two bars of three struck in twos; the second stroke sounds over the bar line. */
function acrossBars(context: BeatContext, metre: BarMetre, hand: OneHand): BeatPlace | null {
  const next = context.metres[metre.bar.index + 1];
  if (next === undefined || ![metre, next].every((one) => one.beats === 3 && !one.compound && isFull(one)) || next.beatTicks !== metre.beatTicks) return null;
  const { index, startTick } = metre.bar;
  const { beatTicks } = metre;
  if (!strikesAt(struckOffsets(context, index, hand), [0, 2 * beatTicks]) || !strikesAt(struckOffsets(context, index + 1, hand), [beatTicks])) return null;
  const second = context.byBar[hand][index]?.[1];
  if (second === undefined || second.endTick <= next.bar.startTick) return null;
  return { ...spotAt(context, { barIndex: index, tick: startTick, hand }), toBar: index + 1, kind: 'hemiola', shape: 'acrossTwoBars' };
}

/** Exactly these offsets, no more and no fewer. */
function strikesAt(struck: readonly number[], offsets: readonly number[]): boolean {
  return struck.length === offsets.length && offsets.every((offset, i) => offset === struck[i]);
}

/** A bar of its full length. */
function isFull({ bar, regular, leadTicks }: BarMetre): boolean {
  return regular && leadTicks === 0 && bar.lengthTicks === bar.nominalTicks;
}
