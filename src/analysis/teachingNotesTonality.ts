/*
 * Question: does the piece have keys at all, so that sentences on keys, degrees and cadences mean something?
 * Conventions: share of the sounding time, 0-1.
 * Method: the share of all sounds that belong to the scale of the key found around them; in minor both forms of the sixth and seventh degrees
 *   belong. Thirty-one tonal scores, the most chromatic of them Romantic showpieces, lie between 0.89 and 1; all twelve notes alike give
 *   7/12 in major and 9/12 in minor.
 * Source: our own rule.
 * What it does not tell: whether a listener would hear a centre in music without a scale.
 */
import type { KeySpan } from '../harmony/index.js';
import type { NotesGround } from './teachingNotesGround.js';

/** Pieces that keep less of their sound within their scales have no keys to speak of; `<`. */
export const LEAST_IN_SCALE = 0.8;

/** Semitones above the tonic that belong to a key. */
const SCALES = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 9, 10, 11] } as const;

/** Whether keys can be spoken of. */
export function hasKeys({ harmony, sounds }: Pick<NotesGround, 'harmony' | 'sounds'>): boolean {
  const first = harmony.keys[0];
  if (harmony.globalKey === null || first === undefined) return false;
  const shares = sounds.map((sound) => ({ length: sound.toTick - sound.fromTick, inside: isIn(sound.midi, harmony.keys.findLast((key) => key.fromTick <= sound.fromTick) ?? first) }));
  const all = shares.reduce((sum, { length }) => sum + length, 0);
  const inside = shares.reduce((sum, one) => sum + (one.inside ? one.length : 0), 0);
  return all > 0 && inside >= LEAST_IN_SCALE * all;
}

/** Whether a pitch belongs to a key. */
function isIn(midi: number, { tonic, mode }: KeySpan): boolean {
  const above = (((midi - tonic) % 12) + 12) % 12;
  return SCALES[mode].some((step) => step === above);
}
