/*
 * Question: what is a chord called in its key?
 * Conventions: roman numerals, small for minor and diminished thirds; "o" diminished, "ø" half-diminished, "+" augmented; figures
 *   6, 64, 7, 65, 43, 42; "b" and "#" against the key's own scale (natural minor; the leading note's own chords in minor
 *   are written without a sharp, as usual); N for the flattened supertonic's triad; V(64) for the cadential six-four.
 * Method: the root's distance from the tonic on the line of fifths gives step and accidental; a chord foreign to the scale that leads to
 *   a diatonic triad is named as its dominant.
 * Source: textbook usage.
 * What it does not tell: the key, which is given.
 */
import type { Draft, SpelledKey } from './draft.js';
import { mod } from './pitchNames.js';
import type { Mode, Quality } from './types.js';

const NUMERALS = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'] as const;

/** Steps of the scale as distances on the line of fifths. */
const SCALE: Readonly<Record<Mode, readonly number[]>> = { major: [0, 2, 4, -1, 1, 3, 5], minor: [0, 2, -3, -1, 1, -4, -2] };

/** Pitch classes above the tonic that a key holds; minor with both its leading note and its lowered seventh. */
const HELD: Readonly<Record<Mode, readonly number[]>> = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 10, 11] };

/** Triads that can be led to, by semitones above the tonic, as named after the stroke. */
const TARGETS: Readonly<Record<Mode, Readonly<Record<number, string>>>> = {
  major: { 2: 'ii', 4: 'iii', 5: 'IV', 7: 'V', 9: 'vi' },
  minor: { 3: 'III', 5: 'iv', 7: 'V', 8: 'VI', 10: 'VII' },
};

/** How a quality is written behind its numeral. */
const SIGN: Readonly<Partial<Record<Quality, string>>> = {
  diminished: 'o', diminishedSeventh: 'o', halfDiminishedSeventh: 'ø', augmented: '+', majorSeventh: 'maj',
};

/** Whether a numeral is written small. */
const SMALL: ReadonlySet<Quality> = new Set<Quality>(['minor', 'diminished', 'minorSeventh', 'halfDiminishedSeventh', 'diminishedSeventh']);

const TRIAD_FIGURES = ['', '6', '64'] as const;
const SEVENTH_FIGURES = ['7', '65', '43', '42'] as const;

/** A named degree: step 0-6 of the scale, or that of the chord it leads to. */
export interface Degree {
  readonly text: string;
  /** Place in the scale, 0 = tonic. */
  readonly step: number;
  /** Semitones off the scale. */
  readonly alter: number;
  readonly applied: boolean;
}

/**
 * The degree of a draft in its key.
 * @param rootFifths the root's place on the line of fifths
 * @param next the harmony after it, or null
 */
export function degreeOf(draft: Draft, rootFifths: number, next: Draft | null): Degree {
  const { key, quality } = draft;
  const { step, alter } = stepOf(key, rootFifths);
  const named = (text: string, applied = false): Degree => ({ text, step, alter, applied });
  const sixth = { italianSixth: 'It6', frenchSixth: 'Fr6', germanSixth: 'Ger6' };
  if (quality === 'italianSixth' || quality === 'germanSixth') return named(sixth[quality] + strokeFor(key, mod(draft.root + 1, 12), 7));
  if (quality === 'frenchSixth') return named(sixth.frenchSixth + strokeFor(key, mod(draft.root + 5, 12), 7));
  if (quality === 'cadentialSixFour') return named('V(64)');
  if (quality === 'major' && rootFifths - key.fifths === -5) return named(`N${figures(draft)}`);
  const target = appliedTarget(draft, next);
  if (target !== null) return named(`${dominantName(draft)}/${target}`, true);
  return named((alter < 0 ? 'b' : '#').repeat(Math.abs(alter)) + numeral(NUMERALS[step] ?? 'I', draft));
}

/** Figures of a chord by the member in its bass. */
export function figures(draft: Pick<Draft, 'members' | 'lowest' | 'quality'>): string {
  const place = draft.lowest === null ? 0 : Math.max(0, draft.members.indexOf(draft.lowest.pc));
  if (draft.quality === 'dominantNinth' || draft.quality === 'dominantMinorNinth') return place === 0 || place > 3 ? '9' : (SEVENTH_FIGURES[place] ?? '9');
  return (draft.members.length > 3 ? SEVENTH_FIGURES[place] : TRIAD_FIGURES[place]) ?? '';
}

/** Whether a key's scale holds all of some pitch classes. */
export function isDiatonic(members: readonly number[], tonic: number, mode: Mode): boolean {
  return members.every((pc) => HELD[mode].includes(mod(pc - tonic, 12)));
}

/** Step and accidental of a root. In minor the chords of the leading note count as unaltered. */
function stepOf(key: SpelledKey, rootFifths: number): { readonly step: number; readonly alter: number } {
  const distance = rootFifths - key.fifths;
  const scale = SCALE[key.mode];
  const step = scale.findIndex((place) => mod(place - distance, 7) === 0);
  const alter = Math.round((distance - (scale[step] ?? 0)) / 7);
  return { step, alter: key.mode === 'minor' && step === 6 && alter === 1 ? 0 : alter };
}

/** "/x" where an augmented sixth leads to the dominant of another chord than the tonic; `reach` is how far its dominant stands above that. */
function strokeFor(key: SpelledKey, dominant: number, reach: number): string {
  const above = mod(dominant - reach - key.tonic, 12);
  const target = TARGETS[key.mode][above];
  return above === 0 || target === undefined ? '' : `/${target}`;
}

/** What a chord foreign to its key leads to, or null. */
function appliedTarget(draft: Draft, next: Draft | null): string | null {
  const { key, quality, root, members } = draft;
  const leading = quality === 'diminished' || quality === 'diminishedSeventh' || quality === 'halfDiminishedSeventh';
  const dominant = quality === 'dominantSeventh' || quality === 'dominantNinth' || quality === 'dominantMinorNinth';
  if (!leading && !dominant && quality !== 'major') return null;
  const target = mod(root + (leading ? 1 : 5), 12);
  const name = TARGETS[key.mode][mod(target - key.tonic, 12)];
  if (name === undefined || target === key.tonic) return null;
  const relative = key.mode === 'minor' && dominant && mod(root - key.tonic, 12) === 10;
  if (isDiatonic(members, key.tonic, key.mode) && !relative) return null;
  if (leading && mod(root - key.tonic, 12) === 2) return null;
  return quality === 'major' && next?.root !== target ? null : name;
}

/** A chord as the dominant of what it leads to. */
function dominantName(draft: Draft): string {
  const leading = SMALL.has(draft.quality);
  return numeral(leading ? 'VII' : 'V', draft);
}

/** A numeral with the chord's case, sign and figures. */
function numeral(text: string, draft: Draft): string {
  const minorFifth = draft.quality === 'openFifth' && !isDiatonic([mod(draft.root + 4, 12)], draft.key.tonic, draft.key.mode);
  const cased = SMALL.has(draft.quality) || minorFifth ? text.toLowerCase() : text;
  return cased + (SIGN[draft.quality] ?? '') + figures(draft);
}
