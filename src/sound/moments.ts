import { groupBy } from '../base/index.js';
import { beatTicks } from '../score/index.js';
import { crotchetIn } from './lengthWords.js';
import type { SoundInput } from './types.js';

/** A moment as played and where it stands on the page. */
export interface ShownMoment {
  readonly timeS: number;
  readonly barIndex: number;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Ids of the written notes that begin there; the first is where a cursor stands. */
  readonly notes: readonly string[];
}

/** A bar as it was gone through, for beginning there. */
export interface ShownBar {
  readonly barIndex: number;
  readonly stretch: number;
  readonly attempt: number;
  readonly startS: number;
  /** Length of a beat there, seconds, and beats in the bar. */
  readonly beatS: number;
  readonly beats: number;
}

/** Every written moment that was played, in order of time. */
export function shownMoments({ score, alignment, recording }: SoundInput): readonly ShownMoment[] {
  const groups = groupBy(alignment.pairs, ({ stretch, occurrence }) => `${stretch} ${score.occurrences[occurrence]?.onsetTick}`);
  return [...groups.values()].flatMap((pairs) => {
    const written = pairs.flatMap(({ occurrence }) => score.occurrences[occurrence] ?? []);
    const [first] = written;
    if (first === undefined) return [];
    const timeS = Math.min(...pairs.map(({ note }) => recording.notes[note]?.onsetS ?? Infinity));
    return [{ timeS, barIndex: first.barIndex, stretch: pairs[0]?.stretch ?? 0, notes: written.flatMap(({ noteIndex }) => score.notes[noteIndex]?.id ?? []) }];
  }).sort((a, b) => a.timeS - b.timeS);
}

/** Every bar that was gone through, in order of time. */
export function shownBars({ score, measures }: SoundInput): readonly ShownBar[] {
  return measures.bars.flatMap((visit) => {
    const bar = score.bars[visit.barIndex];
    if (bar === undefined || visit.played + visit.wrong === 0) return [];
    const beat = beatTicks(score, bar);
    const beatS = (crotchetIn(measures, visit) * beat) / score.ticksPerQuarter;
    return [{ barIndex: visit.barIndex, stretch: visit.stretch, attempt: visit.attempt, startS: visit.startS, beatS, beats: Math.max(1, Math.round(bar.nominalTicks / beat)) }];
  }).sort((a, b) => a.startS - b.startS);
}
