/**
 * From bytes to text. Decoding is strict: a wrong byte means a damaged file, and a damaged file must not pass as a
 * score with a few odd letters in it.
 */
import { InputError } from '../base/index.js';

/** Encodings that a score may declare and that are read; names as the encoding standard of the WHATWG lists them. */
const EIGHT_BIT_ENCODINGS: ReadonlySet<string> = new Set([
  'utf-8',
  'utf8',
  'us-ascii',
  'ascii',
  'iso-8859-1',
  'latin1',
  'iso-8859-15',
  'windows-1252',
]);

/** How far into a file the XML declaration is looked for, bytes. */
const DECLARATION_BYTES = 200;

/**
 * The text of an XML file. The encoding comes from the byte order mark, else from the shape of the first characters
 * (UTF-16 without a mark), else from the XML declaration, else it is UTF-8 (XML 1.0, appendix F).
 * @throws InputError `unsupported` for another encoding, `not-well-formed` for bytes that do not fit the encoding
 */
export function decodeText(bytes: Uint8Array): string {
  const encoding = markedEncoding(bytes) ?? declaredEncoding(bytes);
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes).trimStart();
  } catch {
    throw new InputError(
      'not-well-formed',
      `This file holds bytes that are no text in its encoding (${encoding}); expected a MusicXML file saved whole.`,
    );
  }
}

/** Encoding told by a byte order mark or by the zero bytes of UTF-16 around the first "<". */
function markedEncoding(bytes: Uint8Array): string | null {
  const [first, second, third] = bytes;
  if (first === 0xef && second === 0xbb && third === 0xbf) return 'utf-8';
  if ((first === 0xff && second === 0xfe) || (first === 0x3c && second === 0)) return 'utf-16le';
  if ((first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c)) return 'utf-16be';
  return null;
}

/** Encoding named in the XML declaration; a file of single bytes that claims to be UTF-16 is taken as UTF-8. */
function declaredEncoding(bytes: Uint8Array): string {
  const head = String.fromCharCode(...bytes.subarray(0, DECLARATION_BYTES));
  const name = /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([^"']+)["']/.exec(head)?.[1]?.toLowerCase();
  if (name === undefined || name.startsWith('utf-16')) return 'utf-8';
  if (!EIGHT_BIT_ENCODINGS.has(name)) {
    throw new InputError('unsupported', 'This file is written in an encoding that is not read here; expected UTF-8, UTF-16 or ISO-8859-1.');
  }
  return name;
}
