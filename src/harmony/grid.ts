/*
 * Question: where may harmony change, and how strong is each such place in its bar?
 * Conventions: written ticks; level 0 is the start of a bar, 1 its middle, 2 a beat, 3 a division of the beat (halves in
 *   simple, thirds in compound time). Upbeats are counted back from the bar line they lead to.
 * Method: every onset that falls on such a place opens a cell; cells last until the next one.
 * Source: minimal segments after Pardo and Birmingham 2002, held to the metre (Temperley 2001: harmony changes on strong
 *   beats).
 * What it does not tell: syncopated harmony, which is heard at the place it belongs to.
 */
import { beatTicks, type Bar, type Score } from '../score/index.js';
import { mod } from './pitchNames.js';
import type { SoundingNote } from './notes.js';

/** Strength of a place in the bar, 0 strongest. */
export type Level = 0 | 1 | 2 | 3;

/** The smallest stretch that can hold a harmony. */
export interface Cell {
  readonly from: number;
  readonly to: number;
  readonly level: Level;
  readonly barIndex: number;
  /** Length of the beat here, ticks. */
  readonly beat: number;
}

/** Strength of a tick in its bar, or null for places finer than a division of the beat. */
export function levelAt(score: Score, bar: Bar, tick: number): Level | null {
  const beat = beatTicks(score, bar);
  const at = mod(tick - bar.startTick + lateness(bar), Math.max(1, bar.nominalTicks));
  if (at === 0) return 0;
  if (at * 2 === bar.nominalTicks && mod(at, beat) === 0) return 1;
  if (mod(at, beat) === 0) return 2;
  return mod(at * divisions(bar), beat) === 0 ? 3 : null;
}

/** How far into its metre an upbeat begins, ticks; 0 for other bars. */
function lateness(bar: Bar): number {
  return bar.lengthTicks < bar.nominalTicks && (bar.implicit || bar.index === 0) ? bar.nominalTicks - bar.lengthTicks : 0;
}

/** Into how many parts the beat falls first. */
function divisions(bar: Bar): number {
  return bar.time.beats > 3 && bar.time.beats % 3 === 0 ? 3 : 2;
}

/** The cells from the first sounding note to the end of the last; none for a silent score. */
export function harmonyCells(score: Score, notes: readonly SoundingNote[]): readonly Cell[] {
  const full = notes.filter((note) => !note.grace);
  const end = full.reduce((latest, note) => Math.max(latest, note.end), 0);
  const onsets = [...new Set(full.map((note) => note.onset))].sort((a, b) => a - b);
  const starts: Omit<Cell, 'to'>[] = [];
  let barAt = 0;
  for (const tick of onsets) {
    while (barAt + 1 < score.bars.length && (score.bars[barAt + 1]?.startTick ?? Infinity) <= tick) barAt += 1;
    const bar = score.bars[barAt];
    if (bar === undefined) continue;
    const level = levelAt(score, bar, tick) ?? (starts.length === 0 ? 3 : null);
    if (level !== null) starts.push({ from: tick, level, barIndex: bar.index, beat: beatTicks(score, bar) });
  }
  return starts.map((start, i) => ({ ...start, to: starts[i + 1]?.from ?? Math.max(end, start.from + 1) }));
}
