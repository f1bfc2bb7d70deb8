/**
 * The question: where does a hand come in off the beat, and where does nobody mark the first beat?
 * Conventions: an entry follows a silence of the hand that covers the beat before it; `afterBeats` where that silence is
 * shorter than a beat, as in an accompaniment of rests and chords.
 * Method: our own rule, on written lengths.
 * It does not tell what a pedal makes of the silence.
 */
import { offsetInBar } from './beatMetre.js';
import { countName } from './beatCounting.js';
import { otherHand, spotAt, type BeatContext } from './beatContext.js';
import type { BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type HandEvent, type OneHand } from './handLines.js';

/** Entries off the beat, of each hand. */
export function entriesOffBeat(context: BeatContext): readonly BeatPlace[] {
  return BOTH_HANDS.flatMap((hand) => entriesOf(context, hand));
}

/** Bars in which neither hand strikes on the first beat, though something sounds or is struck in them. */
export function emptyFirstBeats(context: BeatContext): readonly BeatPlace[] {
  let sounding = 0;
  return context.metres.flatMap(({ bar, regular, leadTicks }): readonly BeatPlace[] => {
    const struck = BOTH_HANDS.flatMap((hand) => context.byBar[hand][bar.index] ?? []);
    const cause = sounding > bar.startTick ? 'held' : 'rest';
    // before the piece's first note there is no beat to lose
    const opens = sounding === 0;
    sounding = struck.reduce((end, event) => Math.max(end, event.endTick), sounding);
    const first = struck.reduce((earliest, event) => Math.min(earliest, event.onsetTick), Infinity);
    if (!regular || opens || leadTicks > 0 || struck.length === 0 || first === bar.startTick) return [];
    return [{ ...spotAt(context, { barIndex: bar.index, tick: bar.startTick, hand: 'both' }), kind: 'emptyFirstBeat', cause }];
  });
}

/** Entries of one hand. */
function entriesOf(context: BeatContext, hand: OneHand): readonly BeatPlace[] {
  const otherOnsets = new Set(context.lines[otherHand(hand)].map((event) => event.onsetTick));
  const opensAt = Math.min(...BOTH_HANDS.flatMap((one) => context.lines[one][0]?.onsetTick ?? []));
  let soundingTo = Number.NEGATIVE_INFINITY;
  return context.lines[hand].flatMap((event) => {
    const before = event.broken ? Number.NEGATIVE_INFINITY : soundingTo;
    soundingTo = Math.max(soundingTo, event.endTick);
    return entry(context, event, { before, otherOnsets, opensAt }) ?? [];
  });
}

/** The entry that an event makes, if it makes one. */
function entry(
  context: BeatContext,
  event: HandEvent,
  { before, otherOnsets, opensAt }: { readonly before: number; readonly otherOnsets: ReadonlySet<number>; readonly opensAt: number },
): BeatPlace | null {
  const metre = context.metres[event.barIndex];
  if (metre === undefined || !metre.regular) return null;
  const offset = offsetInBar(metre, event.onsetTick);
  const within = offset % metre.beatTicks;
  const beatTick = event.onsetTick - within;
  if (within === 0 || before > beatTick) return null;
  const count = countName(metre, offset, context.language);
  if (count === null) return null;
  const spot = spotAt(context, { barIndex: event.barIndex, tick: event.onsetTick, hand: event.hand });
  const afterBeats = event.onsetTick - before < metre.beatTicks;
  return { ...spot, kind: 'entryAfterRest', count, otherOnBeat: otherOnsets.has(beatTick), afterBeats, opening: event.onsetTick === opensAt };
}
