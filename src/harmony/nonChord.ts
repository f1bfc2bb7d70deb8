/*
 * Question: why does a note sound that is foreign to its harmony?
 * Conventions: figures count diatonic steps above the bass, the foreign note first, then where it goes: "4-3".
 * Method: by how the note is reached and left, and whether it was there before the harmony.
 * Source: the textbook definitions of suspension, appoggiatura, passing and neighbour note, anticipation, escape note and pedal
 *   point.
 * What it does not tell: whether another chord would hold the note; the search has weighed that.
 */
import type { Draft } from './draft.js';
import type { SoundingNote } from './notes.js';
import { mod } from './pitchNames.js';
import type { NonChordKind, NonChordNote } from './types.js';

/** The foreign notes of a draft in order of onset. `after` is the harmony that follows. */
export function nonChordNotes(draft: Draft, after: Draft | null): readonly NonChordNote[] {
  return draft.notes
    .filter((note) => !draft.members.includes(note.pc))
    .map((note) => {
      const kind = kindOf(note, draft, after);
      return { noteIndex: note.noteIndex, kind, figure: kind === 'suspension' ? figureOf(note, draft) : null };
    });
}

/** The first definition that fits. */
function kindOf(note: SoundingNote, draft: Draft, after: Draft | null): NonChordKind {
  const { approach, departure } = note;
  const before = note.onset < draft.from;
  const strong = before || note.onset === draft.from;
  if (before && departure === 0) return note.end >= draft.to ? 'pedal' : 'unexplained';
  if (departure !== 0 && strong && (before || note.prepared)) return 'suspension';
  if (departure !== 0 && approach !== 0) return Math.sign(departure) === Math.sign(approach) ? 'passing' : 'neighbour';
  if (departure !== 0) return 'appoggiatura';
  if (after?.members.includes(note.pc) === true && note.end >= draft.to) return 'anticipation';
  if (note === draft.lowest && note.end >= draft.to) return 'pedal';
  return approach !== 0 ? 'escape' : 'unexplained';
}

/** Diatonic steps of the seven letters along the line of fifths: F is the fourth letter from C. */
function letterOf(fifths: number): number {
  return mod(4 * fifths, 7);
}

/** "4-3" and its kin; a suspended bass is measured from the note above it that it belongs under: "2-3". */
function figureOf(note: SoundingNote, draft: Draft): string | null {
  const bass = draft.lowest;
  if (bass === null) return null;
  if (bass === note || bass.pc === note.pc) return '2-3';
  const above = mod(letterOf(note.fifths) - letterOf(bass.fifths), 7) + 1;
  const from = above === 2 && note.midi - bass.midi > 12 ? 9 : above;
  return `${from}-${from + Math.sign(note.departure)}`;
}
