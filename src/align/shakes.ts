/**
 * The question: which presses are plainly a trill or a tremolo, whatever the score says there?
 * Conventions: presses in time order; a shake is two keys struck in turn, again and again.
 * Method: a press belongs to one where its own key was struck twice before at short, even distances with one and the same
 * other key in between. Our own rule; editions leave out ornament signs, and players add ornaments.
 * It does not say that the trill is right: a trill that is written out is matched note by note like anything else.
 */
import type { Press } from './press.js';

/** The same key comes back within this time, seconds: five turns a second and faster. */
const RETURN_S = 0.4;
/** The two keys lie at most so far apart, semitones: an octave tremolo. */
const MAX_INTERVAL = 12;
/** Returns in a row that make a shake. */
const RETURNS = 3;

/** 1 for every press that belongs to a shake. Linear in the number of presses. */
export function shakes(presses: readonly Press[]): Uint8Array {
  const flags = new Uint8Array(presses.length);
  const last = new Int32Array(128).fill(-1);
  // how many returns end in this press, with which other key, and the press it returns from
  const count = new Uint16Array(presses.length);
  const other = new Int16Array(presses.length).fill(-1);
  presses.forEach((press, i) => {
    const key = Math.min(127, Math.max(0, press.key));
    const before = last[key] ?? -1;
    last[key] = i;
    if (before < 0 || press.onsetS - (presses[before]?.onsetS ?? 0) > RETURN_S) return;
    const partner = partnerBetween(presses, before, i, other[before] ?? -1);
    if (partner < 0) return;
    other[i] = partner;
    count[i] = (other[before] === partner ? (count[before] ?? 0) : 0) + 1;
    if ((count[i] ?? 0) >= RETURNS) markBack(presses, { flags, from: i, keys: [key, partner] });
  });
  return flags;
}

// The key struck exactly once between two presses of one key, near it on the keyboard; the known partner first.
function partnerBetween(presses: readonly Press[], from: number, to: number, known: number): number {
  const key = presses[from]?.key ?? 0;
  let found = -1;
  for (let i = from + 1; i < to; i += 1) {
    const between = presses[i]?.key ?? 0;
    const interval = Math.abs(between - key);
    if (interval === 0 || interval > MAX_INTERVAL) continue;
    if (between === known) return between;
    if (found < 0 || interval < Math.abs(found - key)) found = between;
  }
  return found;
}

// Marks the shake's presses back to its beginning: both keys, as long as they follow each other quickly.
function markBack(presses: readonly Press[], shake: { flags: Uint8Array; from: number; keys: readonly number[] }): void {
  const { flags, from, keys } = shake;
  let since = presses[from]?.onsetS ?? 0;
  for (let i = from; i >= 0; i -= 1) {
    const press = presses[i];
    if (!press || since - press.onsetS > RETURN_S) break;
    if (!keys.includes(press.key)) continue;
    if (flags[i] && i < from - 8) break;
    flags[i] = 1;
    since = press.onsetS;
  }
}
