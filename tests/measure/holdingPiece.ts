/** Small pieces whose notes are held, joined and pedalled on purpose: written notes with their marks, and how long each key stayed down. Invented. */
import type { Piece } from '../../src/measure/piece.js';
import type { ControlPoint } from '../../src/recording/index.js';
import type { Articulation, Occurrence, Score, ScoreNote, SlurEnd } from '../../src/score/index.js';
import { gaussian, seededRandom, type Random } from '../../src/base/index.js';
import { played, scoreOf, steady, TICKS, type Written } from './piece.js';

/** A written note with marks, and how it was held. */
export interface Held extends Written {
  readonly marks?: readonly Articulation[];
  readonly slur?: SlurEnd['kind'] | 'stopStart' | undefined;
  readonly voice?: string;
  /** Tied to the next note of the list. */
  readonly tied?: boolean;
  /** Share of its written length that the key was down; 1 if left out. */
  readonly share?: number;
  readonly fermata?: boolean;
}

/** How the whole was played. */
export interface Holding {
  readonly secondsACrotchet?: number;
  readonly sustain?: readonly ControlPoint[];
  readonly sostenuto?: readonly ControlPoint[];
  /** Presses that no written note explains. */
  readonly presses?: readonly { readonly atS: number; readonly pitch: number; readonly near: number }[];
  /** Seed of human scatter, 8 ms in onsets and 6 % in lengths; exact if left out. */
  readonly seed?: number;
  readonly beats?: number;
}

/** The piece as played. */
export function heldPiece(notes: readonly Held[], { secondsACrotchet = 0.5, sustain = [], sostenuto = [], presses = [], seed, beats = 4 }: Holding = {}): Piece {
  const score = withTies(withMarks(scoreOf(notes, { beats }), notes), notes);
  const noise: Random = seed === undefined ? () => 0 : gaussian(seededRandom(seed));
  const piece = played(score, { clock: steady(secondsACrotchet), shiftMs: () => 8 * noise(), presses: presses.map((press) => ({ ...press })) });
  const lengths = new Map(piece.alignment.pairs.map(({ note, occurrence }) => [note, lengthOf(score, notes, score.occurrences[occurrence])]));
  const recorded = piece.recording.notes.map((note) => {
    const crotchets = lengths.get(note.index);
    return crotchets === undefined ? note : { ...note, releaseS: note.onsetS + Math.max(0.02, crotchets * secondsACrotchet * (1 + 0.06 * noise())) };
  });
  return inOrder({ ...piece, recording: { ...piece.recording, notes: recorded, sustain, sostenuto, durationS: Math.max(...recorded.map(({ releaseS }) => releaseS), 0) + 1 } });
}

/** Performed notes in order of their onsets, as a recording has them. */
function inOrder(piece: Piece): Piece {
  const { recording, alignment } = piece;
  const order = recording.notes.toSorted((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
  const place = new Map(order.map(({ index }, i) => [index, i]));
  const at = <T extends { readonly note: number }>(one: T): T => ({ ...one, note: place.get(one.note) ?? -1 });
  return {
    ...piece,
    recording: { ...recording, notes: order.map((note, index) => ({ ...note, index })) },
    alignment: { ...alignment, pairs: alignment.pairs.map(at), added: alignment.added.map(at) },
  };
}

/** Crotchets that the key was down. */
function lengthOf(score: Score, notes: readonly Held[], occurrence: Occurrence | undefined): number {
  const written = occurrence === undefined ? undefined : notes[occurrence.noteIndex];
  if (occurrence === undefined || written === undefined) throw new RangeError('every pair has its written note');
  return ((occurrence.endTick - occurrence.onsetTick) / score.ticksPerQuarter) * (written.share ?? 1);
}

/** The marks on the notes of the page. */
function withMarks(score: Score, notes: readonly Held[]): Score {
  return { ...score, notes: score.notes.map((note, i): ScoreNote => {
    const { marks = [], slur, voice = '1', fermata = false, tied = false } = notes[i] ?? {};
    const kinds: readonly SlurEnd['kind'][] = slur === 'stopStart' ? ['stop', 'start'] : slur === undefined ? [] : [slur];
    return { ...note, articulations: marks, slurs: kinds.map((kind) => ({ kind, number: 1 })), voice: `${note.staff}${voice}`, fermata, tieStart: tied, tieStop: notes[i - 1]?.tied === true };
  }) };
}

/** Ties merged into one occurrence. */
function withTies(score: Score, notes: readonly Held[]): Score {
  const joined: Occurrence[] = [];
  for (const one of score.occurrences.toSorted((a, b) => a.noteIndex - b.noteIndex)) {
    const last = joined.at(-1);
    if (last !== undefined && notes[one.noteIndex - 1]?.tied === true) joined[joined.length - 1] = { ...last, tied: [...last.tied, one.noteIndex], endTick: one.endTick };
    else joined.push(one);
  }
  return { ...score, occurrences: joined.sort((a, b) => a.onsetTick - b.onsetTick || a.midi - b.midi).map((one, index) => ({ ...one, index })) };
}

/** So many crotchets in ticks. */
export function ticks(crotchets: number): number {
  return crotchets * TICKS;
}
