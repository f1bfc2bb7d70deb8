import type { Score } from '../score/index.js';
import type { PairedRun } from './pairNotes.js';
import { handOf, RIGHT } from './slots.js';
import type { Hands } from './types.js';

/** What one run did in one bar of the playing order. */
export interface RunVisit {
  readonly visit: number;
  /** Which time the route comes to this bar and pass, from 1. */
  readonly attempt: number;
  readonly rightWritten: number;
  readonly rightPlayed: number;
  readonly leftWritten: number;
  readonly leftPlayed: number;
}

/** A run with its bars in playing order. */
export interface VisitedRun {
  readonly paired: PairedRun;
  readonly visits: readonly RunVisit[];
}

type Counts = Record<'rightWritten' | 'rightPlayed' | 'leftWritten' | 'leftPlayed', number>;

/** Occurrences by visit of the playing order. */
export function occurrencesByVisit(score: Score): number[][] {
  const lists: number[][] = score.order.map(() => []);
  for (const occurrence of score.occurrences) lists[occurrence.visitIndex]?.push(occurrence.index);
  return lists;
}

function countVisit(score: Score, written: readonly number[], played: ReadonlySet<number>): Counts {
  const counts: Counts = { rightWritten: 0, rightPlayed: 0, leftWritten: 0, leftPlayed: 0 };
  for (const id of written) {
    const right = handOf(score.occurrences[id]?.staff ?? 1) === RIGHT;
    counts[right ? 'rightWritten' : 'leftWritten'] += 1;
    if (played.has(id)) counts[right ? 'rightPlayed' : 'leftPlayed'] += 1;
  }
  return counts;
}

/** Counts the bars of each run, and which attempt each is. */
export function visitRuns(score: Score, runs: readonly PairedRun[]): VisitedRun[] {
  const byVisit = occurrencesByVisit(score);
  const attempts = score.order.map(() => 0);
  return runs.map((paired) => {
    const played = new Set(paired.pairs.map((pair) => pair.occurrence));
    const touched = [...played].map((id) => score.occurrences[id]?.visitIndex ?? 0);
    const from = touched.reduce((a, b) => Math.min(a, b), Infinity);
    const to = touched.reduce((a, b) => Math.max(a, b), -1);
    const visits: RunVisit[] = [];
    for (let visit = from; visit <= to; visit += 1) {
      attempts[visit] = (attempts[visit] ?? 0) + 1;
      visits.push({ visit, attempt: attempts[visit] ?? 1, ...countVisit(score, byVisit[visit] ?? [], played) });
    }
    return { paired, visits };
  });
}

/** A hand counts as silent over bars where it has at least so many notes and plays at most `SILENT_SHARE` of them. */
const SILENT_NOTES = 6;
const SILENT_SHARE = 0.1;

/** Hands over some bars together. */
export function handsOf(visits: readonly RunVisit[]): Hands {
  const sum = (pick: (visit: RunVisit) => number): number => visits.reduce((total, visit) => total + pick(visit), 0);
  const silent = (written: number, played: number): boolean => written > 0 && played <= SILENT_SHARE * written;
  const right = silent(sum((v) => v.rightWritten), sum((v) => v.rightPlayed));
  const left = silent(sum((v) => v.leftWritten), sum((v) => v.leftPlayed));
  if (right === left) return 'both';
  return right ? 'left' : 'right';
}

type SilentHand = 'right' | 'left' | null;

function silentAt(visit: RunVisit): SilentHand {
  if (visit.leftWritten > 0 && visit.leftPlayed === 0 && visit.rightPlayed > 0) return 'left';
  if (visit.rightWritten > 0 && visit.rightPlayed === 0 && visit.leftPlayed > 0) return 'right';
  return null;
}

/**
 * Cuts a run's bars where a hand falls silent or comes in: `[first, last]` places in `visits`, covering all.
 * A few missed notes do not make a hand silent: it takes two bars and `SILENT_NOTES` written notes.
 */
export function cutByHands(visits: readonly RunVisit[]): (readonly [number, number])[] {
  const cuts = new Set<number>([0]);
  // what one hand's silence took in does not belong to the next one as well
  let heard = 0;
  for (let i = 0; i < visits.length;) {
    const here = visits[i];
    const silent = here ? silentAt(here) : null;
    let j = i + 1;
    while (silent !== null && j < visits.length && sameSilence(visits[j], silent)) j += 1;
    const written = visits.slice(i, j).reduce((total, v) => total + (silent === 'left' ? v.leftWritten : v.rightWritten), 0);
    if (silent !== null && j - i >= 2 && written >= SILENT_NOTES) { cuts.add(restsBefore(visits, { at: i, until: heard, silent })); cuts.add(j); heard = j; }
    i = j;
  }
  const starts = [...cuts].filter((at) => at < visits.length).sort((a, b) => a - b);
  return starts.map((start, k) => [start, (starts[k + 1] ?? visits.length) - 1] as const);
}

// Where bars in which the silent hand has nothing to play lead up to its silence (an upbeat, say), they belong to it.
function restsBefore(visits: readonly RunVisit[], { at, until, silent }: { readonly at: number; readonly until: number; readonly silent: 'right' | 'left' }): number {
  let start = at;
  const rests = (visit: RunVisit | undefined): boolean => visit !== undefined && (silent === 'left' ? visit.leftWritten : visit.rightWritten) === 0;
  while (start > until && rests(visits[start - 1])) start -= 1;
  return start;
}

function sameSilence(visit: RunVisit | undefined, silent: 'right' | 'left'): boolean {
  if (!visit) return false;
  return silent === 'left' ? visit.leftPlayed === 0 : visit.rightPlayed === 0;
}
