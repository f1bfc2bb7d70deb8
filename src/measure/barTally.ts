import type { Added, Stretch } from '../align/index.js';
import { handOf, type Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import type { OnsetDeviation } from './types.js';

/** What was counted in one visit to one bar. */
export interface Tally {
  readonly attempt: number;
  readonly played: number;
  readonly wrong: number;
  readonly missed: number;
  readonly added: number;
  /** First and last onset, seconds; the last is before the first where nothing sounded. */
  readonly firstS: number;
  readonly lastS: number;
  readonly deviationsMs: Readonly<Record<Hand, readonly number[]>>;
}

/** Tallies by stretch and visit. */
export interface Tallies {
  /** @throws RangeError for a visit that the stretch does not make */
  readonly at: (stretch: number, visit: number) => Tally;
}

/** A tally while it is being counted. */
interface Count {
  attempt: number;
  played: number;
  wrong: number;
  missed: number;
  added: number;
  firstS: number;
  lastS: number;
  readonly deviationsMs: Record<Hand, number[]>;
}

/** The tallies of one stretch, from its first visit on. */
interface StretchCounts {
  readonly fromVisit: number;
  readonly counts: readonly Count[];
}

/** Counts every pair, miss and press of the alignment into the visit to the bar where it belongs. */
export function tallyVisits(piece: Piece, onsets: readonly OnsetDeviation[]): Tallies {
  const stretches = emptyCounts(piece.alignment.route);
  countPairs(piece, stretches, onsets);
  for (const { note, occurrence, stretch } of piece.alignment.ornaments) sounded(countAt(stretches, stretch, visitOf(piece, occurrence)), piece, note);
  const replaced = countPresses(piece, stretches);
  for (const { occurrence, stretch, attempt } of piece.alignment.missed) {
    const count = countAt(stretches, stretch, visitOf(piece, occurrence));
    count.attempt = attempt;
    if (replaced.get(stretch)?.has(occurrence) !== true) count.missed += 1;
  }
  return { at: (stretch, visit) => countAt(stretches, stretch, visit) };
}

/**
 * An attempt is a visit of the route to the same bar and pass; the stretches are gone through in time order. Where the
 * alignment holds a note of the bar, its word counts.
 */
function emptyCounts(route: readonly Stretch[]): readonly StretchCounts[] {
  const attempts = new Map<number, number>();
  return route.map(({ fromVisit, toVisit }) => ({
    fromVisit,
    counts: Array.from({ length: toVisit - fromVisit + 1 }, (_, i): Count => {
      const attempt = (attempts.get(fromVisit + i) ?? 0) + 1;
      attempts.set(fromVisit + i, attempt);
      return { attempt, played: 0, wrong: 0, missed: 0, added: 0, firstS: Infinity, lastS: -Infinity, deviationsMs: { right: [], left: [] } };
    }),
  }));
}

/** Counts notes that were played, with how far each stands from the pulse. */
function countPairs(piece: Piece, stretches: readonly StretchCounts[], onsets: readonly OnsetDeviation[]): void {
  piece.alignment.pairs.forEach((pair, index) => {
    const { occurrence } = writtenOf(piece.score, pair.occurrence);
    const count = countAt(stretches, pair.stretch, occurrence.visitIndex);
    const deviationMs = onsets[index]?.deviationMs;
    count.attempt = pair.attempt;
    count.played += 1;
    sounded(count, piece, pair.note);
    if (deviationMs?.measured === true) count.deviationsMs[handOf(occurrence)].push(deviationMs.value);
  });
}

/** Counts wrong and added presses; gives back, by stretch, the written notes that a wrong one stands for. */
function countPresses(piece: Piece, stretches: readonly StretchCounts[]): ReadonlyMap<number, ReadonlySet<number>> {
  const replaced = new Map<number, Set<number>>();
  for (const press of piece.alignment.added) {
    const place = placeOf(press);
    if (place === null) continue;
    const count = nearestCount(stretches, place.stretch, visitOf(piece, place.near));
    sounded(count, piece, press.note);
    if (press.instead) {
      count.wrong += 1;
      replaced.set(place.stretch, (replaced.get(place.stretch) ?? new Set()).add(place.near));
    } else count.added += 1;
  }
  return replaced;
}

/** Where a press belongs, or null for one before or after the music. */
function placeOf({ stretch, near }: Added): { readonly stretch: number; readonly near: number } | null {
  return stretch === null || near === null ? null : { stretch, near };
}

/** The visit to a bar that an occurrence belongs to. */
function visitOf(piece: Piece, occurrence: number): number {
  return writtenOf(piece.score, occurrence).occurrence.visitIndex;
}

/** Stretches the time of a visit to hold this onset. */
function sounded(count: Count, piece: Piece, note: number): void {
  const { onsetS } = playedOf(piece.recording, note);
  count.firstS = Math.min(count.firstS, onsetS);
  count.lastS = Math.max(count.lastS, onsetS);
}

/** The count of one visit; to ask for one that the stretch does not make is a fault of the alignment. */
function countAt(stretches: readonly StretchCounts[], stretch: number, visit: number): Count {
  const counts = stretches[stretch];
  const count = counts?.counts[visit - counts.fromVisit];
  if (count === undefined) throw new RangeError(`stretch ${stretch} does not come to visit ${visit}`);
  return count;
}

/** The visit itself, or the first or last of the stretch where the nearest written note lies just beyond it. */
function nearestCount(stretches: readonly StretchCounts[], stretch: number, visit: number): Count {
  const { fromVisit = 0, counts = [] } = stretches[stretch] ?? {};
  return countAt(stretches, stretch, Math.min(Math.max(visit, fromVisit), fromVisit + counts.length - 1));
}
