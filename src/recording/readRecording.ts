import { InputError } from '../base/index.js';
import { chooseChannels } from './channels.js';
import { cleanFile } from './cleanFile.js';
import { openContainer } from './container.js';
import { decodeEvents } from './events.js';
import { findLimits } from './limits.js';
import { mergeLayers } from './mergeLayers.js';
import { pairNotes, type KeyPress } from './pairNotes.js';
import { isInverted, turnedRound } from './pedalDirection.js';
import { readPedals } from './pedals.js';
import type { RecordedNote, Recording } from './types.js';

/** How a recording is read. */
export interface RecordingOptions {
  /** Name of the file, without its folder: errors name it. */
  readonly fileName: string;
}

/**
 * Reads what a pupil sent: any Standard MIDI File, bare or in a RIFF wrapper. A file that breaks off or is damaged is
 * read as far as it can be, and the recording's `limits` say so.
 * @throws InputError `empty`, `too-large`, `not-a-recording`, `not-well-formed`, `bad-value`, `unsupported`, `no-notes`
 */
export function readRecording(bytes: Uint8Array, options: RecordingOptions): Recording {
  try {
    return read(bytes);
  } catch (error) {
    throw error instanceof InputError ? error.inFile(options.fileName) : error;
  }
}

/** Container, whole events, seconds, key presses, the piano among them, its pedals, its limits: a step each. */
function read(bytes: Uint8Array): Recording {
  const file = cleanFile(openContainer(bytes));
  const { events, durationS } = decodeEvents(file);
  const all = pairNotes(events, durationS);
  const channels = chooseChannels(all, events);
  const { presses, folded } = mergeLayers(all.filter((press) => channels.piano.has(press.channel)));
  if (presses.length === 0) throw withoutNotes(file.broken, channels.drums);
  const silentOnes = new Set(all.map((press) => press.channel).filter((channel) => !channels.piano.has(channel)));
  const sent = readPedals(events, silentOnes);
  const inverted = isInverted(sent.sustain, presses);
  const pedals = inverted ? { ...sent, sustain: turnedRound(sent.sustain) } : sent;
  const limits = findLimits({ presses, pedals, inverted, channels, folded, broken: file.broken, durationS });
  return { notes: numbered(presses), ...pedals, durationS, limits };
}

/** Why nothing is left: damage before drums, drums before silence. */
function withoutNotes(broken: boolean, drums: boolean): InputError {
  if (broken) return new InputError('not-well-formed', 'The file breaks off or is damaged before its first note.');
  if (drums) return new InputError('no-notes', 'The file holds drums only. A recording of a piano was expected.');
  return new InputError('no-notes', 'The file is a MIDI file, but not a single note was recorded in it.');
}

/** By onset, then pitch, as `Recording.notes` promises. */
function numbered(presses: readonly KeyPress[]): readonly RecordedNote[] {
  return [...presses]
    .sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch)
    .map(({ onsetS, releaseS, pitch, velocity, releaseVelocity, hanging }, index) => ({ index, onsetS, releaseS, pitch, velocity, releaseVelocity, hanging }));
}
