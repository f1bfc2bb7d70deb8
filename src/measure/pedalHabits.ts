/*
 * The teacher's question: how does this foot go about it, all in all?
 *
 * Conventions: seconds; shares 0-1; time outside the music (before, between and after stretches) does not count.
 * Method: counted over the changes of harmony. A press is together with its chord within `TOGETHER_S`; presses that follow one another more
 *   quickly than `FLUTTER_S`, `FLUTTER_PRESSES` or more, are a flutter.
 * Source: our own rule. Fast legs press about three times a second at the most (teachers' common practice).
 * What it does not tell: whether any of it is heard.
 */
import { median } from 'simple-statistics';
import { measured, notMeasured, type Measured } from '../base/index.js';
import type { Recording } from '../recording/index.js';
import { contactOf, firstDownAfter, type FootDown } from './footCurve.js';
import type { PedalChange, PedalHabits } from './pedalTypes.js';
import { downTimes, PEDAL_HOLDS } from './soundEnds.js';

/** A press this close (<=) to the chord is down with it, seconds: below it nobody hears which came first (order of onsets: 60 ms). */
const TOGETHER_S = 0.06;

/** Presses that follow sooner (<) than this after one another are a flutter, seconds, where there are so many (>=). */
const FLUTTER_S = 0.4;
const FLUTTER_PRESSES = 4;

/** Fewest changes (>=) that tell a habit of timing. */
const LEAST_CHANGES = 4;

/** A lift counts as one of a change within these limits (<=) around the new sound, seconds. */
const CHANGE_LIFT_S = { before: 0.3, after: 0.6 } as const;

/** A stretch of music in seconds. */
export interface MusicTime {
  readonly fromS: number;
  readonly toS: number;
}

/** The habits of a whole recording. */
export function pedalHabits(recording: Recording, changes: readonly PedalChange[], { downs, music }: { readonly downs: readonly FootDown[]; readonly music: readonly MusicTime[] }): PedalHabits {
  const lengthS = music.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);
  const share = (times: readonly MusicTime[]): number => (lengthS === 0 ? 0 : music.reduce((sum, one) => sum + within(times, one), 0) / lengthS);
  const lifts = changes.flatMap(({ foot, liftS }) => (foot === 'changed' && liftS !== null && liftS >= -CHANGE_LIFT_S.before && liftS <= CHANGE_LIFT_S.after ? [liftS] : []));
  const presses = changes.flatMap(({ pressS, foot }) => (pressS !== null && (foot === 'changed' || foot === 'pressed') ? [pressS] : []));
  const reached = changes.filter(({ foot }) => foot === 'held' || foot === 'changed' || foot === 'lifted');
  return {
    downShare: share(downs.map(({ fromS, toS }) => ({ fromS, toS }))),
    presses: downs.length,
    reachedDown: reached.length,
    lifted: reached.filter(({ foot }) => foot !== 'held').length,
    liftLagS: middle(lifts),
    pressLagS: middle(presses),
    withTheChord: presses.length < LEAST_CHANGES ? notMeasured('the pedal is pressed at too few changes of harmony') : measured(presses.filter((pressS) => Math.abs(pressS) <= TOGETHER_S).length / presses.length),
    flutters: fluttersOf(downs),
    halfShare: halfShare(recording),
    softShare: share(downTimes(recording.soft, PEDAL_HOLDS, recording.durationS)),
    sostenutoPresses: downTimes(recording.sostenuto, PEDAL_HOLDS, recording.durationS).length,
  };
}

/** How much of a stretch some times, in order, cover, seconds. */
export function within(times: readonly MusicTime[], { fromS, toS }: MusicTime): number {
  return times.reduce((sum, time) => sum + Math.max(0, Math.min(toS, time.toS) - Math.max(fromS, time.fromS)), 0);
}

/** The share of a stretch that the foot is down; `downs` in order, looked up by halving. */
export function downShare(downs: readonly MusicTime[], { fromS, toS }: MusicTime): number {
  if (toS <= fromS) return 0;
  let covered = 0;
  for (let i = firstDownAfter(downs, fromS); i < downs.length; i += 1) {
    const down = downs[i];
    if (down === undefined || down.fromS >= toS) break;
    covered += Math.min(toS, down.toS) - Math.max(fromS, down.fromS);
  }
  return covered / (toS - fromS);
}

/** Median, or why there is none. */
function middle(values: readonly number[]): Measured<number> {
  return values.length < LEAST_CHANGES ? notMeasured('the foot moves at too few changes of harmony') : measured(median([...values]));
}

/** Runs of presses that follow one another too quickly. */
function fluttersOf(downs: readonly FootDown[]): PedalHabits['flutters'] {
  const runs: FootDown[][] = [];
  downs.forEach((down, i) => {
    const before = downs[i - 1];
    if (before === undefined || down.fromS - before.fromS >= FLUTTER_S) runs.push([down]);
    else runs.at(-1)?.push(down);
  });
  return runs.filter(({ length }) => length >= FLUTTER_PRESSES).map((run) => ({ fromS: run[0]?.fromS ?? 0, toS: run.at(-1)?.toS ?? 0, presses: run.length }));
}

/** Share of the time down at which the dampers still touch the strings. */
function halfShare({ sustain, limits, durationS }: Recording): Measured<number> {
  if (limits.some(({ kind }) => kind === 'switch-pedal' || kind === 'no-pedal')) return notMeasured('the pedal was not sent as a curve');
  let [down, half] = [0, 0];
  sustain.forEach(({ timeS, value }, i) => {
    const lastsS = (sustain[i + 1]?.timeS ?? durationS) - timeS;
    const contact = contactOf(value);
    if (contact < 1) down += lastsS;
    if (contact > 0 && contact < 1) half += lastsS;
  });
  return down > 0 ? measured(half / down) : notMeasured('the pedal was never down');
}
