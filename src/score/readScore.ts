/** The one door for score files of every kind. Errors leave with the name of the file on them. */
import { InputError } from '../base/index.js';
import { decodeText } from './decode.js';
import { fileKind } from './fileKind.js';
import { MAX_FILE_BYTES } from './limits.js';
import { readMidiScore } from './midiScore.js';
import { readMusicXml } from './readMusicXml.js';
import type { Score } from './types.js';
import { unpackScore } from './zip.js';

/** How to read a score. */
export interface ReadScoreOptions {
  /** Name of the file without its folder, for messages. */
  readonly fileName: string;
  /** Id or name of the part to read; the piano is found by itself where left out. */
  readonly part?: string;
}

/**
 * Reads a score file: MusicXML, plain or compressed, or a MIDI file. What it is, its first bytes say, not its name.
 * @throws InputError naming the file, the bar or line where known, and what was expected
 */
export function readScore(bytes: Uint8Array, options: ReadScoreOptions): Score {
  try {
    return readWhole(bytes, options.part);
  } catch (error) {
    throw error instanceof InputError ? error.inFile(options.fileName) : error;
  }
}

/** Chooses the reader by the kind of file. */
function readWhole(bytes: Uint8Array, part: string | undefined): Score {
  if (bytes.length > MAX_FILE_BYTES)
    throw new InputError('too-large', `This file is larger than ${MAX_FILE_BYTES / 1_048_576} MB; expected one piano score.`);
  const kind = fileKind(bytes);
  if (kind === 'midi') return readMidiScore(bytes, part);
  return readMusicXml(decodeText(kind === 'packed' ? unpackScore(bytes) : bytes), part);
}
