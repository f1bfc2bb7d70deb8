/*
 * The teacher's question: how did the beat go by?
 *
 * Conventions: one moment a beat of every visit, in order of time; seconds; beats as the time signature counts them (three
 *   units in compound time), from the first full beat of an upbeat bar.
 * Method: the local pulse, whatever is played on the beat itself left out, so that it follows rubato but not one late note; where the pulse has
 *   too little on one side, what was played there. A wait shows at the moment that was waited for.
 * Source: our own rule; that one note displaced by 40 ms at an interval of 500 ms must not move it follows from Friberg and Sundberg (1995).
 * What it does not tell: a beat on which nothing was played at the edge of a run.
 */
import { beatTicks, type Bar, type BarVisit, type Score } from '../score/index.js';
import type { Stretch } from '../align/index.js';
import type { PulseRun } from './pulseAcrossWaits.js';
import { bothHands, firstAtOrAfter, type PulsePoint } from './pulsePoints.js';
import type { BeatMoment } from './pulseTypes.js';

/** A run with the moments of both hands. */
interface Run {
  readonly run: PulseRun;
  readonly moments: readonly PulsePoint[];
}

/** Every beat of every stretch. @param runs what `pulseRuns` gave, by stretch */
export function beatCurve(score: Score, route: readonly Stretch[], runs: readonly (readonly PulseRun[])[]): readonly BeatMoment[] {
  return route.flatMap(({ index, fromVisit, toVisit }) => {
    const own = (runs[index] ?? []).map((run) => ({ run, moments: bothHands(run.lines) }));
    return score.order.slice(fromVisit, toVisit + 1).flatMap((visit) => beatsOf(score, visit).flatMap((tick): readonly BeatMoment[] => {
      const onsetS = momentAt(own, tick);
      return onsetS === null ? [] : [{ stretch: index, visitIndex: visit.index, tick, onsetS }];
    }));
  });
}

/** Unfolded ticks of the beats of a visit. */
export function beatsOf(score: Score, visit: BarVisit): readonly number[] {
  const bar = score.bars[visit.barIndex];
  if (bar === undefined) return [];
  const beat = beatTicks(score, bar);
  const ticks: number[] = [];
  for (let tick = firstBeat(bar, beat); tick < bar.lengthTicks; tick += beat) ticks.push(visit.startTick + tick);
  return ticks;
}

/** The first full beat of a bar: an upbeat may begin within one. */
function firstBeat({ implicit, lengthTicks }: Bar, beat: number): number {
  return implicit ? lengthTicks % beat : 0;
}

/** When a beat came, seconds; null where nothing tells. */
function momentAt(runs: readonly Run[], tick: number): number | null {
  const found = runs.find(({ moments }) => (moments[0]?.tick ?? Infinity) <= tick && (moments.at(-1)?.tick ?? -Infinity) >= tick);
  if (found === undefined) return null;
  const pulseS = found.run.pulse(tick);
  if (pulseS !== null) return pulseS;
  const played = found.moments[firstAtOrAfter(found.moments, tick)];
  return played?.tick === tick ? played.onsetS : null;
}
