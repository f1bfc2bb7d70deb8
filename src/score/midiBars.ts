/**
 * Grid and bars of a score made from a MIDI file. A file that was played rather than written gives a guess at best;
 * the reader of the score says so.
 */
import { InputError } from '../base/index.js';
import { ticksOfBar } from './bars.js';
import { MAX_BARS } from './limits.js';
import type { MidiContent, Since } from './midiEvents.js';
import type { Bar } from './types.js';

/**
 * Grid of a score made from a MIDI file: ticks to the crotchet. 24 holds demisemiquavers (3 ticks) and the six equal
 * parts of a crotchet (4 ticks), so that triplets of quavers and semiquavers are whole too.
 */
export const MIDI_GRID = 24;

/** Steps of the two grids in ticks: an eighth and a sixth of a crotchet. The finer binary one wins where both are as near. */
const BINARY_STEP = 3;
const TERNARY_STEP = 4;

/** The nearest place of either grid, in ticks of the score. */
export function onGrid(tick: number, ticksPerQuarter: number): number {
  const exact = (tick * MIDI_GRID) / ticksPerQuarter;
  const binary = Math.round(exact / BINARY_STEP) * BINARY_STEP;
  const ternary = Math.round(exact / TERNARY_STEP) * TERNARY_STEP;
  return Math.abs(ternary - exact) < Math.abs(binary - exact) ? ternary : binary;
}

/** The last value that holds at a tick; the fallback before the first. */
export function valueAt<T>(changes: readonly Since<T>[], tick: number, fallback: T): T {
  return changes.findLast((change) => change.tick <= tick)?.value ?? fallback;
}

/**
 * Bars from the time signatures (4/4 where there is none, MIDI file standard); a change in the middle of a bar cuts
 * that bar short. The last bar is the one in which the last note ends.
 * @param last last tick of the grid on which anything sounds
 * @throws InputError `bad-value` for a time signature without beats or finer than the grid, `too-large` for more than MAX_BARS
 */
export function barsOfMidi(content: MidiContent, last: number): readonly Bar[] {
  const moved = <T>(changes: readonly Since<T>[]): readonly Since<T>[] =>
    changes.map((change) => ({ ...change, tick: onGrid(change.tick, content.ticksPerQuarter) })).toSorted((a, b) => a.tick - b.tick);
  const times = moved(content.times);
  const keys = moved(content.keys);
  const bars: Bar[] = [];
  let startTick = 0;
  while (startTick <= last || bars.length === 0) {
    if (bars.length >= MAX_BARS) throw new InputError('too-large', `This MIDI file lasts more than ${MAX_BARS} bars; expected one piece.`);
    const time = { ...valueAt(times, startTick, { beats: 4, beatType: 4 }), symbol: null };
    const nominalTicks = ticksOfBar(time, MIDI_GRID);
    if (!Number.isInteger(nominalTicks) || nominalTicks < 1)
      throw new InputError('bad-value', 'This MIDI file has a time signature that cannot be; expected at least one beat of a demisemiquaver or longer.', {
        bar: String(bars.length + 1),
      });
    const cut = times.find((change) => change.tick > startTick && change.tick < startTick + nominalTicks);
    const lengthTicks = (cut?.tick ?? startTick + nominalTicks) - startTick;
    const { fifths, mode } = valueAt<{ readonly fifths: number; readonly mode: string | null }>(keys, startTick, { fifths: 0, mode: null });
    bars.push({
      index: bars.length,
      number: String(bars.length + 1),
      implicit: false,
      startTick,
      lengthTicks,
      nominalTicks,
      time,
      key: { fifths: Math.max(-7, Math.min(7, fifths)), mode },
      barlines: [],
      endings: [],
    });
    startTick += lengthTicks;
  }
  return bars;
}
