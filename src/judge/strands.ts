/**
 * From the route's stretches, which follow the playing order, to strands, which follow the paper.
 */
import type { Alignment, Hands, Stretch } from '../align/index.js';
import type { Score } from '../score/index.js';

/** How a strand of the route is come by. */
export type Arrival =
  | 'start'
  /** The pupil stopped and went back. */
  | 'back'
  /** The pupil jumped on, leaving bars out. */
  | 'on'
  /** A repeat was not taken: on paper the bars go on, in the playing order they jump. */
  | 'repeatLeftOut'
  /** The score itself sends back (a repeat) or on (past an ending). */
  | 'order';

/**
 * A run of neighbouring bars in the pupil's way through the score: what the route ribbon draws in
 * one stroke.
 */
export interface Strand {
  /** From 0, in time order. */
  readonly index: number;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  readonly fromVisit: number;
  readonly toVisit: number;
  /** Places in `Score.bars`. */
  readonly fromBar: number;
  readonly toBar: number;
  /** Written ticks of the first onset and of the end of the last note that was played. */
  readonly fromTick: number;
  readonly toTick: number;
  /** Seconds of the first onset and the last one. */
  readonly startS: number;
  readonly endS: number;
  readonly arrival: Arrival;
  readonly hands: Hands;
}

/** A run of visits before its times and ticks are known. */
type Run = Pick<Strand, 'stretch' | 'fromVisit' | 'toVisit' | 'arrival' | 'hands'>;

/** What a run's notes tell. */
type Extent = Pick<Strand, 'fromTick' | 'toTick' | 'startS' | 'endS'>;

/** Splits the route where the written bars do not follow each other. */
export function strandsOf(score: Score, alignment: Alignment, onsetsS: readonly number[]): readonly Strand[] {
  const runs = alignment.route.flatMap((stretch, i) => runsOf(score, stretch, alignment.route[i - 1]));
  const extents = extentsOf(score, alignment, onsetsS);
  return runs.map((run, index) => strandOf(score, alignment, { run, index, extents }));
}

/** A stretch cut where a repeat or an ending leads elsewhere. */
function runsOf(score: Score, stretch: Stretch, before: Stretch | undefined): readonly Run[] {
  const runs: Run[] = [];
  let from = stretch.fromVisit;
  for (let visit = stretch.fromVisit; visit <= stretch.toVisit; visit++) {
    const ends = visit === stretch.toVisit || barOf(score, visit + 1) !== barOf(score, visit) + 1;
    if (!ends) continue;
    const arrival = runs.length > 0 ? 'order' : arrivalOf(score, stretch, before);
    runs.push({ stretch: stretch.index, fromVisit: from, toVisit: visit, arrival, hands: stretch.hands });
    from = visit + 1;
  }
  return runs;
}

/**
 * Back or on, by where the stretch before ended; where the playing order lost more bars than the
 * paper, a repeat was left out.
 */
function arrivalOf(score: Score, stretch: Stretch, before: Stretch | undefined): Arrival {
  if (before === undefined) return 'start';
  // a hand came in or fell silent: the way itself goes on
  if (stretch.fromVisit === before.toVisit + 1) return 'order';
  if (stretch.fromVisit <= before.toVisit) return 'back';
  const written = barOf(score, stretch.fromVisit) - barOf(score, before.toVisit) - 1;
  const played = stretch.fromVisit - before.toVisit - 1;
  return played > Math.max(0, written) ? 'repeatLeftOut' : 'on';
}

/** First and last of what was played, by stretch and visit ("stretch:visit"). */
function extentsOf(score: Score, alignment: Alignment, onsetsS: readonly number[]): ReadonlyMap<string, Extent> {
  const extents = new Map<string, Extent>();
  for (const pair of alignment.pairs) {
    const occurrence = score.occurrences[pair.occurrence];
    const onset = onsetsS[pair.note];
    if (occurrence === undefined || onset === undefined) continue;
    const visit = score.order[occurrence.visitIndex];
    const bar = score.bars[occurrence.barIndex];
    if (visit === undefined || bar === undefined) continue;
    const shift = bar.startTick - visit.startTick;
    const end = Math.min(occurrence.endTick + shift, bar.startTick + bar.lengthTicks);
    widen(extents, `${pair.stretch}:${occurrence.visitIndex}`, { fromTick: occurrence.onsetTick + shift, toTick: end, startS: onset, endS: onset });
  }
  return extents;
}

/** Adds one note's extent to that of its visit. */
function widen(extents: Map<string, Extent>, key: string, note: Extent): void {
  const known = extents.get(key) ?? note;
  extents.set(key, {
    fromTick: Math.min(known.fromTick, note.fromTick),
    toTick: Math.max(known.toTick, note.toTick),
    startS: Math.min(known.startS, note.startS),
    endS: Math.max(known.endS, note.endS),
  });
}

/** A run with its ends; the edges of its bars and stretch where no note tells. */
function strandOf(score: Score, alignment: Alignment, found: { run: Run; index: number; extents: ReadonlyMap<string, Extent> }): Strand {
  const { run, index, extents } = found;
  const first = extents.get(`${run.stretch}:${run.fromVisit}`);
  const last = extents.get(`${run.stretch}:${run.toVisit}`);
  const stretch = alignment.route[run.stretch];
  const fromBar = barOf(score, run.fromVisit);
  const toBar = barOf(score, run.toVisit);
  const end = score.bars[toBar];
  return {
    ...run,
    index,
    fromBar,
    toBar,
    fromTick: first?.fromTick ?? score.bars[fromBar]?.startTick ?? 0,
    toTick: last?.toTick ?? (end === undefined ? 0 : end.startTick + end.lengthTicks),
    startS: first?.startS ?? stretch?.startS ?? 0,
    endS: last?.endS ?? stretch?.endS ?? 0,
  };
}

/** Place in `Score.bars` of a visit; -1 past the end, which follows no bar. */
function barOf(score: Score, visit: number): number {
  return score.order[visit]?.barIndex ?? -1;
}

/** True where the player went back over what he had played; not where a hand has had its turn and the other, or both, follow. */
export function wentBack(strands: readonly Strand[], index: number): boolean {
  const [before, strand] = [strands[index - 1], strands[index]];
  return before !== undefined && strand?.arrival === 'back' && (before.hands === 'both' || strand.hands === before.hands);
}
