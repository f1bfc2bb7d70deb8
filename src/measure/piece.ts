import type { Alignment } from '../align/index.js';
import type { RecordedNote, Recording } from '../recording/index.js';
import type { Occurrence, Score, ScoreNote } from '../score/index.js';

/** What every measure is taken from. */
export interface Piece {
  readonly score: Score;
  readonly recording: Recording;
  readonly alignment: Alignment;
}

/**
 * An occurrence and its first written note.
 * @param index place in `Score.occurrences`
 * @throws RangeError where the alignment is not of this score
 */
export function writtenOf(score: Score, index: number): { readonly occurrence: Occurrence; readonly note: ScoreNote } {
  const occurrence = score.occurrences[index];
  const note = occurrence === undefined ? undefined : score.notes[occurrence.noteIndex];
  if (occurrence === undefined || note === undefined) throw new RangeError(`the score has no occurrence ${index}`);
  return { occurrence, note };
}

/**
 * A performed note.
 * @param index place in `Recording.notes`
 * @throws RangeError where the alignment is not of this recording
 */
export function playedOf(recording: Recording, index: number): RecordedNote {
  const note = recording.notes[index];
  if (note === undefined) throw new RangeError(`the recording has no note ${index}`);
  return note;
}
