/*
 * Question: how much of each pitch class sounds in each cell, for a chord that holds it and against one that does not?
 * Conventions: crotchets, twelve values a cell, kept as running sums so that any span of cells is one subtraction.
 * Method: doublings count once. Thin and broken textures are raised towards a full one. Against a chord a
 *   note counts by how its movement explains it.
 * Source: our own rule, after Pardo and Birmingham 2002 (notes matched, notes unmatched).
 * What it does not tell: which chord it is.
 */
import type { Cell } from './grid.js';
import type { SoundingNote } from './notes.js';
import { EVIDENCE_SCALE, FOREIGN, FULL_TEXTURE, LENGTH_POWER, MOST_RAISED } from './weights.js';

/** Running sums over cells; index (cell × 12 + pitch class), one row more than there are cells. */
export interface Evidence {
  readonly cells: readonly Cell[];
  /** For a chord that holds the pitch class. */
  readonly within: Float64Array;
  /** Against a chord that does not. */
  readonly against: Float64Array;
  /** Time (crotchets) during which the pitch class is nowhere within a beat. */
  readonly absent: Float64Array;
  /** 1 where a single note sounds at the start of the cell, else 0. */
  readonly alone: Uint8Array;
  /** 1 where the lowest note began before the cell, else 0. */
  readonly heldBass: Uint8Array;
  /** 1 where a bass that is left is still heard from before, else 0. */
  readonly overLeftBass: Uint8Array;
  /** Lowest sounding MIDI number in each cell; 128 in silence. */
  readonly lowest: Uint8Array;
}

/** Evidence of all cells. */
export function gatherEvidence(cells: readonly Cell[], notes: readonly SoundingNote[], ticksPerQuarter: number): Evidence {
  const rows = cells.length + 1;
  const sums = { within: new Float64Array(rows * 12), against: new Float64Array(rows * 12) };
  const lowest = new Uint8Array(cells.length).fill(128);
  const heldBass = new Uint8Array(cells.length);
  const alone = new Uint8Array(cells.length);
  const overLeftBass = new Uint8Array(cells.length);
  const sounding = notesByCell(cells, notes);
  cells.forEach((cell, i) => {
    const here = sounding[i] ?? [];
    const byClass = Array.from({ length: 12 }, (_, pc) => here.filter((note) => note.pc === pc));
    const held = byClass.map((mine) => covered(mine, cell, (note) => note.heardUntil));
    const scale = cellScale(cell, held, ticksPerQuarter);
    byClass.forEach((mine, pc) => {
      const at = i * 12 + pc;
      sums.within[at + 12] = (sums.within[at] ?? 0) + (held[pc] ?? 0) * scale;
      sums.against[at + 12] = (sums.against[at] ?? 0) + covered(mine, cell, (note) => note.end) * foreignness(mine, cell) * scale;
    });
    alone[i] = here.filter((note) => note.onset <= cell.from).length === 1 ? 1 : 0;
    for (const note of here) lowest[i] = Math.min(lowest[i] ?? 128, note.midi);
    overLeftBass[i] = here.some((note) => note.onset < cell.from && note.heardUntil > note.end) ? 1 : 0;
    heldBass[i] = here.some((note) => note.midi === lowest[i] && note.onset < cell.from) ? 1 : 0;
  });
  return { cells, ...sums, absent: absence(cells, sums.within, ticksPerQuarter), alone, heldBass, overLeftBass, lowest };
}

/** Running sums of the time that each pitch class is nowhere within a beat before or after. */
function absence(cells: readonly Cell[], within: Float64Array, ticksPerQuarter: number): Float64Array {
  const sums = new Float64Array((cells.length + 1) * 12);
  let first = 0;
  let end = 0;
  cells.forEach((cell, i) => {
    while ((cells[first]?.to ?? Infinity) <= cell.from - cell.beat) first += 1;
    while (end < cells.length && (cells[end]?.from ?? Infinity) < cell.to + cell.beat) end += 1;
    for (let pc = 0; pc < 12; pc += 1) {
      const heard = (within[end * 12 + pc] ?? 0) - (within[first * 12 + pc] ?? 0) > 1e-9;
      sums[(i + 1) * 12 + pc] = (sums[i * 12 + pc] ?? 0) + (heard ? 0 : (cell.to - cell.from) / ticksPerQuarter);
    }
  });
  return sums;
}

/** Evidence a tick in a cell, by its length and the thickness of its texture. */
function cellScale(cell: Cell, held: readonly number[], ticksPerQuarter: number): number {
  const length = cell.to - cell.from;
  const thickness = held.reduce((sum, ticks) => sum + ticks, 0) / length;
  const raised = thickness === 0 ? 1 : Math.min(MOST_RAISED, Math.max(1, FULL_TEXTURE / thickness));
  return (EVIDENCE_SCALE * raised * (length / ticksPerQuarter) ** (LENGTH_POWER - 1)) / ticksPerQuarter;
}

/** Full notes that sound in each cell. */
function notesByCell(cells: readonly Cell[], notes: readonly SoundingNote[]): readonly (readonly SoundingNote[])[] {
  const lists: SoundingNote[][] = cells.map(() => []);
  let first = 0;
  for (const note of notes) {
    if (note.grace) continue;
    while (first < cells.length && (cells[first]?.to ?? Infinity) <= note.onset) first += 1;
    for (let i = first; i < cells.length && (cells[i]?.from ?? Infinity) < note.heardUntil; i += 1) lists[i]?.push(note);
  }
  return lists;
}

/** Ticks of a cell covered by some notes, overlaps counted once. */
function covered(notes: readonly SoundingNote[], cell: Cell, endOf: (note: SoundingNote) => number): number {
  let sum = 0;
  let reached = cell.from;
  for (const note of notes) {
    const from = Math.max(note.onset, reached);
    const to = Math.min(endOf(note), cell.to);
    if (to > from) sum += to - from;
    reached = Math.max(reached, to);
  }
  return sum;
}

/** What the most stubborn of some notes on one pitch class costs against a chord without it. */
function foreignness(notes: readonly SoundingNote[], cell: Cell): number {
  return notes.reduce((most, note) => Math.max(most, foreignCharge(note, cell)), 0);
}

/** A note longer (exclusive) than so many beats may be a pedal point. */
const PEDAL_BEATS = 4;

/** The charge for one note, by its movement. */
function foreignCharge(note: SoundingNote, cell: Cell): number {
  if (note.onset < cell.from && note.end - note.onset > PEDAL_BEATS * cell.beat) return FOREIGN.pedal;
  const reached = note.prepared || note.approach !== 0;
  if (note.departure !== 0) return reached ? FOREIGN.explained : FOREIGN.resolved;
  return reached ? FOREIGN.reached : FOREIGN.unexplained;
}
