/*
 * The teacher's question: is the scale even, from note to note?
 *
 * Conventions: one entry for each hand and direction of each stretch of the route; milliseconds from stroke to stroke. `sdMs` is the standard deviation (n - 2) of these
 *   distances about their own straight line, so that a scale that gathers or loses speed is not uneven for that; `variation` is that by their mean.
 * Method: only neighbours that were both played; the distance to the last note counts, what comes after it does not.
 * Source: Jabusch (2006) measured professionals' scales so: 8.1 ms up, 8.9 ms down at 125 ms a note, 6.5 and 7.1 %.
 * What it does not tell: why. The thumb, the octave and the turn are where it usually happens.
 */
import { linearRegression, linearRegressionLine, mean, sum } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { handOf, type Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';

/** Fewest distances (>=) that tell evenness: an arpeggio over one octave has three. */
const LEAST_DISTANCES = 3;

/** Decides between notes that stand equally far off, and nothing else. */
const TIE = 0.001;

/** One way of a scale, up or down. */
export interface ScaleRun {
  readonly hand: Hand;
  readonly up: boolean;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Places in `Alignment.pairs`, in order. */
  readonly pairs: readonly number[];
  readonly intervalMs: number;
  readonly sdMs: number;
  readonly variation: number;
  /** The note that stands furthest off the middle between its neighbours, and by how much, late positive: place in `Alignment.pairs`. */
  readonly worst: { readonly pair: number; readonly offMs: number };
}

/** A struck note of a scale. */
interface Stroke {
  readonly pair: number;
  readonly index: number;
  readonly midi: number;
  readonly onsetS: number;
}

/** Every way up and down that was played. Only for scores that are scales. */
export function scaleRuns({ score, recording, alignment }: Piece): readonly ScaleRun[] {
  const strokes = alignment.pairs.map((pair, index) => ({ hand: handOf(writtenOf(score, pair.occurrence).occurrence), stretch: pair.stretch, stroke: { pair: index, index: placeInHand(score, pair.occurrence), midi: writtenOf(score, pair.occurrence).occurrence.midi, onsetS: playedOf(recording, pair.note).onsetS } }));
  return [...groupBy(strokes, ({ hand, stretch }) => `${hand} ${stretch}`).values()].flatMap((own) => {
    const [first] = own;
    if (first === undefined) return [];
    const line = own.map(({ stroke }) => stroke).sort((a, b) => a.index - b.index);
    return waysOf(line).flatMap((way) => runOf(way, first.hand, first.stretch));
  });
}

/** Which note of its hand, along the score. */
function placeInHand(score: Piece['score'], occurrence: number): number {
  return score.occurrences[occurrence]?.onsetTick ?? 0;
}

/** Parts of neighbours in one direction; the turning note belongs to both. */
function waysOf(line: readonly Stroke[]): readonly (readonly Stroke[])[] {
  const unit = Math.min(...line.slice(1).map(({ index }, i) => index - (line[i]?.index ?? 0)));
  const ways: Stroke[][] = [];
  line.forEach((stroke, i) => {
    const before = line[i - 1];
    const way = ways.at(-1);
    const earlier = way?.at(-2);
    const neighbours = before !== undefined && stroke.index - before.index === unit;
    const turns = before !== undefined && earlier !== undefined && stroke.midi > before.midi !== before.midi > earlier.midi;
    if (way === undefined || !neighbours) ways.push([stroke]);
    else if (turns) ways.push([before, stroke]);
    else way.push(stroke);
  });
  return ways;
}

/** One way, where it is long enough. */
function runOf(way: readonly Stroke[], hand: Hand, stretch: number): readonly ScaleRun[] {
  const distances = way.slice(1).map(({ onsetS }, i) => 1000 * (onsetS - (way[i]?.onsetS ?? 0)));
  const [first, second] = way;
  if (first === undefined || second === undefined || distances.length < LEAST_DISTANCES) return [];
  const line = linearRegressionLine(linearRegression(distances.map((distance, i) => [i, distance])));
  const off = distances.map((distance, i) => distance - line(i));
  // a note between two distances stands off by half their difference; where a wait makes two alike, it is the one after it
  const shifts = off.map((one, i) => ({ shift: i === off.length - 1 ? one / 2 : (one - (off[i + 1] ?? 0)) / 2, after: one }));
  const worst = shifts.reduce((most, { shift, after }, i) => (Math.abs(shift) + TIE * after > Math.abs(shifts[most]?.shift ?? 0) + TIE * (shifts[most]?.after ?? 0) ? i : most), 0);
  const sdMs = Math.sqrt(sum(off.map((one) => one ** 2)) / (distances.length - 2));
  return [{ hand, up: second.midi > first.midi, stretch, pairs: way.map(({ pair }) => pair), intervalMs: mean(distances), sdMs, variation: sdMs / mean(distances), worst: { pair: way[worst + 1]?.pair ?? first.pair, offMs: shifts[worst]?.shift ?? 0 } }];
}
