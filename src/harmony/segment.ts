/*
 * Question: which chords, and where does each begin?
 * Conventions: cells and chords by number; a segment takes whole cells.
 * Method: best path by dynamic programming over the ends of segments: evidence of a span for a chord, less what is
 *   absent, the bass, the key's expectation, the change at that place in the bar, and the root's movement.
 * Source: Pardo and Birmingham 2002 (segments and templates by dynamic programming); the charges are our own.
 * What it does not tell: names. A harmony longer than LONGEST_CELLS comes in pieces, which are joined here.
 */
import type { Evidence } from './evidence.js';
import { allChordCharges, isSixFour, motionTable } from './expectations.js';
import { mod } from './pitchNames.js';
import { CHORD_COUNT, CHORDS } from './templates.js';
import { ABSENT, ABSENT_MARKED_FIFTH, AWAY, BASS, BASS_FOREIGN, CHANGE, CHANGE_UNACCOMPANIED, FOUR_NOTE_SHARE, KEY_WEIGHT, LONGEST_CELLS, MOTION_WEIGHT, SIX_FOUR_BASS } from './weights.js';

/** A chord over cells [fromCell, toCell). */
export interface Segment {
  readonly fromCell: number;
  readonly toCell: number;
  /** Chord number. */
  readonly chord: number;
}

/** Numbers of the cadential six-fours. */
const SIX_FOURS: ReadonlySet<number> = new Set(CHORDS.flatMap(({ template }, chord) => (isSixFour(template.quality) ? [chord] : [])));

/** Tables of the search, indexed for speed. */
interface Search {
  readonly evidence: Evidence;
  readonly keyOfCell: readonly number[];
  readonly charges: readonly Float64Array[];
  readonly motion: Float64Array;
  /** Best score of a path that ends with this chord before this cell. */
  readonly best: Float64Array;
  /** Where that segment began, and the chord before it (-1 at the start). */
  readonly began: Int32Array;
  readonly before: Int16Array;
}

/** The best segments for evidence and a key (number) for every cell. */
export function segmentHarmony(evidence: Evidence, keyOfCell: readonly number[]): readonly Segment[] {
  const rows = evidence.cells.length + 1;
  const search: Search = {
    evidence,
    keyOfCell,
    charges: allChordCharges(),
    motion: motionTable(),
    best: new Float64Array(rows * CHORD_COUNT).fill(-Infinity),
    began: new Int32Array(rows * CHORD_COUNT),
    before: new Int16Array(rows * CHORD_COUNT).fill(-1),
  };
  for (let cell = 0; cell < evidence.cells.length; cell += 1) openAt(search, cell);
  return withoutUpbeats(joined(traceBack(search)), evidence);
}

/** Extends every segment that can open at a cell. */
function openAt(search: Search, cell: number): void {
  const { evidence, best, began, before } = search;
  const entry = entriesAt(search, cell);
  const span = new Float64Array(12);
  const present = new Float64Array(12);
  const away = new Float64Array(12);
  // the bass is what lies lowest in the first beat; later low notes belong to the figure
  const firstBeatEnd = (evidence.cells[cell]?.from ?? 0) + (evidence.cells[cell]?.beat ?? 0);
  let lowest = 128;
  const longest = Math.min(evidence.cells.length, cell + LONGEST_CELLS);
  for (let end = cell + 1; end <= longest; end += 1) {
    if (lowest === 128 || (evidence.cells[end - 1]?.from ?? 0) < firstBeatEnd) lowest = Math.min(lowest, evidence.lowest[end - 1] ?? 128);
    const against = spanOf(evidence, { cell, end }, { span, present, away });
    for (let chord = 0; chord < CHORD_COUNT; chord += 1) {
      const score = (entry.score[chord] ?? 0) + fit(chord, { span, present, away, lowest }) - against;
      const at = end * CHORD_COUNT + chord;
      if (score <= (best[at] ?? 0)) continue;
      best[at] = score;
      began[at] = cell;
      before[at] = entry.from[chord] ?? -1;
    }
  }
}

/** What it takes to open each chord at a cell: the best chord before it, the change, the key. */
function entriesAt(search: Search, cell: number): Entries {
  const { evidence, best, charges, keyOfCell, motion } = search;
  const score = new Float64Array(CHORD_COUNT);
  const from = new Int16Array(CHORD_COUNT).fill(-1);
  const change = CHANGE[evidence.cells[cell]?.level ?? 3] + CHANGE_UNACCOMPANIED * (evidence.alone[cell] ?? 0);
  const expected = charges[keyOfCell[cell] ?? 0];
  const leaders = cell === 0 ? [] : leadersBefore(best, cell);
  for (let chord = 0; chord < CHORD_COUNT; chord += 1) {
    // staying costs nothing, not even the key's charge again
    const strange = KEY_WEIGHT * (expected?.[chord] ?? 0);
    let top = cell === 0 ? -strange : (best[cell * CHORD_COUNT + chord] ?? 0);
    if (cell > 0) from[chord] = chord;
    for (const old of leaders) {
      const moved = (best[cell * CHORD_COUNT + old] ?? 0) - change - MOTION_WEIGHT * (motion[old * CHORD_COUNT + chord] ?? 0) - strange;
      if (moved <= top || old === chord) continue;
      top = moved;
      from[chord] = old;
    }
    score[chord] = top;
  }
  return { score, from };
}

/** The scores with which chords open, and the chord before each. */
interface Entries {
  readonly score: Float64Array;
  readonly from: Int16Array;
}

/**
 * The best chord before a cell on each root, six-fours apart: the movement of roots asks for nothing more, so no other
 * chord can be better to come from.
 */
function leadersBefore(best: Float64Array, cell: number): readonly number[] {
  const leaders = new Array<number>(24).fill(-1);
  for (let chord = 0; chord < CHORD_COUNT; chord += 1) {
    const group = (chord % 12) + (SIX_FOURS.has(chord) ? 12 : 0);
    const leader = leaders[group] ?? -1;
    if (leader < 0 || (best[cell * CHORD_COUNT + chord] ?? 0) > (best[cell * CHORD_COUNT + leader] ?? 0)) leaders[group] = chord;
  }
  return leaders;
}

/** What sounds in a span of cells, by pitch class. */
interface Span {
  /** What a chord gains by holding it. */
  readonly span: Float64Array;
  readonly present: Float64Array;
  /** Crotchets during which it is nowhere near. */
  readonly away: Float64Array;
  /** The bass, MIDI number. */
  readonly lowest: number;
}

/** Fills the sums of a span and returns all that speaks against a chord that holds nothing of it. */
function spanOf(
  { within, against, absent }: Evidence,
  { cell, end }: { readonly cell: number; readonly end: number },
  { span, present, away }: Omit<Span, 'lowest'>,
): number {
  let total = 0;
  for (let pc = 0; pc < 12; pc += 1) {
    const held = (within[end * 12 + pc] ?? 0) - (within[cell * 12 + pc] ?? 0);
    const foreign = (against[end * 12 + pc] ?? 0) - (against[cell * 12 + pc] ?? 0);
    total += foreign;
    present[pc] = held;
    away[pc] = (absent[end * 12 + pc] ?? 0) - (absent[cell * 12 + pc] ?? 0);
    span[pc] = held + foreign;
  }
  return total;
}

/** What a span gives to a chord, less what is absent and the bass. */
function fit(chord: number, { span, present, away, lowest }: Span): number {
  const entry = CHORDS[chord];
  if (entry === undefined) return -Infinity;
  const { intervals } = entry.template;
  let sum = 0;
  const share = intervals.length > 3 ? FOUR_NOTE_SHARE : 1;
  let bass = BASS_FOREIGN;
  for (let member = 0; member < intervals.length; member += 1) {
    const pc = (entry.root + (intervals[member] ?? 0)) % 12;
    sum += share * (span[pc] ?? 0) - (AWAY[member] ?? 0) * (away[pc] ?? 0);
    if ((present[pc] ?? 0) <= 1e-9) sum -= member === 2 && intervals[2] !== 7 ? ABSENT_MARKED_FIFTH : (ABSENT[member] ?? 0);
    if (mod(lowest, 12) === pc) bass = BASS[member] ?? 0;
  }
  return sum - (isSixFour(entry.template.quality) && mod(lowest, 12) !== entry.root ? SIX_FOUR_BASS : bass);
}

/** The segments of the best path, in order. */
function traceBack({ evidence, best, began, before }: Search): readonly Segment[] {
  const segments: Segment[] = [];
  let end = evidence.cells.length;
  let chord = 0;
  for (let other = 1; other < CHORD_COUNT; other += 1)
    if ((best[end * CHORD_COUNT + other] ?? 0) > (best[end * CHORD_COUNT + chord] ?? 0)) chord = other;
  while (end > 0 && chord >= 0) {
    const at = end * CHORD_COUNT + chord;
    segments.push({ fromCell: began[at] ?? 0, toCell: end, chord });
    end = began[at] ?? 0;
    chord = before[at] ?? -1;
  }
  return segments.reverse();
}

/**
 * Segments that begin with a bare upbeat moved to the bar line it leads to: one note at a time has no harmony of its own,
 * and what follows is struck with the bar. A piece's first upbeat so belongs to no harmony.
 */
function withoutUpbeats(segments: readonly Segment[], { cells, alone }: Evidence): readonly Segment[] {
  const starts = segments.map(({ fromCell, toCell }) => {
    let line = fromCell;
    while (line < toCell && alone[line] === 1 && cells[line]?.level !== 0) line += 1;
    return line < toCell && cells[line]?.level === 0 ? line : fromCell;
  });
  return segments.map((segment, i) => ({ ...segment, fromCell: starts[i] ?? segment.fromCell, toCell: starts[i + 1] ?? segment.toCell }));
}

/** Neighbours with the same chord made one. */
function joined(segments: readonly Segment[]): readonly Segment[] {
  const result: Segment[] = [];
  for (const segment of segments) {
    const last = result.at(-1);
    if (last?.chord === segment.chord) result[result.length - 1] = { ...last, toCell: segment.toCell };
    else result.push(segment);
  }
  return result;
}
