/*
 * Question: which chords, and where does each begin?
 * Conventions: cells and chords by number; a segment takes whole cells.
 * Method: best path by dynamic programming over the ends of segments: evidence of a span for a chord, less what is
 *   absent, the bass, the key's expectation, the change at that place in the bar, and the root's movement.
 * Source: Pardo and Birmingham 2002 (segments and templates by dynamic programming); the charges are our own.
 * What it does not tell: names. A harmony longer than LONGEST_CELLS comes in pieces, which are joined here.
 */
import { bassPlace, chordFit, fillTable, TABLE_SIZE, type SpanSounds } from './chordFit.js';
import type { Evidence } from './evidence.js';
import { allChordCharges, isSixFour, motionTable } from './expectations.js';
import { CHORD_COUNT, CHORDS } from './templates.js';
import { CHANGE, CHANGE_OVER_LEFT_BASS, CHANGE_UNACCOMPANIED, KEY_WEIGHT, LONGEST_CELLS, MOTION_WEIGHT } from './weights.js';

/** A chord over cells [fromCell, toCell). */
export interface Segment {
  readonly fromCell: number;
  readonly toCell: number;
  /** Chord number. */
  readonly chord: number;
}

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
  /** Working space for the span in hand: its sounds, what they give to members of chords, its bass by length in cells. */
  readonly sounds: SpanSounds;
  readonly table: Float64Array;
  readonly basses: Uint8Array;
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
    sounds: { gain: new Float64Array(12), present: new Float64Array(12), away: new Float64Array(12) },
    table: new Float64Array(TABLE_SIZE),
    basses: new Uint8Array(LONGEST_CELLS),
  };
  for (let cell = 0; cell < evidence.cells.length; cell += 1) openAt(search, cell);
  return withoutUpbeats(joined(traceBack(search)), evidence);
}

/** Extends every segment that can open at a cell. */
function openAt(search: Search, cell: number): void {
  const { evidence, best, began, before, sounds, table, basses } = search;
  const entry = entriesAt(search, cell);
  const longest = Math.min(evidence.cells.length, cell + LONGEST_CELLS);
  fillBasses(basses, evidence, cell);
  for (let end = cell + 1; end <= longest; end += 1) {
    const place = bassPlace(basses[end - cell - 1] ?? 0, evidence.heldBass[cell] === 1);
    const against = sumSpan(evidence, sounds, { cell, end });
    fillTable(table, sounds);
    for (let chord = 0; chord < CHORD_COUNT; chord += 1) {
      const score = (entry.score[chord] ?? 0) + chordFit(table, chord, place) - against;
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
  const { evidence, best, charges, keyOfCell } = search;
  const score = new Float64Array(CHORD_COUNT);
  const from = new Int16Array(CHORD_COUNT).fill(-1);
  const change = CHANGE[evidence.cells[cell]?.level ?? 3] + CHANGE_UNACCOMPANIED * (evidence.alone[cell] ?? 0) + CHANGE_OVER_LEFT_BASS * (evidence.overLeftBass[cell] ?? 0);
  const expected = charges[keyOfCell[cell] ?? 0];
  const arrivals = cell === 0 ? null : arrivalsAt(search, cell);
  for (let chord = 0; chord < CHORD_COUNT; chord += 1) {
    const strange = KEY_WEIGHT * (expected?.[chord] ?? 0);
    const moved = arrivals === null ? -strange : (arrivals.score[chord % 12] ?? 0) - change - strange;
    // staying costs nothing, not even the key's charge again
    const stays = cell > 0 && (best[cell * CHORD_COUNT + chord] ?? 0) >= moved;
    score[chord] = stays ? (best[cell * CHORD_COUNT + chord] ?? 0) : moved;
    if (cell > 0) from[chord] = stays ? chord : (arrivals?.from[chord % 12] ?? -1);
  }
  return { score, from };
}

/** For each root the best way to arrive there, and the chord it comes from: the movement of roots asks for nothing more. */
function arrivalsAt({ best, motion }: Search, cell: number): Entries {
  const score = new Float64Array(12).fill(-Infinity);
  const from = new Int16Array(12).fill(-1);
  for (const old of leadersBefore(best, cell))
    for (let root = 0; root < 12; root += 1) {
      const moved = (best[cell * CHORD_COUNT + old] ?? 0) - MOTION_WEIGHT * (motion[old * 12 + root] ?? 0);
      if (moved <= (score[root] ?? 0)) continue;
      score[root] = moved;
      from[root] = old;
    }
  return { score, from };
}

/** The scores with which chords open, and the chord before each. */
interface Entries {
  readonly score: Float64Array;
  readonly from: Int16Array;
}

/** 1 for the six-fours. */
const IS_SIX_FOUR = Uint8Array.from(CHORDS, ({ template }) => (isSixFour(template.quality) ? 1 : 0));

/**
 * The best chord before a cell on each root, six-fours apart: the movement of roots asks for nothing more, so no other
 * chord can be better to come from.
 */
function leadersBefore(best: Float64Array, cell: number): readonly number[] {
  const leaders = new Array<number>(24).fill(-1);
  for (let chord = 0; chord < CHORD_COUNT; chord += 1) {
    const group = (chord % 12) + (IS_SIX_FOUR[chord] === 1 ? 12 : 0);
    const leader = leaders[group] ?? -1;
    if (leader < 0 || (best[cell * CHORD_COUNT + chord] ?? 0) > (best[cell * CHORD_COUNT + leader] ?? 0)) leaders[group] = chord;
  }
  return leaders;
}

/**
 * The bass of each span from a cell on, the shortest first: what lies lowest in its first beat; later low notes belong to the figure. A
 * bare upbeat belongs to the bar it leads to, and that bar brings the bass.
 */
function fillBasses(basses: Uint8Array, { cells, alone, lowest }: Evidence, cell: number): void {
  let upbeat = true;
  let firstBeatEnd = (cells[cell]?.from ?? 0) + (cells[cell]?.beat ?? 0);
  let low = 128;
  for (let i = 0; i < LONGEST_CELLS && cell + i < cells.length; i += 1) {
    const here = cells[cell + i];
    if (here === undefined) break;
    if (upbeat && here.level === 0) {
      low = 128;
      firstBeatEnd = here.from + here.beat;
    }
    upbeat = upbeat && alone[cell + i] === 1 && here.level !== 0;
    if (low === 128 || here.from < firstBeatEnd) low = Math.min(low, lowest[cell + i] ?? 128);
    basses[i] = low;
  }
}

/** Fills the sums of a span and returns all that speaks against a chord that holds nothing of it. */
function sumSpan({ within, against, absent }: Evidence, { gain, present, away }: SpanSounds, { cell, end }: { readonly cell: number; readonly end: number }): number {
  let total = 0;
  for (let pc = 0; pc < 12; pc += 1) {
    const held = (within[end * 12 + pc] ?? 0) - (within[cell * 12 + pc] ?? 0);
    const foreign = (against[end * 12 + pc] ?? 0) - (against[cell * 12 + pc] ?? 0);
    total += foreign;
    present[pc] = held;
    away[pc] = (absent[end * 12 + pc] ?? 0) - (absent[cell * 12 + pc] ?? 0);
    gain[pc] = held + foreign;
  }
  return total;
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
 * and what follows is struck with the bar; likewise the last division of a beat before it. A piece's first upbeat so belongs to no harmony.
 */
function withoutUpbeats(segments: readonly Segment[], { cells, alone }: Evidence): readonly Segment[] {
  const starts = segments.map(({ fromCell, toCell }) => {
    let line = fromCell;
    const early = (cell: number): boolean => alone[cell] === 1 || (cells[cell]?.level === 3 && cells[cell + 1]?.level === 0);
    while (line < toCell && cells[line]?.level !== 0 && early(line)) line += 1;
    return line < toCell && cells[line]?.level === 0 ? line : fromCell;
  });
  return segments.map((segment, i) => ({ ...segment, fromCell: starts[i] ?? segment.fromCell, toCell: starts[i + 1] ?? segment.toCell }));
}

/**
 * Whether a chord is what is left of the one before: the same, a seventh chord's own triad, or the leading-note triad of a
 * dominant seventh. A seventh once heard stays in the ear.
 */
function remainsOf(before: number, chord: number): boolean {
  if (before === chord) return true;
  const from = CHORDS[before];
  const to = CHORDS[chord];
  if (from === undefined || to === undefined || from.template.intervals.length < 4 || to.template.intervals.length > 3) return false;
  const leading = from.template.quality === 'dominantSeventh' && to.template.quality === 'diminished' && to.root === (from.root + 4) % 12;
  const own = from.root === to.root && to.template.intervals.every((interval) => from.template.intervals.includes(interval));
  return own || leading;
}

/** Neighbours with the same chord, or what is left of it, made one. */
function joined(segments: readonly Segment[]): readonly Segment[] {
  const result: Segment[] = [];
  for (const segment of segments) {
    const last = result.at(-1);
    if (last !== undefined && remainsOf(last.chord, segment.chord)) result[result.length - 1] = { ...last, toCell: segment.toCell };
    else result.push(segment);
  }
  return result;
}
