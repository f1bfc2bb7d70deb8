/** The two files of one bench run: a score of some size and a recording of it by a person who errs and goes back once. */
import { seededRandom, type Random } from '../../src/base/index.js';
import { makeTake, type Piece, type Take, type TakeNote, type TakePlan } from '../../src/demo/index.js';
import { desmond } from '../../src/demo/players.js';
import { writeScore } from '../../src/demo/scoreWriter.js';
import { midiBytes } from '../../src/demo/takeFiles.js';
import { texture } from './texture.js';

/** How often a key is wrong, silent, or struck besides; a careful pupil's share. */
const SLIPS = { wrong: 0.02, missed: 0.01, added: 0.01 } as const;
/** Where the player breaks off, share of the piece, and how many bars back the new start lies. */
const BREAK = { at: 0.6, barsBack: 6 } as const;

/** Both files as bytes. */
export interface Material {
  readonly score: Uint8Array;
  readonly recording: Uint8Array;
  /** Key presses in the recording. */
  readonly played: number;
}

/** Makes the files for a score of about `notes` notes; the same each time. */
export function material(notes: number): Material {
  const piece = texture(notes, notes);
  const take = withSlips(makeTake(piece, planFor(piece)), seededRandom(notes + 1));
  return {
    score: new TextEncoder().encode(writeScore(piece, 'bench')),
    recording: midiBytes(take, 'bench'),
    played: take.notes.filter((note) => note.status !== 'missed').length,
  };
}

function planFor(piece: Piece): TakePlan {
  const broken = Math.floor(piece.bars.length * BREAK.at);
  const back = Math.max(0, broken - BREAK.barsBack);
  return {
    name: 'bench', piece: piece.slug, seed: piece.bars.length, player: desmond, instrument: { touch: true, pedal: 'none' },
    recordedAt: '', purpose: 'run-through', about: '',
    faults: [{ aspect: 'route', kind: 'wentBack', breakAt: 8, pauseS: 1.5, bars: [String(back), String(broken)], pass: 1, attempt: 2, hand: 'both', what: 'goes back' }],
  };
}

function withSlips(take: Take, random: Random): Take {
  return { ...take, notes: take.notes.flatMap((note) => slip(note, random())) };
}

/** One draw decides: wrong, missed, or another key besides. */
function slip(note: TakeNote, draw: number): readonly TakeNote[] {
  if (draw < SLIPS.wrong) return [{ ...note, pitch: note.pitch + 1 }];
  if (draw < SLIPS.wrong + SLIPS.missed) return [{ ...note, status: 'missed' }];
  if (draw < SLIPS.wrong + SLIPS.missed + SLIPS.added) return [note, { ...note, pitch: note.pitch - 1, onsetS: note.onsetS + 0.02, releaseS: note.onsetS + 0.12 }];
  return [note];
}
