import type { Step } from '../types.js';

/** What is practised: scales, and arpeggios and broken chords by their chord. */
export type ScaleKind = 'major' | 'harmonicMinor' | 'melodicMinor' | 'naturalMinor' | 'chromatic' | 'majorArpeggio' | 'minorArpeggio' | 'dominantSeventh' | 'diminishedSeventh';

/** How it is touched. */
export type ScaleTouch = 'legato' | 'staccato' | 'plain';

/** Which hands, and which way: together an octave apart, or away from one another. */
export type ScaleHands = 'right' | 'left' | 'together' | 'contrary';

/** Everything that makes a scale or arpeggio. */
export interface ScalePlan {
  /** Name of the tonic: "C", "F#", "Bb". */
  readonly tonic: string;
  readonly kind: ScaleKind;
  /** 1-4. */
  readonly octaves: number;
  readonly hands: ScaleHands;
  /** Crotchets a minute, 30-208. */
  readonly tempo: number;
  /** Notes to a crotchet: crotchets, quavers, triplets or semiquavers. */
  readonly notesPerBeat: 1 | 2 | 3 | 4;
  readonly touch: ScaleTouch;
}

/** A tonic: a step and its semitones up or down. */
export interface Tonic {
  readonly step: Step;
  readonly alter: number;
}

/** Tonics that are offered, by the circle of fifths. */
export const TONICS: readonly string[] = ['C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'F', 'Bb', 'Eb', 'Ab', 'Db', 'Gb', 'G#', 'D#'];

/** Names as they are printed. */
const KINDS: Readonly<Record<ScaleKind, string>> = {
  major: 'major', harmonicMinor: 'harmonic minor', melodicMinor: 'melodic minor', naturalMinor: 'natural minor', chromatic: 'chromatic scale',
  majorArpeggio: 'major arpeggio', minorArpeggio: 'minor arpeggio', dominantSeventh: 'dominant seventh', diminishedSeventh: 'diminished seventh',
};

/** All kinds, in the order in which they are offered. */
export const SCALE_KINDS: readonly ScaleKind[] = ['major', 'harmonicMinor', 'melodicMinor', 'naturalMinor', 'chromatic', 'majorArpeggio', 'minorArpeggio', 'dominantSeventh', 'diminishedSeventh'];

/** "harmonic minor". */
export function scaleKindInWords(kind: ScaleKind): string {
  return KINDS[kind];
}

/** Bounds of what may be asked. */
const MOST_OCTAVES = 4;
const SLOWEST = 30;
const QUICKEST = 208;

/**
 * A tonic from its name.
 * @throws RangeError for a name that is none
 */
export function tonicOf(name: string): Tonic {
  const [, letter = '', accidental = ''] = /^([A-G])(#|b)?$/.exec(name) ?? [];
  const step = STEPS.find((one) => one === letter);
  if (step === undefined) throw new RangeError(`"${name}" is no tonic`);
  return { step, alter: accidental === '#' ? 1 : accidental === 'b' ? -1 : 0 };
}

/** Steps from C upwards. */
export const STEPS: readonly Step[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** Contrary motion from middle C has room for so many octaves on each side. */
const MOST_CONTRARY = 3;

/** Sharps or flats (<=) that a key signature can hold. */
const MOST_FIFTHS = 7;

/** Sharps (+) or flats (-) of the key signature: dominant sevenths stand in the key they lead to, chromatic and diminished ones in none. */
export function scaleFifths({ tonic, kind }: Pick<ScalePlan, 'tonic' | 'kind'>): number {
  const { step, alter } = tonicOf(tonic);
  const major = [0, 2, 4, -1, 1, 3, 5][STEPS.indexOf(step)] ?? 0;
  if (kind === 'chromatic' || kind === 'diminishedSeventh') return 0;
  const shift = kind === 'dominantSeventh' ? -1 : kind === 'major' || kind === 'majorArpeggio' ? 0 : -3;
  return major + 7 * alter + shift;
}

/** Why a plan cannot be played or printed, as a sentence for people; null where it can. */
export function scaleProblem(plan: ScalePlan): string | null {
  const { octaves, tempo, hands } = plan;
  if (!Number.isInteger(octaves) || octaves < 1 || octaves > MOST_OCTAVES) return `A scale goes over one to ${MOST_OCTAVES} octaves.`;
  if (hands === 'contrary' && octaves > MOST_CONTRARY) return 'In contrary motion the keyboard has room for three octaves on each side.';
  if (!(tempo >= SLOWEST && tempo <= QUICKEST)) return `A scale goes at ${SLOWEST} to ${QUICKEST} crotchets a minute.`;
  return Math.abs(scaleFifths(plan)) > MOST_FIFTHS ? 'This key would need double sharps or flats in its signature. Choose the same key under its other name.' : null;
}

/** @throws RangeError for a plan that cannot be played or printed */
export function checkScalePlan(plan: ScalePlan): void {
  const problem = scaleProblem(plan);
  if (problem !== null) throw new RangeError(problem);
}

/** "E flat major, two octaves, hands together". */
export function scaleTitle({ tonic, kind, octaves, hands, touch }: ScalePlan): string {
  const name = tonic.replace('#', ' sharp').replace(/b$/, ' flat');
  const first = kind === 'chromatic' ? `Chromatic scale on ${name}` : kind === 'dominantSeventh' || kind === 'diminishedSeventh' ? `${sentence(KINDS[kind])} on ${name}` : `${name} ${KINDS[kind]}`;
  const counts = ['one octave', 'two octaves', 'three octaves', 'four octaves'];
  const how = { right: 'right hand', left: 'left hand', together: 'hands together', contrary: 'contrary motion' }[hands];
  return [first, counts[octaves - 1] ?? '', how, ...(touch === 'plain' ? [] : [touch])].join(', ');
}

/** With a capital. */
function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
