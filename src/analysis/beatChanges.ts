/**
 * The question: where does the count itself change: the metre, or what the beat is divided into?
 * Conventions: a change of metre stands in the first bar of the new one; a change of division in the bar of the second beat,
 * its two divisions in alphabetical order.
 * Method: our own rule: dotted beside even pairs, and triplets beside pairs, fours or dots, in neighbouring beats of one hand.
 * It does not tell whether a value keeps its length over a change of metre, unless the score says so in words.
 */
import { divisionName } from './beatDivisions.js';
import { isCompound, type BarMetre } from './beatMetre.js';
import { spotAt, struckOffsets, type BeatContext } from './beatContext.js';
import type { BeatDivision, BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type OneHand } from './handLines.js';

/** Neighbours that pull one another out of shape, alphabetical. */
const CONFUSED: ReadonlySet<string> = new Set(['dotted even', 'dotted triplet', 'even triplet', 'quarters triplet', 'duplet threes']);

/** Changes of time signature. */
export function metreChanges(context: BeatContext): readonly BeatPlace[] {
  const { metres } = context;
  return metres.flatMap((metre, i): readonly BeatPlace[] => {
    const before = metres[i - 1];
    if (before === undefined || sameTime(before, metre)) return [];
    const { index, startTick, time } = metre.bar;
    const beatChanges = before.beatTicks !== metre.beatTicks || isCompound(before.bar.time) !== isCompound(time);
    return [{ ...spotAt(context, { barIndex: index, tick: startTick, hand: 'both' }), kind: 'metreChange', from: before.bar.time, to: time, beatChanges }];
  });
}

/** Changes of division from beat to beat; one place for each pair in a bar and hand. */
export function divisionChanges(context: BeatContext): readonly BeatPlace[] {
  return BOTH_HANDS.flatMap((hand) => {
    let before: { readonly beat: number; readonly name: BeatDivision } | null = null;
    let beatsSoFar = 0;
    return context.metres.flatMap((metre) => {
      const found = new Map<string, BeatPlace>();
      for (const { beat, name } of namedBeats(context, metre, hand)) {
        const at = beatsSoFar + beat;
        const place = before !== null && at - before.beat === 1 ? changeAt(context, metre, { hand, beat, names: [before.name, name] }) : null;
        if (place?.kind === 'divisionChange') found.set(place.between.join(' '), found.get(place.between.join(' ')) ?? place);
        before = { beat: at, name };
      }
      beatsSoFar += metre.beats;
      return [...found.values()];
    });
  });
}

/** A change worth a word, or null. */
function changeAt(
  context: BeatContext,
  { bar, beatTicks, leadTicks }: BarMetre,
  { hand, beat, names }: { readonly hand: OneHand; readonly beat: number; readonly names: readonly BeatDivision[] },
): BeatPlace | null {
  const [first = 'other', second = 'other'] = [...names].sort();
  if (!CONFUSED.has(`${first} ${second}`)) return null;
  const tick = bar.startTick - leadTicks + beat * beatTicks;
  return { ...spotAt(context, { barIndex: bar.index, tick, hand }), kind: 'divisionChange', between: [first, second] };
}

/** The beats of a bar in which a hand strikes anything, named. */
function namedBeats(context: BeatContext, metre: BarMetre, hand: OneHand): readonly { readonly beat: number; readonly name: BeatDivision }[] {
  if (!metre.regular) return [];
  const beats = new Map<number, number[]>();
  for (const offset of struckOffsets(context, metre.bar.index, hand)) {
    const beat = Math.floor(offset / metre.beatTicks);
    beats.set(beat, [...(beats.get(beat) ?? []), offset - beat * metre.beatTicks]);
  }
  return [...beats].map(([beat, offsets]) => ({ beat, name: divisionName(offsets, metre.beatTicks, metre.compound) }));
}

/** The same time signature. */
function sameTime(a: BarMetre, b: BarMetre): boolean {
  return a.bar.time.beats === b.bar.time.beats && a.bar.time.beatType === b.bar.time.beatType;
}
