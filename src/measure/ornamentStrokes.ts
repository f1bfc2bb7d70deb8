/*
 * The teacher's question: does the trill roll, and are the small notes of the turn alike?
 *
 * Conventions: one entry an ornamented note whose strokes tell something. Distances in ms, from stroke to stroke. `variation` and
 *   `variationButLilt` as for runs (evenRuns.ts), 0 upwards; `longestTimes` the longest distance by the middle one, 1 upwards.
 * Method: of a trill the longest row of strokes that go to and fro between the written note and one neighbour; its first and last
 *   distances are left out, as a trill may lean on its first note and come to rest on its last. It may quicken on the way: distances
 *   are held against their own straight line. Of a turn the distances between its last four strokes, one value by notation; what is held
 *   before them is the written note.
 * Source: our own rule; that a trill may begin slowly and that a turn is one value are common practice.
 * What it does not tell: with which note it should begin, how many strokes it should have, whether it is quick enough.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import type { Ornament } from '../score/index.js';
import { RUN_LEAST_DISTANCES, variationButLilt, variationOf } from './evenRuns.js';
import { handOf } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import type { OrnamentStrokes } from './rhythmTypes.js';

/** Signs that ask for strokes to and fro, and signs that ask for a turn. */
const TRILLS: ReadonlySet<Ornament> = new Set(['trill', 'shake', 'wavyLine']);
const TURNS: ReadonlySet<Ornament> = new Set(['turn', 'invertedTurn', 'delayedTurn']);

/** Distances of a turn that are one value: those of its last four strokes. */
const TURN_DISTANCES = 3;

/** One press of an ornament. */
interface Stroke {
  readonly onsetS: number;
  readonly pitch: number;
}

/** Every trill and turn that was played with enough strokes to tell. */
export function ornamentStrokes(piece: Piece): readonly OrnamentStrokes[] {
  const { score, recording, alignment } = piece;
  const extra = groupBy(alignment.ornaments, ({ stretch, occurrence }) => `${stretch} ${occurrence}`);
  return alignment.pairs.flatMap((pair, place): readonly OrnamentStrokes[] => {
    const { occurrence, note } = writtenOf(score, pair.occurrence);
    const kind = note.ornaments.some((sign) => TRILLS.has(sign)) ? 'trill' : note.ornaments.some((sign) => TURNS.has(sign)) ? 'turn' : null;
    if (kind === null) return [];
    const presses = [pair.note, ...(extra.get(`${pair.stretch} ${pair.occurrence}`) ?? []).map((one) => one.note)];
    const strokes = presses.map((one): Stroke => playedOf(recording, one)).sort((a, b) => a.onsetS - b.onsetS);
    const distances = kind === 'trill' ? trillDistances(strokes) : turnDistances(strokes);
    if (distances === null || Math.min(...distances) <= 0) return [];
    return [{ kind, stretch: pair.stretch, visitIndex: occurrence.visitIndex, hand: handOf(occurrence), pairs: [place], ...evenness(distances) }];
  });
}

/** Distances of the longest row to and fro, seconds, without its first and its last; null where it is short. */
function trillDistances(strokes: readonly Stroke[]): readonly number[] | null {
  const rows = strokes.reduce<readonly (readonly Stroke[])[]>((all, stroke) => {
    const row = all.at(-1) ?? [];
    const [last, before] = [row.at(-1), row.at(-2)];
    const goesOn = last === undefined || (stroke.pitch !== last.pitch && (before === undefined || stroke.pitch === before.pitch));
    if (goesOn) return [...all.slice(0, -1), [...row, stroke]];
    // the last stroke to one neighbour is the first to another
    return [...all, last.pitch === stroke.pitch ? [stroke] : [last, stroke]];
  }, []);
  const longest = rows.reduce<readonly Stroke[]>((a, b) => (b.length > a.length ? b : a), []);
  const distances = distancesOf(longest).slice(1, -1);
  return distances.length < RUN_LEAST_DISTANCES ? null : distances;
}

/** Distances of the last four strokes, seconds; null where they do not go round their note: one neighbour, the note, the other, the note. */
function turnDistances(strokes: readonly Stroke[]): readonly number[] | null {
  const last = strokes.slice(-TURN_DISTANCES - 1);
  const [one, two, three, four] = last.map(({ pitch }) => pitch);
  if (one === undefined || two === undefined || three === undefined || two !== four || (one - two) * (three - two) >= 0) return null;
  return distancesOf(last);
}

/** From stroke to stroke. */
function distancesOf(strokes: readonly Stroke[]): readonly number[] {
  return strokes.slice(1).map(({ onsetS }, i) => onsetS - (strokes[i]?.onsetS ?? onsetS));
}

/** How alike some distances are. */
function evenness(distances: readonly number[]): Pick<OrnamentStrokes, 'strokes' | 'intervalMs' | 'variation' | 'variationButLilt' | 'longestTimes'> {
  const middle = median([...distances]);
  return {
    strokes: distances.length + 1, intervalMs: 1000 * middle, variation: variationOf(distances),
    variationButLilt: distances.length < RUN_LEAST_DISTANCES ? variationOf(distances) : variationButLilt(distances), longestTimes: Math.max(...distances) / middle,
  };
}
