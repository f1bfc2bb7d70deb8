import { firstIndex } from '../base/index.js';
import { median } from 'simple-statistics';
import { playedOf, writtenOf, type Piece } from './piece.js';
import { freeOnset, handOf, type Hand } from './hands.js';

/** One written onset as one hand played it: the median of its notes. */
export interface PulsePoint {
  /** Unfolded ticks. */
  readonly tick: number;
  readonly onsetS: number;
}

/** The onsets of each hand within one stretch of the route, by tick. */
export type PulseLines = Readonly<Record<Hand, readonly PulsePoint[]>>;

/** A gap is a stop where it lasts at least this many times what the pulse around it would give (>=): beyond any ritardando from one note to the next … */
export const STOP_TIMES = 2.5;

/** … and at least this much longer (>=), seconds: a short gap is a hesitation, and a hesitation must stay visible. */
export const STOP_LEAST_S = 1;

/** Gaps on either side that tell what the pulse would give. */
const GAPS_AROUND = 4;

/**
 * All onsets by stretch of the route. Grace notes, ornaments and rolled chords are left out: they stand at no written
 * moment.
 */
export function pulseLines({ score, recording, alignment }: Piece): readonly PulseLines[] {
  const onsets = alignment.route.map((): Record<Hand, Map<number, number[]>> => ({ right: new Map(), left: new Map() }));
  for (const pair of alignment.pairs) {
    const { occurrence, note } = writtenOf(score, pair.occurrence);
    if (freeOnset(note) !== null) continue;
    const ticks = onsets[pair.stretch]?.[handOf(occurrence)];
    const { onsetS } = playedOf(recording, pair.note);
    const together = ticks?.get(occurrence.onsetTick);
    if (together === undefined) ticks?.set(occurrence.onsetTick, [onsetS]);
    else together.push(onsetS);
  }
  return onsets.map((hands) => ({ right: pointsOf(hands.right), left: pointsOf(hands.left) }));
}

/** A chord stands at the median of its notes, so that one late finger does not move it. */
function pointsOf(onsets: ReadonlyMap<number, number[]>): readonly PulsePoint[] {
  return [...onsets].map(([tick, seconds]) => ({ tick, onsetS: median(seconds) })).sort((a, b) => a.tick - b.tick);
}

/** The moments of both hands together: where they strike at one tick, the mean of the two. */
export function bothHands(lines: PulseLines): readonly PulsePoint[] {
  const together = new Map(lines.right.map((point) => [point.tick, point]));
  for (const { tick, onsetS } of lines.left) {
    const other = together.get(tick);
    together.set(tick, { tick, onsetS: other === undefined ? onsetS : (onsetS + other.onsetS) / 2 });
  }
  return [...together.values()].sort((a, b) => a.tick - b.tick);
}

/** Cuts a stretch where the playing stopped, so that nothing is measured across a stop. */
export function cutAtStops(lines: PulseLines): readonly PulseLines[] {
  const stops = stopsIn(bothHands(lines));
  const right = splitAt(lines.right, stops);
  const left = splitAt(lines.left, stops);
  return right.map((points, i) => ({ right: points, left: left[i] ?? [] }));
}

/** Ticks at which the playing goes on after a stop. */
function stopsIn(moments: readonly PulsePoint[]): readonly number[] {
  const gaps = moments.slice(1).map((moment, i) => {
    const before = moments[i] ?? moment;
    return { tick: moment.tick, ticks: moment.tick - before.tick, seconds: moment.onsetS - before.onsetS };
  });
  return gaps.filter((gap, i) => {
    if (gap.seconds < STOP_LEAST_S) return false;
    const around = [...gaps.slice(Math.max(0, i - GAPS_AROUND), i), ...gaps.slice(i + 1, i + 1 + GAPS_AROUND)];
    const expectedS = around.length > 0 ? median(around.map(({ seconds, ticks }) => seconds / ticks)) * gap.ticks : Infinity;
    return gap.seconds >= STOP_TIMES * expectedS && gap.seconds - expectedS >= STOP_LEAST_S;
  }).map((gap) => gap.tick);
}

/** Both in order of ticks; each bound begins a new part. */
function splitAt(points: readonly PulsePoint[], bounds: readonly number[]): readonly (readonly PulsePoint[])[] {
  const places = [0, ...bounds.map((bound) => firstAtOrAfter(points, bound)), points.length];
  return places.slice(1).map((to, i) => points.slice(places[i], to));
}

/** By halving: the first of the points, in order of ticks, that is not before `tick`, or their number. */
export function firstAtOrAfter(points: readonly PulsePoint[], tick: number): number {
  return firstIndex(points.length, (i) => (points[i]?.tick ?? Infinity) >= tick);
}
