/** The notes of a scale or arpeggio, spelled as they are taught. */
import type { Pitch } from '../types.js';
import { STEPS, tonicOf, type ScaleKind, type ScalePlan, type Tonic } from './scalePlan.js';

/** A note of a scale: how many letters above the tonic, and how many semitones. */
interface Degree {
  readonly letters: number;
  readonly semitones: number;
}

/** Semitones of each natural step above C. */
const NATURAL: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** Degrees of one octave, the octave left out, as textbooks have them; upwards and, where it differs, downwards. */
const UP: Readonly<Record<Exclude<ScaleKind, 'chromatic'>, readonly Degree[]>> = {
  major: degrees([0, 2, 4, 5, 7, 9, 11]),
  harmonicMinor: degrees([0, 2, 3, 5, 7, 8, 11]),
  melodicMinor: degrees([0, 2, 3, 5, 7, 9, 11]),
  naturalMinor: degrees([0, 2, 3, 5, 7, 8, 10]),
  majorArpeggio: [{ letters: 0, semitones: 0 }, { letters: 2, semitones: 4 }, { letters: 4, semitones: 7 }],
  minorArpeggio: [{ letters: 0, semitones: 0 }, { letters: 2, semitones: 3 }, { letters: 4, semitones: 7 }],
  dominantSeventh: [{ letters: 0, semitones: 0 }, { letters: 2, semitones: 4 }, { letters: 4, semitones: 7 }, { letters: 6, semitones: 10 }],
  diminishedSeventh: [{ letters: 0, semitones: 0 }, { letters: 2, semitones: 3 }, { letters: 4, semitones: 6 }, { letters: 6, semitones: 9 }],
};

/** Seven degrees, a letter each. */
function degrees(semitones: readonly number[]): readonly Degree[] {
  return semitones.map((each, letters) => ({ letters, semitones: each }));
}

/**
 * From the tonic up and down again, the top once.
 * @param octave in which it begins, of the tonic; octave 4 begins at middle C
 */
export function upAndDown({ tonic, kind, octaves }: Pick<ScalePlan, 'tonic' | 'kind' | 'octaves'>, octave: number): readonly Pitch[] {
  const from = tonicOf(tonic);
  if (kind === 'chromatic') return chromatic(from, { octave, octaves });
  const top = pitchOf(from, octave, { letters: 7 * octaves, semitones: 12 * octaves });
  const overOctaves = (some: readonly Degree[]): readonly Pitch[] => Array.from({ length: octaves }, (_, o) => some.map(({ letters, semitones }) => pitchOf(from, octave, { letters: letters + 7 * o, semitones: semitones + 12 * o }))).flat();
  return [...overOctaves(UP[kind]), top, ...overOctaves(UP[kind === 'melodicMinor' ? 'naturalMinor' : kind]).toReversed()];
}

/** From the tonic down and up again: the left hand's way in contrary motion. */
export function downAndUp(plan: Pick<ScalePlan, 'tonic' | 'kind' | 'octaves'>, octave: number): readonly Pitch[] {
  const up = upAndDown(plan, octave - plan.octaves);
  const half = (up.length - 1) / 2;
  return [...up.slice(half), ...up.slice(1, half + 1)];
}

/** A degree above the tonic as a spelled pitch. */
function pitchOf({ step, alter }: Tonic, octave: number, { letters, semitones }: Degree): Pitch {
  const place = STEPS.indexOf(step) + letters;
  const reached = octave + Math.floor(place / 7);
  const midi = 12 * (octave + 1) + (NATURAL[STEPS.indexOf(step)] ?? 0) + alter + semitones;
  const natural = 12 * (reached + 1) + (NATURAL[place % 7] ?? 0);
  return { step: STEPS[place % 7] ?? 'C', alter: midi - natural, octave: reached, midi };
}

/** Every key up, with sharps, and down, with flats, as is usual; the tonic keeps its own name. */
function chromatic(tonic: Tonic, { octave, octaves }: { readonly octave: number; readonly octaves: number }): readonly Pitch[] {
  const first = pitchOf(tonic, octave, { letters: 0, semitones: 0 });
  const keys = Array.from({ length: 12 * octaves + 1 }, (_, i) => first.midi + i);
  const spelled = (midi: number, sharp: boolean): Pitch => ((midi - first.midi) % 12 === 0 ? pitchOf(tonic, octave, { letters: (7 * (midi - first.midi)) / 12, semitones: midi - first.midi }) : plain(midi, sharp));
  return [...keys.map((midi) => spelled(midi, true)), ...keys.slice(0, -1).toReversed().map((midi) => spelled(midi, false))];
}

/** A key as a natural, or with a sharp or flat. */
function plain(midi: number, sharp: boolean): Pitch {
  const octave = Math.floor(midi / 12) - 1;
  const natural = NATURAL.indexOf(midi % 12);
  if (natural >= 0) return { step: STEPS[natural] ?? 'C', alter: 0, octave, midi };
  const neighbour = NATURAL.indexOf((midi % 12) + (sharp ? -1 : 1));
  return { step: STEPS[neighbour] ?? 'C', alter: sharp ? 1 : -1, octave, midi };
}
