/**
 * What a file is, by its first bytes. Teachers send what they have: a photograph of the page, a PDF, a recording; each
 * of these gets a sentence of its own.
 */
import { InputError } from '../base/index.js';

/** What a score file is, told by its first bytes. */
export type FileKind = 'xml' | 'packed' | 'midi';

/** First bytes of files that people send by mistake, and what to call them. */
const OTHER_KINDS: readonly { readonly head: readonly number[]; readonly name: string }[] = [
  { head: [0xff, 0xd8, 0xff], name: 'a JPEG picture' },
  { head: [0x89, 0x50, 0x4e, 0x47], name: 'a PNG picture' },
  { head: [0x25, 0x50, 0x44, 0x46], name: 'a PDF document' },
  { head: [0x49, 0x44, 0x33], name: 'a sound recording' },
  { head: [0x4f, 0x67, 0x67, 0x53], name: 'a sound recording' },
  { head: [0x52, 0x49, 0x46, 0x46], name: 'a sound recording' },
];

/** What a score may be. */
const EXPECTED = 'expected a score as MusicXML (.musicxml, .xml, .mxl) or as MIDI file (.mid)';

/**
 * Tells what a file is, whatever its name says.
 * @throws InputError `empty` for a file without content, `not-a-score` for one that can be none
 */
export function fileKind(bytes: Uint8Array): FileKind {
  if (startsWith(bytes, [0x50, 0x4b, 3, 4])) return 'packed';
  if (startsWith(bytes, [0x4d, 0x54, 0x68, 0x64])) return 'midi';
  const other = OTHER_KINDS.find(({ head }) => startsWith(bytes, head));
  if (other !== undefined) throw new InputError('not-a-score', `This file is ${other.name}; ${EXPECTED}.`);
  const first = bytes.find((byte) => !isBlank(byte));
  if (first === undefined) throw new InputError('empty', `This file is empty; ${EXPECTED}.`);
  if (first !== 0x3c) throw new InputError('not-a-score', `This file is no XML; ${EXPECTED}.`);
  return 'xml';
}

/** True where a file begins with these bytes. */
function startsWith(bytes: Uint8Array, head: readonly number[]): boolean {
  return head.every((byte, i) => bytes[i] === byte);
}

/** White space, the zero bytes of UTF-16, and byte order marks. */
function isBlank(byte: number): boolean {
  return (
    byte === 0 ||
    byte === 0x20 ||
    (byte >= 9 && byte <= 13) ||
    byte === 0xfe ||
    byte === 0xff ||
    byte === 0xef ||
    byte === 0xbb ||
    byte === 0xbf
  );
}
