import { InputError } from '../base/index.js';
import { decodeText } from './decode.js';
import { MAX_FILE_BYTES } from './limits.js';
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
 * Reads a score file: MusicXML, plain or compressed. What the file is, its first bytes say, not its name.
 * @throws InputError naming the file, the bar or line where known, and what was expected
 */
export function readScore(bytes: Uint8Array, options: ReadScoreOptions): Score {
  try {
    if (bytes.length === 0) throw new InputError('empty', 'This file is empty; expected a score.');
    if (bytes.length > MAX_FILE_BYTES) throw new InputError('too-large', `This file is larger than ${MAX_FILE_BYTES / 1_048_576} MB; expected one piano score.`);
    const text = decodeText(startsWith(bytes, [0x50, 0x4b, 3, 4]) ? unpackScore(bytes) : bytes);
    return readMusicXml(text, options.part);
  } catch (error) {
    throw error instanceof InputError ? error.inFile(options.fileName) : error;
  }
}

function startsWith(bytes: Uint8Array, head: readonly number[]): boolean {
  return head.every((byte, i) => bytes[i] === byte);
}
