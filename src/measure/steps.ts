/*
 * The teacher's question: did the playing wait here, and by how much?
 *
 * Conventions: seconds, one entry a gap between two neighbouring moments (both hands together) of one run of playing, in
 *   order of ticks; positive where everything from the later moment on comes that much later than the tempo
 *   before and after it would bring it. A note that is late by itself, the next one on time again, is no step.
 * Method: the tempo on either side is the median of seconds a tick over all runs of gaps there that make a crotchet; the gap
 *   itself is expected at the mean of both. Every pair of one moment before and one after gives a step: what lies
 *   between them beyond the tempo. The median of them counts, so that one displaced note on either side does not; but no more
 *   of it than the gap itself was too long, so that a wait shows in one gap only.
 * Source: our own rule; the median of pairs is after Theil (1950) and Sen (1968). That one displaced note must not count follows from Friberg and
 *   Sundberg (1995): 2.5 % of the interval is just heard.
 * What it does not tell: whether the wait was meant. The last two moments of a run have too little after them.
 */
import { median } from 'simple-statistics';
import type { PulsePoint } from './pulsePoints.js';

/** Moments asked on either side (at most): of four, one late one cannot sway the median. */
const STEP_MOMENTS = 4;

/** Moments needed from the later one on (>=): with three, one late one cannot sway the median. */
const LEAST_AFTER = 3;

/** Gaps on either side that tell the tempo: at least (where there are so many) … */
const LEAST_GAPS = 4;

/** … and further ones up to (<=) so many crotchets away: a bar of common time … */
const TEMPO_CROTCHETS = 4;

/** … but no more than this. */
const MOST_GAPS = 16;

/** What lies between two neighbouring moments. */
export interface Step {
  readonly fromTick: number;
  /** The later moment. */
  readonly tick: number;
  /** When it sounded, seconds. */
  readonly onsetS: number;
  /** Seconds between them. */
  readonly gapS: number;
  /** Seconds that the tempo before and after gives the gap. */
  readonly expectedS: number;
  /** Seconds by which the later moment and all that follows come later than expected; below 0 where they come earlier. */
  readonly waitS: number;
  /** How much slower the last gaps before it already were than those before them; 1 for not at all. */
  readonly prepared: number;
}

/** A gap with its length in ticks. */
interface Gap {
  readonly ticks: number;
  readonly seconds: number;
}

/** The steps of a run of moments, in order of ticks; gaps near the end of the run have none. */
export function stepsOf(moments: readonly PulsePoint[], ticksPerQuarter: number): readonly Step[] {
  const gaps = gapsOf(moments);
  const reach = TEMPO_CROTCHETS * ticksPerQuarter;
  return gaps.flatMap((gap, place) => {
    const from = moments[place];
    const to = moments[place + 1];
    if (from === undefined || to === undefined || moments.length - (place + 1) < LEAST_AFTER) return [];
    const before = tempoOf(gapsFrom(gaps, { place, step: -1, reach }), ticksPerQuarter);
    const after = tempoOf(gapsFrom(gaps, { place, step: 1, reach }), ticksPerQuarter);
    const left = before ?? after;
    const right = after ?? before;
    if (left === null || right === null) return [];
    const expectedS = gap.ticks * ((left + right) / 2);
    const waitS = Math.min(stepAt(moments, place, { left, right, expectedS }), gap.seconds - expectedS);
    return [{ fromTick: from.tick, tick: to.tick, onsetS: to.onsetS, gapS: gap.seconds, expectedS, waitS, prepared: preparation(gaps, place, { slope: left, crotchetTicks: ticksPerQuarter }) }];
  });
}

/** The gap after each moment but the last. */
function gapsOf(moments: readonly PulsePoint[]): readonly Gap[] {
  return moments.slice(1).map((moment, i) => {
    const before = moments[i] ?? moment;
    return { ticks: moment.tick - before.tick, seconds: moment.onsetS - before.onsetS };
  });
}

/** Gaps on one side of a place, nearest first. */
function gapsFrom(gaps: readonly Gap[], { place, step, reach }: { readonly place: number; readonly step: 1 | -1; readonly reach: number }): readonly Gap[] {
  const found: Gap[] = [];
  let ticks = 0;
  for (let i = place + step; found.length < MOST_GAPS; i += step) {
    const gap = gaps[i];
    if (gap === undefined) break;
    ticks += gap.ticks;
    if (found.length >= LEAST_GAPS && ticks > reach) break;
    found.push(gap);
  }
  return found;
}

/**
 * Seconds a tick: the median over all runs of gaps that make a crotchet; null without a gap. A lilt within the crotchet does not count
 * in it, nor does one wait.
 */
function tempoOf(gaps: readonly Gap[], crotchetTicks: number): number | null {
  const slopes: number[] = [];
  let ticks = 0;
  let seconds = 0;
  let first = 0;
  for (const gap of gaps) {
    ticks += gap.ticks;
    seconds += gap.seconds;
    for (let drop = gaps[first]; drop !== undefined && ticks - drop.ticks >= crotchetTicks; drop = gaps[first]) {
      ticks -= drop.ticks;
      seconds -= drop.seconds;
      first += 1;
    }
    if (ticks >= crotchetTicks) slopes.push(seconds / ticks);
  }
  if (slopes.length > 0) return median(slopes);
  return ticks > 0 ? seconds / ticks : null;
}

/** Median over pairs of moments of what lies between them beyond the tempo. */
function stepAt(moments: readonly PulsePoint[], place: number, { left, right, expectedS }: { readonly left: number; readonly right: number; readonly expectedS: number }): number {
  const from = moments[place]?.tick ?? 0;
  const to = moments[place + 1]?.tick ?? 0;
  const steps: number[] = [];
  for (const before of moments.slice(Math.max(0, place + 1 - STEP_MOMENTS), place + 1)) {
    for (const after of moments.slice(place + 1, place + 1 + STEP_MOMENTS)) {
      steps.push(after.onsetS - before.onsetS - left * (from - before.tick) - expectedS - right * (after.tick - to));
    }
  }
  return median(steps);
}

/** How much slower the crotchet before a place (or the one gap that is longer) was than the tempo before it; 1 where it was not. */
function preparation(gaps: readonly Gap[], place: number, { slope, crotchetTicks }: { readonly slope: number; readonly crotchetTicks: number }): number {
  let ticks = 0;
  let seconds = 0;
  for (let i = place - 1; i >= 0 && ticks < crotchetTicks; i -= 1) {
    ticks += gaps[i]?.ticks ?? 0;
    seconds += gaps[i]?.seconds ?? 0;
  }
  return ticks === 0 || slope <= 0 ? 1 : Math.max(1, seconds / ticks / slope);
}
