/*
 * The teacher's question: was this rest a silence, for the finger and for the ear?
 *
 * Conventions: seconds; one entry a written silence of a stave, and one more, `staff` null, where all staves rest together (a
 *   general rest). A silence lies between two notes of one stretch of the route: nothing is said of rests before the first
 *   or after the last. In order of time, a general rest after the staves' own.
 * Method: the written notes of a stave leave gaps; each is held against the moments at which its ends were reached. `heldS` is
 *   how far into it a key of those notes stayed down, `soundS` how far they could be heard with both pedals (half pedal not counted).
 * Source: our own rule.
 * What it does not tell: whether it matters. A rest of one stave under the pedal is choreography of the hand (teachers' common practice).
 */
import type { Stretch } from '../align/index.js';
import type { Occurrence } from '../score/index.js';
import { handOf } from './hands.js';
import type { SilenceFacts } from './holdingTypes.js';
import { momentsOf, momentsOfStretch, type Moments } from './moments.js';
import { playedOf, type Piece } from './piece.js';
import { highestBetween, PEDAL_HOLDS, soundEnds } from './soundEnds.js';
import { pairsByOccurrence, type PairsByOccurrence } from './voices.js';

/** Gaps up to this long (<=), crotchets, are rounding of tuplets and no rests. */
const LEAST_GAP_CROTCHETS = 1 / 32;

/** The pedal is looked at from this share of the silence on, and as long before its end: presses for what comes next begin late in it. */
const PEDAL_MARGIN = 0.25;

/** Everything a silence is told from. */
interface Ground {
  readonly piece: Piece;
  readonly moments: readonly Moments[];
  readonly soundEndS: readonly number[];
  readonly pairAt: PairsByOccurrence;
}

/** A written gap, and what was played before it. */
interface Gap {
  readonly stretch: number;
  readonly staff: number | null;
  readonly fromTick: number;
  readonly next: Occurrence;
  readonly before: Before;
}

/** The longest key and the longest sound before a gap. */
interface Before {
  readonly releaseS: number;
  readonly soundEndS: number;
  /** Place in `Alignment.pairs`, or null where nothing before it was played. */
  readonly lastPair: number | null;
}

/**
 * All written silences that were gone through.
 * @param moments of this piece, where they are known already
 * @throws RangeError where the alignment is not of this score and recording
 */
export function silences(piece: Piece, moments = momentsOf(piece)): readonly SilenceFacts[] {
  const ground: Ground = { piece, moments, soundEndS: soundEnds(piece.recording, PEDAL_HOLDS), pairAt: pairsByOccurrence(piece.alignment) };
  const found = piece.alignment.route.flatMap((stretch) => gapsOf(ground, stretch)).flatMap((gap) => factsOf(ground, gap) ?? []);
  return found.sort((a, b) => a.fromS - b.fromS || (a.staff ?? Infinity) - (b.staff ?? Infinity));
}

/** The gaps of every stave and of all together in one stretch. */
function gapsOf(ground: Ground, { index, fromVisit, toVisit }: Stretch): readonly Gap[] {
  const { occurrences } = ground.piece.score;
  const written = occurrences.filter((one) => one.visitIndex >= fromVisit && one.visitIndex <= toVisit && one.endTick > one.onsetTick);
  const staves = [...new Set(written.map(({ staff }) => staff))].sort((a, b) => a - b);
  const own = staves.flatMap((staff) => gapsBetween(ground, written.filter((one) => one.staff === staff), { stretch: index, staff }));
  return staves.length < 2 ? own.flatMap((gap) => [gap, { ...gap, staff: null }]) : [...own, ...gapsBetween(ground, written, { stretch: index, staff: null })];
}

/** The gaps that notes, in order of onset, leave. */
function gapsBetween({ piece, soundEndS, pairAt }: Ground, written: readonly Occurrence[], place: Pick<Gap, 'stretch' | 'staff'>): readonly Gap[] {
  const slack = piece.score.ticksPerQuarter * LEAST_GAP_CROTCHETS;
  const gaps: Gap[] = [];
  let coveredTo = written[0]?.onsetTick ?? 0;
  let before: Before = { releaseS: -Infinity, soundEndS: -Infinity, lastPair: null };
  for (const one of written) {
    if (one.onsetTick - coveredTo > slack) gaps.push({ ...place, fromTick: coveredTo, next: one, before });
    coveredTo = Math.max(coveredTo, one.endTick);
    const pair = pairAt(place.stretch, one.index);
    const note = pair === undefined ? undefined : piece.alignment.pairs[pair]?.note;
    if (pair === undefined || note === undefined) continue;
    const { releaseS, hanging } = playedOf(piece.recording, note);
    if (hanging) continue;
    before = {
      releaseS: Math.max(before.releaseS, releaseS),
      soundEndS: Math.max(before.soundEndS, soundEndS[note] ?? releaseS),
      lastPair: releaseS >= before.releaseS ? pair : before.lastPair,
    };
  }
  return gaps;
}

/** A gap as it was played; null where its ends cannot be told or were not played in order. */
function factsOf({ piece, moments }: Ground, { stretch, staff, fromTick, next, before }: Gap): SilenceFacts | null {
  const moment = momentsOfStretch(moments, stretch);
  const hand = staff === null ? null : handOf(next);
  const [fromS, toS] = [moment(fromTick, hand), moment(next.onsetTick, hand)];
  if (fromS === null || toS === null || toS <= fromS || before.lastPair === null) return null;
  const within = (untilS: number): number => Math.max(0, Math.min(untilS, toS) - fromS);
  const margin = PEDAL_MARGIN * (toS - fromS);
  return {
    stretch, staff, fromTick, toTick: next.onsetTick, fromS, toS,
    heldS: within(before.releaseS), soundS: within(before.soundEndS), lastPair: before.lastPair,
    pedal: highestBetween(piece.recording.sustain, fromS + margin, toS - margin),
  };
}
