/** Largest variable-length quantity of Standard MIDI File 1.1: four bytes of seven bits. */
export const VLQ_MAX = 0x0fff_ffff;
const VLQ_BYTES = 4;

/** A number read from the bytes, and where the next thing begins. */
export interface Read {
  readonly value: number;
  readonly next: number;
}

/**
 * Reads a variable-length quantity (Standard MIDI File 1.1): seven bits a byte, the high bit says "more follows".
 * @returns null where the bytes end too soon or a fifth byte would be needed, which the standard forbids
 */
export function readVlq(bytes: Uint8Array, at: number): Read | null {
  let value = 0;
  for (let i = 0; i < VLQ_BYTES; i += 1) {
    const byte = bytes[at + i];
    if (byte === undefined) return null;
    value = value * 128 + (byte & 0x7f);
    if (byte < 0x80) return { value, next: at + i + 1 };
  }
  return null;
}

/**
 * Writes a variable-length quantity.
 * @param value whole, 0 to `VLQ_MAX`
 * @throws RangeError outside that range
 */
export function vlqBytes(value: number): readonly number[] {
  if (!Number.isInteger(value) || value < 0 || value > VLQ_MAX) throw new RangeError(`no variable-length quantity: ${value}`);
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

/** Big-endian number of `count` bytes (at most 4); bytes beyond the end count as 0. */
export function bigEndian(bytes: Uint8Array, at: number, count: number): number {
  let value = 0;
  for (let i = 0; i < count; i += 1) value = value * 256 + (bytes[at + i] ?? 0);
  return value;
}

/** Little-endian number of four bytes, as RIFF wrappers use; bytes beyond the end count as 0. */
export function littleEndian32(bytes: Uint8Array, at: number): number {
  let value = 0;
  for (let i = 3; i >= 0; i -= 1) value = value * 256 + (bytes[at + i] ?? 0);
  return value;
}

/** The four characters of a chunk name, or null where these bytes are no printable ASCII name. */
export function chunkName(bytes: Uint8Array, at: number): string | null {
  const name = bytes.subarray(at, at + 4);
  if (name.length < 4 || name.some((byte) => byte < 0x20 || byte > 0x7e)) return null;
  return String.fromCharCode(...name);
}
