/** Compressed MusicXML. Nothing is believed about sizes: what comes out of the unpacker is counted while it comes. */
import { Unzip, UnzipInflate, type UnzipFile } from 'fflate';
import { InputError } from '../base/index.js';
import { MAX_PACKED_ENTRIES, MAX_UNPACKED_BYTES } from './limits.js';
import { decodeText } from './decode.js';
import { child, childrenNamed, parseXml } from './xmlTree.js';

/** Bytes fed to the unpacker at once: bounds what one step can swell to (deflate grows at most 1032 times). */
const FEED_BYTES = 16 * 1024;

/** Where the MusicXML standard puts the list of root files. */
const CONTAINER = 'META-INF/container.xml';

/**
 * The score file inside a compressed MusicXML file (`.mxl`): the first root file that its container names, or, where
 * the container is missing, the first XML file outside META-INF.
 * @throws InputError `not-well-formed` for a broken zip, `too-large` for a bomb, `not-a-score` where no score is inside
 */
export function unpackScore(bytes: Uint8Array): Uint8Array {
  const names: string[] = [];
  const container = unpackEntry(bytes, (name) => {
    names.push(name);
    return name === CONTAINER;
  });
  const wanted =
    (container && rootFile(container)) ?? names.find((name) => !name.startsWith('META-INF/') && /\.(musicxml|xml)$/i.test(name));
  const score = wanted === undefined ? null : unpackEntry(bytes, (name) => name === wanted);
  if (score === null)
    throw new InputError('not-a-score', 'This compressed file holds no score; expected an .mxl file with a MusicXML score inside.');
  return score;
}

/** Path of the first root file that is MusicXML (no media type, or one that says so). */
function rootFile(container: Uint8Array): string | undefined {
  const list = child(parseXml(decodeText(container)), 'rootfiles');
  const files = list === undefined ? [] : childrenNamed(list, 'rootfile');
  const score = files.find((file) => (file.attributes['media-type'] ?? 'musicxml').includes('musicxml')) ?? files[0];
  return score?.attributes['full-path'];
}

/** Unpacks the first entry that is wanted; null where none is. Counts what really comes out, whatever was declared. */
function unpackEntry(bytes: Uint8Array, wanted: (name: string) => boolean): Uint8Array | null {
  const out: UnpackedEntry = { pieces: [], started: false, finished: false, size: 0 };
  let entries = 0;
  const unzip = new Unzip((entry) => {
    entries += 1;
    if (entries > MAX_PACKED_ENTRIES) throw tooLarge();
    if (wanted(entry.name) && !out.started) unpackInto(out, entry);
  });
  unzip.register(UnzipInflate);
  feed(unzip, bytes, out);
  if (out.started && !out.finished) throw broken();
  return out.started ? joined(out.pieces, out.size) : null;
}

/** An entry while it is being unpacked. */
interface UnpackedEntry {
  readonly pieces: Uint8Array[];
  started: boolean;
  finished: boolean;
  size: number;
}

/** Starts to unpack an entry; whatever it declared, no more than the cap comes out. */
function unpackInto(out: UnpackedEntry, entry: UnzipFile): void {
  if ((entry.originalSize ?? 0) > MAX_UNPACKED_BYTES) throw tooLarge();
  out.started = true;
  entry.ondata = (error: Error | null, piece: Uint8Array, final: boolean) => {
    if (error !== null) throw error;
    out.size += piece.length;
    if (out.size > MAX_UNPACKED_BYTES) throw tooLarge();
    out.pieces.push(piece);
    out.finished = final;
  };
  entry.start();
}

/** Feeds the packed bytes in small steps until the wanted entry is out. */
function feed(unzip: Unzip, bytes: Uint8Array, out: UnpackedEntry): void {
  try {
    for (let from = 0; from < bytes.length && !out.finished; from += FEED_BYTES) {
      unzip.push(bytes.subarray(from, from + FEED_BYTES), from + FEED_BYTES >= bytes.length);
    }
  } catch (error) {
    throw error instanceof InputError ? error : broken();
  }
}

/** One array from many. */
function joined(pieces: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** The one error for files that end too soon or are damaged. */
function broken(): InputError {
  return new InputError('not-well-formed', 'This compressed file is cut short or damaged; expected a whole .mxl file.');
}

/** The one error for bombs, whether they say their size or not. */
function tooLarge(): InputError {
  return new InputError(
    'too-large',
    `This compressed file unpacks to more than ${MAX_UNPACKED_BYTES / 1_048_576} MB or holds more than ${MAX_PACKED_ENTRIES} files; expected one piano score.`,
  );
}
