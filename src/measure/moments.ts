/*
 * The teacher's question: when was this place of the score reached?
 *
 * Conventions: seconds; ticks of the playing order; one `Moments` a stretch of the route.
 * Method: where something was struck at the tick, that is the moment: of the asked hand if it has one, else of the other.
 *   Between two onsets the time runs evenly; after the last it runs on as it did over the last crotchets. Nothing is told
 *   across a stop, nor further than a bar's worth beyond the music.
 * Source: our own rule. Unlike the local pulse (localPulse.ts) this is what happened and not what was expected: a held note ends with
 *   the next one as it was really played, early or late.
 * What it does not tell: whether the moment was the right one.
 */
import { firstIndex } from '../base/index.js';
import type { Alignment } from '../align/index.js';
import type { Hand } from './hands.js';
import type { Piece } from './piece.js';
import { bothHands, cutAtStops, firstAtOrAfter, pulseLines, type PulseLines, type PulsePoint } from './pulsePoints.js';

/** Over how many crotchets before the end of the music the last tempo is drawn. Our own rule: about a bar. */
export const LAST_TEMPO_CROTCHETS = 4;

/** When a tick of one stretch was reached, seconds; null where it cannot be told. `hand` is asked first; null asks both alike. */
export type Moments = (tick: number, hand: Hand | null) => number | null;

/** The moments of every stretch of the route, in its order. */
export function momentsOf(piece: Piece): readonly Moments[] {
  return pulseLines(piece).map((lines) => momentsIn(lines, piece.score.ticksPerQuarter));
}

/** Parts between stops, each with the ticks it covers. */
interface Part {
  readonly all: readonly PulsePoint[];
  readonly lines: PulseLines;
}

/** The moments of one stretch. */
function momentsIn(lines: PulseLines, ticksPerQuarter: number): Moments {
  const parts = cutAtStops(lines).map((part): Part => ({ all: bothHands(part), lines: part })).filter(({ all }) => all.length > 0);
  return (tick, hand) => {
    const place = firstIndex(parts.length, (i) => (parts[i]?.all.at(-1)?.tick ?? -1) >= tick);
    const part = parts[Math.min(place, parts.length - 1)];
    if (part === undefined) return null;
    const own = hand === null ? undefined : pointAt(part.lines[hand], tick);
    const struck = own ?? pointAt(part.all, tick);
    if (struck !== undefined) return struck.onsetS;
    return between(part.all, tick) ?? (place === parts.length ? beyond(part.all, tick, ticksPerQuarter) : null);
  };
}

/** The onset at a tick. */
function pointAt(points: readonly PulsePoint[], tick: number): PulsePoint | undefined {
  const point = points[firstAtOrAfter(points, tick)];
  return point?.tick === tick ? point : undefined;
}

/** Evenly between the onsets on both sides. */
function between(points: readonly PulsePoint[], tick: number): number | null {
  const place = firstAtOrAfter(points, tick);
  const [before, after] = [points[place - 1], points[place]];
  if (before === undefined || after === undefined) return null;
  return before.onsetS + ((tick - before.tick) / (after.tick - before.tick)) * (after.onsetS - before.onsetS);
}

/** After the last onset, at the last tempo. */
function beyond(points: readonly PulsePoint[], tick: number, ticksPerQuarter: number): number | null {
  const last = points.at(-1);
  if (last === undefined) return null;
  const reach = LAST_TEMPO_CROTCHETS * ticksPerQuarter;
  const first = points[firstAtOrAfter(points, last.tick - reach)];
  if (first === undefined || first.tick === last.tick || last.onsetS <= first.onsetS || tick - last.tick > reach) return null;
  return last.onsetS + ((tick - last.tick) * (last.onsetS - first.onsetS)) / (last.tick - first.tick);
}

/** The stretch of every pair must be one of the route. @throws RangeError where it is not */
export function momentsOfStretch(moments: readonly Moments[], stretch: Alignment['pairs'][number]['stretch']): Moments {
  const found = moments[stretch];
  if (found === undefined) throw new RangeError(`the route has no stretch ${stretch}`);
  return found;
}
