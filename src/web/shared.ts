import type { Language } from '../base/index.js';
import type { Pipeline, Reading, SourceFile } from '../pipeline/index.js';
import type { Review } from '../review/index.js';
import type { FiledRecording, Store, StoredScore } from '../store/index.js';
import type { Glances } from './glanceTypes.js';

/** What every page of the room works with. */
export interface Room {
  readonly store: Store;
  readonly pipeline: Pipeline;
  /** The present moment. */
  readonly now: () => Date;
  /** One line for the log; never a pupil's name, never file content. */
  readonly log: (line: string) => void;
  /** Which English the pages speak, as it is set at this moment. */
  readonly language: Language;
  /** What the program is: results of another version are other results. */
  readonly version: string;
  /** What the desk says of each recording. */
  readonly glances: Glances;
  /** Reviews that were made, as long as their readings are kept: by what was decided, asked and said of the recording. */
  readonly reviews: WeakMap<Reading, Map<string, Review>>;
  /** Throws away what was found out from files that have been deleted, by their SHA-256. */
  readonly forget: (files: readonly string[]) => Promise<void>;
}

/** Address of a pupil's page. */
export function pupilAddress(slug: string): string {
  return `/pupils/${encodeURIComponent(slug)}`;
}

/** Address of a piece's page. */
export function pieceAddress(slug: string): string {
  return `/pieces/${encodeURIComponent(slug)}`;
}

/** Address of a review. */
export function recordingAddress(recording: FiledRecording): string {
  return `${pupilAddress(recording.pupil.slug)}/recordings/${recording.id}`;
}

/** Address of a pupil's piece through the weeks. */
export function weeksAddress({ pupil, piece }: Pick<FiledRecording, 'pupil' | 'piece'>): string {
  return `${pupilAddress(pupil.slug)}/pieces/${encodeURIComponent(piece.slug)}`;
}

/** Address at which a recording is held against an earlier one. */
export function sinceAddress(later: FiledRecording, earlier: Pick<FiledRecording, 'id'>): string {
  return `${recordingAddress(later)}/since/${earlier.id}`;
}

/**
 * A kept score as the pipeline takes it, with the part and the pedal plan that the teacher chose.
 * @throws InputError code `not-found`
 */
export function scoreFile(store: Store, score: StoredScore): SourceFile {
  return { name: score.fileName, bytes: store.bytesOf(score), part: score.part ?? undefined, plan: store.planOf(score.pieceId) ?? undefined };
}

/**
 * A kept recording as the pipeline takes it.
 * @throws InputError code `not-found`
 */
export function recordingFile(store: Store, recording: FiledRecording): SourceFile {
  return { name: recording.fileName, bytes: store.bytesOf(recording) };
}

/** How a pupil is spoken of at the start of a sentence. */
export function playerOf(recording: FiledRecording): string {
  const { pronoun } = recording.pupil;
  if (pronoun === null) return 'The pupil';
  return { she: 'She', he: 'He', they: 'They' }[pronoun];
}
