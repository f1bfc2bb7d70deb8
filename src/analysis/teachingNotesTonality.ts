/*
 * Question: does the piece have keys at all, so that sentences on keys, degrees and cadences mean something?
 * Conventions: 0 where the notes fit their keys no better than all twelve notes alike would, 1 where all belong.
 * Method: the share of all sounds that belong to the scale of the key found around them; in minor both forms of the sixth and seventh degrees
 *   belong. All twelve notes alike give 7/12 in major and 9/12 in minor: the share is counted from there. Thirty-three tonal scores, the most
 *   chromatic of them Romantic showpieces, lie above 0.7.
 * Source: our own rule.
 * What it does not tell: whether a listener would hear a centre in music without a scale.
 */
import type { KeySpan } from '../harmony/index.js';
import type { NotesGround } from './teachingNotesGround.js';
import { isOneLine, tooFewForKey } from './teachingNotesLimits.js';

/** Pieces whose sounds fit their keys less have none to speak of; `<`. */
export const LEAST_IN_KEY = 0.4;

/** Semitones above the tonic that belong to a key. */
const SCALES = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 9, 10, 11] } as const;

/** Whether chords and cadences can be spoken of: there are keys, and more than one line. */
export function hasChords(ground: Pick<NotesGround, 'harmony' | 'sounds'>): boolean {
  return hasKeys(ground) && !isOneLine(ground.sounds);
}

/** Whether keys can be spoken of. */
export function hasKeys({ harmony, sounds }: Pick<NotesGround, 'harmony' | 'sounds'>): boolean {
  if (tooFewForKey(sounds)) return false;
  const first = harmony.keys[0];
  if (harmony.globalKey === null || first === undefined) return false;
  const fits = sounds.map((sound) => {
    const key = harmony.keys.findLast((span) => span.fromTick <= sound.fromTick) ?? first;
    const chance = SCALES[key.mode].length / 12;
    const length = sound.toTick - sound.fromTick;
    return { gained: length * ((isIn(sound.midi, key) ? 1 : 0) - chance), most: length * (1 - chance) };
  });
  const most = fits.reduce((sum, fit) => sum + fit.most, 0);
  const gained = fits.reduce((sum, fit) => sum + fit.gained, 0);
  return most > 0 && gained >= LEAST_IN_KEY * most;
}

/** Whether a pitch belongs to a key. */
function isIn(midi: number, { tonic, mode }: KeySpan): boolean {
  const above = (((midi - tonic) % 12) + 12) % 12;
  return SCALES[mode].some((step) => step === above);
}
