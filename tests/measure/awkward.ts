/** Awkward cases that every measure must bear, each a whole piece as played. Invented. */
import { STOP_LEAST_S } from '../../src/measure/index.js';
import type { Piece } from '../../src/measure/piece.js';
import type { RecordedNote } from '../../src/recording/index.js';
import { left, played, right, run, scoreOf, steady, type Written } from './piece.js';

/** A case and what makes it awkward. */
export interface Awkward {
  readonly name: string;
  readonly piece: Piece;
}

const score = scoreOf([...run(right, 16), ...run(left, 16)]);
const plain = played(score, { clock: steady(0.5) });

/** The same piece with every performed note changed. */
function changed(piece: Piece, change: (note: RecordedNote) => Partial<RecordedNote>): Piece {
  return { ...piece, recording: { ...piece.recording, notes: piece.recording.notes.map((note) => ({ ...note, ...change(note) })) } };
}

const repeated: Written[] = run(right, 16).map((one) => ({ ...one, pitch: 60 }));
const ofKind = (kind: NonNullable<Written['kind']>): Written[] => run(right, 16).map((one) => ({ ...one, kind }));

export const AWKWARD: readonly Awkward[] = [
  { name: 'nothing played, no route', piece: played(score) },
  { name: 'a route, but every note missed', piece: played(score, { clock: steady(0.5), shiftMs: () => null }) },
  { name: 'one note', piece: played(scoreOf([right(1, 1, 60)]), { clock: steady(0.5) }) },
  { name: 'two notes', piece: played(scoreOf(run(right, 2)), { clock: steady(0.5) }) },
  { name: 'a score without a note', piece: played(scoreOf([], { bars: 4 }), { clock: steady(0.5) }) },
  { name: 'all equal: every note at one moment', piece: changed(plain, () => ({ onsetS: 1, releaseS: 1 })) },
  { name: 'all equal: one chord of fifty notes', piece: played(scoreOf(Array.from({ length: 50 }, (_, i) => right(1, 1, 30 + i))), { clock: steady(0.5) }) },
  { name: 'a repeated note with no release', piece: changed(played(scoreOf(repeated), { clock: steady(0.5) }), () => ({ releaseS: 8, hanging: true })) },
  { name: 'the pedal never lifted', piece: { ...plain, recording: { ...plain.recording, sustain: [{ timeS: 0, value: 127 }] } } },
  { name: 'events out of order: played backwards', piece: played(score, { clock: (c) => 20 - c / 2 }) },
  { name: 'events out of order: neighbours swapped', piece: played(score, { clock: steady(0.5), shiftMs: ({ index }) => index % 3 === 0 ? 700 : 0 }) },
  { name: 'exactly on the tolerance of a stop', piece: played(score, { clock: (c) => c / 2 + (c >= 8 ? STOP_LEAST_S : 0) }) },
  { name: 'a stop before every note', piece: played(score, { clock: steady(30) }) },
  { name: 'very fast', piece: played(score, { clock: steady(0.001) }) },
  { name: 'only grace notes', piece: played(scoreOf(ofKind('grace')), { clock: steady(0.5) }) },
  { name: 'only ornaments', piece: played(scoreOf(ofKind('trill')), { clock: steady(0.5) }) },
  { name: 'only rolled chords', piece: played(scoreOf(ofKind('rolled')), { clock: steady(0.5) }) },
  { name: 'wrong notes only', piece: played(scoreOf(run(right, 4)), { clock: steady(0.5), shiftMs: () => null, presses: [0, 1, 2, 3].map((near) => ({ atS: near / 2, pitch: 90, near, instead: true })) }) },
  { name: 'one bar tried fifty times', piece: played(scoreOf(run(right, 4)), ...Array.from({ length: 50 }, (_, i) => ({ clock: steady(0.5, 3 * i), visits: [0, 0] as const }))) },
];
