/** Pitches: spelled as written, sounding as heard. Everything after this file speaks of sounding pitches only. */
import { InputError, type InputPlace } from '../base/index.js';
import { MAX_ALTER } from './limits.js';
import type { Pitch, Step } from './types.js';
import { readDecimal, readWhole } from './values.js';
import { childText, type XmlElement } from './xmlTree.js';

/** How far a part sounds from what is written. */
export interface Transposition {
  /** Semitones, octaves included. */
  readonly semitones: number;
  /** Diatonic steps, octaves included, for the spelling only; null where the file does not say. */
  readonly steps: number | null;
}

/** Steps upward from C with their distance from C in semitones. */
const SCALE: readonly { readonly step: Step; readonly semitone: number }[] = [
  { step: 'C', semitone: 0 },
  { step: 'D', semitone: 2 },
  { step: 'E', semitone: 4 },
  { step: 'F', semitone: 5 },
  { step: 'G', semitone: 7 },
  { step: 'A', semitone: 9 },
  { step: 'B', semitone: 11 },
];

/** Usual diatonic size of an interval of so many semitones (index 0-11): minor second 1, major second 1 and so on. */
const USUAL_STEPS = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6] as const;

/**
 * A spelled pitch; octave 4 starts at middle C, MIDI 60 (MusicXML 4.0). Quarter-tones keep their alteration and
 * sound as the nearest key, halves upward.
 */
export function spelledPitch(step: Step, alter: number, octave: number): Pitch {
  const place = SCALE.find((entry) => entry.step === step);
  return { step, alter, octave, midi: Math.round(12 * (octave + 1) + (place?.semitone ?? 0) + alter) };
}

/**
 * The sounding pitch of a `pitch` element.
 * @throws InputError `bad-value` for a step, alteration or octave outside of what notation has
 */
export function readPitch(element: XmlElement, transposition: Transposition | undefined, place: InputPlace): Pitch {
  const step = SCALE.find((entry) => entry.step === childText(element, 'step'))?.step;
  if (step === undefined) throw new InputError('bad-value', 'A note has no step from A to G; expected one.', place);
  const alter = readDecimal(
    childText(element, 'alter') ?? '0',
    { what: 'The alteration of a note', min: -MAX_ALTER, max: MAX_ALTER },
    place,
  );
  const octave = readWhole(childText(element, 'octave'), { what: 'The octave of a note', min: 0, max: 9 }, place);
  const written = spelledPitch(step, alter, octave);
  const sounding = transposition === undefined ? written : transposed(written, transposition);
  if (sounding.midi < 0 || sounding.midi > 127)
    throw new InputError('bad-value', 'A note sounds outside of the MIDI range; expected a pitch from 0 to 127.', place);
  return sounding;
}

/** A written pitch as it sounds: up by the semitones, spelled by the steps. */
export function transposed(written: Pitch, by: Transposition): Pitch {
  const steps = by.steps ?? usualSteps(by.semitones);
  const from = SCALE.findIndex((entry) => entry.step === written.step) + 7 * written.octave + steps;
  const octave = Math.floor(from / 7);
  const place = SCALE[from - 7 * octave];
  if (place === undefined) return written;
  const alter =
    12 * (written.octave - octave) +
    (SCALE.find((entry) => entry.step === written.step)?.semitone ?? 0) +
    written.alter +
    by.semitones -
    place.semitone;
  return spelledPitch(place.step, alter, octave);
}

/** Steps of an interval of so many semitones, octaves included. */
function usualSteps(semitones: number): number {
  const octaves = Math.floor(semitones / 12);
  return 7 * octaves + (USUAL_STEPS[semitones - 12 * octaves] ?? 0);
}
