/** Chords and keys in words: "F sharp seventh", "A minor". */
import type { Harmony, KeyName, Quality } from '../harmony/index.js';
import { noteInWords } from './noteNames.js';

/** What stands after the root's name; the chords that are named by their place in the key stand as they are. */
const QUALITY_WORDS: Readonly<Record<Quality, string>> = {
  major: 'major',
  minor: 'minor',
  diminished: 'diminished',
  augmented: 'augmented',
  dominantSeventh: 'seventh',
  majorSeventh: 'major seventh',
  minorSeventh: 'minor seventh',
  halfDiminishedSeventh: 'half-diminished seventh',
  diminishedSeventh: 'diminished seventh',
  dominantNinth: 'ninth',
  dominantMinorNinth: 'minor ninth',
  frenchSixth: 'French sixth',
  italianSixth: 'Italian sixth',
  germanSixth: 'German sixth',
  cadentialSixFour: 'six-four before the dominant',
  openFifth: 'open fifth',
  none: '',
};

/** Chords whose name does not begin with their root. */
const NAMED_WITHOUT_ROOT: ReadonlySet<Quality> = new Set(['frenchSixth', 'italianSixth', 'germanSixth']);

/** "D minor", "E seventh", "open fifth on A", "the German sixth"; "" without a root. */
export function chordInWords(harmony: Pick<Harmony, 'rootName' | 'quality' | 'root'>): string {
  const { quality, rootName } = harmony;
  if (NAMED_WITHOUT_ROOT.has(quality)) return `the ${QUALITY_WORDS[quality]}`;
  if (quality === 'cadentialSixFour') return `the ${QUALITY_WORDS[quality]}`;
  if (harmony.root === null || rootName === '') return '';
  if (quality === 'openFifth') return `open fifth on ${noteInWords(rootName)}`;
  return `${noteInWords(rootName)} ${QUALITY_WORDS[quality]}`.trim();
}

/** The same with a bass that is not the root: "D minor over F". */
export function chordOverBass(harmony: Harmony): string {
  const chord = chordInWords(harmony);
  const plain = chord === '' || harmony.bass === null || harmony.bass === harmony.root || chord.startsWith('the ');
  return plain ? chord : `${chord} over ${noteInWords(harmony.bassName)}`;
}

/** "A minor". */
export function keyInWords(key: KeyName & { readonly spelling: string }): string {
  return `${noteInWords(key.spelling)} ${key.mode}`;
}
