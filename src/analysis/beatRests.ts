/**
 * The question: where must a pupil count bars of rest?
 * Conventions: whole bars in which a hand neither strikes nor holds anything; the place is those bars.
 * Method: our own rule: LEAST_BARS full bars and more, before the hand comes in (again).
 * It does not tell the silence after a hand's last note.
 */
import { spotAt, otherHand, type BeatContext } from './beatContext.js';
import type { BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type OneHand } from './handLines.js';

/** Bars of rest from which counting is a task of its own (inclusive); one bar is felt. */
const LEAST_BARS = 2;

/** Long rests of each hand. */
export function longRests(context: BeatContext): readonly BeatPlace[] {
  return BOTH_HANDS.flatMap((hand) => restsOf(context, hand));
}

/** Long rests of one hand. */
function restsOf(context: BeatContext, hand: OneHand): readonly BeatPlace[] {
  const { bars } = context.score;
  let silentFrom = 0;
  let soundingTo = 0;
  return context.lines[hand].flatMap((event) => {
    // the first bar that lies wholly after the last sound
    while ((bars[silentFrom]?.startTick ?? Infinity) < soundingTo) silentFrom += 1;
    const first = silentFrom;
    soundingTo = Math.max(soundingTo, event.endTick);
    const count = event.barIndex - first;
    return count >= LEAST_BARS && !event.broken ? [restOver(context, { hand, first, count })] : [];
  });
}

/** The place of one long rest. */
function restOver(context: BeatContext, { hand, first, count }: { readonly hand: OneHand; readonly first: number; readonly count: number }): BeatPlace {
  const others = context.byBar[otherHand(hand)].slice(first, first + count);
  return {
    ...spotAt(context, { barIndex: first, tick: context.score.bars[first]?.startTick ?? 0, hand }),
    toBar: first + count - 1,
    counting: null,
    kind: 'longRest',
    bars: count,
    otherPlays: others.some((events) => events.length > 0),
  };
}
