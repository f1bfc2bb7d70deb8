import { expect } from 'vitest';
import { InputError, type InputErrorCode } from '../../src/base/index.js';
import { readRecording, type Recording, type RecordingLimit } from '../../src/recording/index.js';

/** Reads bytes under a made-up name. */
export function read(bytes: Uint8Array): Recording {
  return readRecording(bytes, { fileName: 'take.mid' });
}

/** Pitch, onset and release of every note, rounded to a tenth of a millisecond. */
export function notesOf(recording: Recording): [number, number, number][] {
  return recording.notes.map((note) => [note.pitch, round(note.onsetS), round(note.releaseS)]);
}

export function round(seconds: number): number {
  return Math.round(seconds * 10_000) / 10_000;
}

export function kinds(recording: Recording): RecordingLimit['kind'][] {
  return recording.limits.map((limit) => limit.kind);
}

/** The sentence of one limit; empty where the recording has none of this kind. */
export function sentence(recording: Recording, kind: RecordingLimit['kind']): string {
  return recording.limits.find((limit) => limit.kind === kind)?.text ?? '';
}

/** Words of the file format that mean nothing to a teacher. */
const FORMAT_WORDS = /MThd|MTrk|\bbytes?\b|\bheader\b|\bticks?\b|\bevents?\b|\bchunks?\b|\bformat \d/i;

/** Expects the typed error, its code and the file's name in it, a sentence for a teacher, and gives it back. */
export function expectInputError(bytes: Uint8Array, code: InputErrorCode): InputError {
  try {
    read(bytes);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    if (error instanceof InputError) {
      expect(error.code).toBe(code);
      expect(error.place.file).toBe('take.mid');
      expect(error.message).not.toMatch(FORMAT_WORDS);
      return error;
    }
  }
  return expect.fail(`no InputError "${code}" was thrown`);
}
