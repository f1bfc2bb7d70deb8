/**
 * The records of the store. Moments are ISO 8601 texts in UTC; a removed comment is kept and only
 * left out of lists.
 */

/** How a pupil is spoken of. */
export type Pronoun = 'she' | 'he' | 'they';

/** When a pupil comes each week. */
export interface Lesson {
  /** 1 Monday to 7 Sunday, as ISO 8601 counts. */
  readonly day: number;
  /** "16:30"; null where only the day is known. */
  readonly time: string | null;
}

/** Someone who sends recordings. */
export interface Pupil {
  readonly id: number;
  /** Name as a part of an address; unique. */
  readonly slug: string;
  readonly name: string;
  /** Null where nobody has said; sentences then speak of "the pupil". */
  readonly pronoun: Pronoun | null;
  /** True for people of the demo room. */
  readonly invented: boolean;
  /** Year of birth, null where nobody has said. */
  readonly born: number | null;
  /** Null where nobody has said. */
  readonly lesson: Lesson | null;
  readonly createdAt: string;
  /** Null unless taken off the lists. */
  readonly removedAt: string | null;
}

/** A piece of music; its newest score is the one used for new recordings. */
export interface Piece {
  readonly id: number;
  readonly slug: string;
  readonly title: string;
  readonly composer: string;
  readonly invented: boolean;
  readonly createdAt: string;
}

/** A file that came in and is kept untouched. */
export interface KeptFile {
  /** SHA-256 of the content, hex. */
  readonly file: string;
  /** Name it came under, for showing only. */
  readonly fileName: string;
  readonly bytes: number;
}

/** A score file of a piece. */
export interface StoredScore extends KeptFile {
  readonly id: number;
  readonly pieceId: number;
  /** Id of the part that the teacher chose to read; null where the piano is found by itself. */
  readonly part: string | null;
  readonly createdAt: string;
}

/** A recording file of a pupil, played from one score. */
export interface StoredRecording extends KeptFile {
  readonly id: number;
  readonly pupilId: number;
  readonly scoreId: number;
  /** What it holds, in one line of words, made when it was filed. */
  readonly line: string;
  readonly receivedAt: string;
  /** What it is for, where somebody said so. */
  readonly purpose: string | null;
  /** When somebody opened or answered it; null until then. */
  readonly heardAt: string | null;
  /** Null unless taken off the lists. */
  readonly removedAt: string | null;
}

/** A recording with whose it is and what is played. */
export interface FiledRecording extends StoredRecording {
  readonly pupil: Pupil;
  readonly piece: Piece;
  /** Comments not removed. */
  readonly comments: number;
}

/** A file that was put in and still waits to be told whose it is, or which piece. */
export interface Arrival extends KeptFile {
  readonly id: number;
  /** Null where that is what it waits for. */
  readonly pupilId: number | null;
  /** Score that it was read against; null where no piece fits. */
  readonly scoreId: number | null;
  /** What it holds, in one line of words; empty where no piece fits. */
  readonly line: string;
  readonly receivedAt: string;
}

/** A comment with whose recording of what it is about. */
export interface FiledComment extends Comment {
  readonly pieceId: number;
  readonly receivedAt: string;
}

/** What the teacher wrote about some bars of a recording. */
export interface Comment {
  readonly id: number;
  readonly recordingId: number;
  /** Printed numbers of the first and last bar. */
  readonly bars: readonly [string, string];
  /** Their places in `Score.bars`, since printed numbers need not be unique. */
  readonly barIndexes: readonly [number, number];
  /** True where it is about the recording as a whole; its bars then say nothing. */
  readonly whole: boolean;
  /** Both null where the comment means every try. */
  readonly pass: number | null;
  readonly attempt: number | null;
  readonly text: string;
  readonly createdAt: string;
  /** When the text last changed; equals `createdAt` until then. */
  readonly editedAt: string;
  /** When the teacher called it settled; null while it is open. */
  readonly settledAt: string | null;
  /** Null unless removed. */
  readonly removedAt: string | null;
}

/** A text that a comment once had. */
export interface CommentVersion {
  readonly text: string;
  readonly savedAt: string;
}

/** A comment about to be written. */
export interface NewComment {
  readonly recordingId: number;
  /** Made once a form: the same form sent twice gives one comment. */
  readonly key: string;
  readonly bars: readonly [string, string];
  readonly barIndexes: readonly [number, number];
  readonly whole?: boolean;
  readonly pass?: number | null;
  readonly attempt?: number | null;
  readonly text: string;
  /** When it was written; now where left out. */
  readonly writtenAt?: string;
}
