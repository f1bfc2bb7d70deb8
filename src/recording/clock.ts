import { firstIndex } from '../base/index.js';
import tonejs from '@tonejs/midi';
import type { Division } from './chunks.js';

/** Seconds from the start of the file for a tick. Ticks are whole and not negative. */
export type Clock = (tick: number) => number;

/** A tempo from this tick on. */
export interface TempoChange {
  readonly tick: number;
  /** Microseconds a crotchet, above 0. */
  readonly microseconds: number;
}

/** Crotchets a minute where a file names no tempo (Standard MIDI File 1.1: 500000 microseconds a crotchet). */
export const DEFAULT_TEMPO = 120;

/**
 * The clock of a file, or of one track of a format 2 file. Where time is counted in frames, tempo changes nothing.
 * @param tempos in any order; of several at one tick the last counts
 */
export function clockOf(division: Division, tempos: readonly TempoChange[]): Clock {
  if (division.kind === 'second') return (tick) => tick / division.ticks;
  const segments = tempoMap(division.ticks, tempos);
  return (tick) => {
    const { tick: from, seconds, bpm } = segmentAt(segments, tick);
    return seconds + ((tick - from) / division.ticks) * (60 / bpm);
  };
}

/** One stretch of steady tempo: where and when it begins. */
interface Segment {
  readonly tick: number;
  readonly seconds: number;
  readonly bpm: number;
}

/**
 * The tempo map as @tonejs/midi works it out. A tempo is always given at tick 0, because that library counts the time
 * before the first change at the tempo of that change instead of at the default.
 */
function tempoMap(ppq: number, tempos: readonly TempoChange[]): readonly Segment[] {
  const header = new tonejs.Header();
  const changes = tempos.map(({ tick, microseconds }) => ({ ticks: tick, bpm: 60_000_000 / microseconds }));
  header.fromJSON({
    name: '', ppq, meta: [], keySignatures: [], timeSignatures: [], tempos: [{ ticks: 0, bpm: DEFAULT_TEMPO }, ...changes],
  });
  return header.tempos.map(({ ticks, time, bpm }) => ({ tick: ticks, seconds: time ?? 0, bpm }));
}

/** The last segment that begins at or before the tick, by halving. */
function segmentAt(segments: readonly Segment[], tick: number): Segment {
  // the first one holds also what comes before it
  const found = segments[firstIndex(segments.length, (i) => (segments[i]?.tick ?? Infinity) > tick, 1) - 1];
  if (found === undefined) throw new RangeError('a tempo map holds at least one tempo');
  return found;
}
