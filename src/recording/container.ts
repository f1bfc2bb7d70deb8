import { InputError } from '../base/index.js';
import { chunkName, littleEndian32 } from './bytes.js';

/**
 * Most bytes a recording may have (<=): 8 MiB. Two hours of dense playing with a continuous pedal sent 100 times a
 * second stay below it; anything larger is no pupil's recording and is refused before it is looked into.
 */
export const MAX_RECORDING_BYTES = 8 * 1024 * 1024;

/**
 * The bytes of the Standard MIDI File inside what came: the whole file, or the data of a RIFF wrapper (RMID).
 * @throws InputError `empty`, `too-large` or `not-a-recording`
 */
export function openContainer(bytes: Uint8Array): Uint8Array {
  if (bytes.length === 0) throw new InputError('empty', 'The file is empty. A recording as a MIDI file was expected.');
  if (bytes.length > MAX_RECORDING_BYTES) {
    throw new InputError('too-large', `The file is larger than ${MAX_RECORDING_BYTES / 1024 / 1024} MB. No recording of a lesson piece is; is this the right file?`);
  }
  const name = chunkName(bytes, 0);
  if (name === 'MThd') return bytes;
  const inner = name === 'RIFF' && chunkName(bytes, 8) === 'RMID' ? riffData(bytes) : null;
  if (inner !== null && chunkName(inner, 0) === 'MThd') return inner;
  throw new InputError('not-a-recording', 'This is not a MIDI file, whatever its name says. Save the recording once more as a MIDI file; a sound file (MP3, WAV) or a picture cannot be read.', { byte: 0 });
}

/** The "data" chunk of a RIFF file: chunks have a name, a little-endian length and are padded to even length. */
function riffData(bytes: Uint8Array): Uint8Array | null {
  const first = 12;
  for (let at = first; at + 8 <= bytes.length;) {
    const length = littleEndian32(bytes, at + 4);
    if (chunkName(bytes, at) === 'data') return bytes.subarray(at + 8, at + 8 + length);
    at += 8 + length + (length % 2);
  }
  return null;
}
