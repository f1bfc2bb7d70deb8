/** Tempo marks in words and figures, brought to crotchets a minute. */
import { plainNumber } from './values.js';
import { childText, type XmlElement } from './xmlTree.js';

/** Crotchets in every printed note value that MusicXML 4.0 names, the shortest left out. */
const CROTCHETS: ReadonlyMap<string, number> = new Map([
  ['maxima', 32],
  ['long', 16],
  ['breve', 8],
  ['whole', 4],
  ['half', 2],
  ['quarter', 1],
  ['eighth', 1 / 2],
  ['16th', 1 / 4],
  ['32nd', 1 / 8],
  ['64th', 1 / 16],
]);

/** Words that begin a tempo or a change of tempo, Italian, German, French and English. Common practice, not complete. */
const TEMPO_WORDS = new RegExp(
  `^(${[
    'grave',
    'larg',
    'lent',
    'adag',
    'andant',
    'moderato',
    'alleg',
    'vivac',
    'vivo',
    'viviss',
    'presto',
    'prestiss',
    'tempo',
    'a tempo',
    "l'istesso",
    'listesso',
    'rit\\b',
    'rit\\.',
    'ritard',
    'riten',
    'rall',
    'accel',
    'string',
    'allarg',
    'slentando',
    'calando',
    'smorz',
    'morendo',
    'rubato',
    'con moto',
    'pi[uù] (mosso|lento|vivo|presto)',
    'meno mosso',
    'poco (pi[uù]|meno) (mosso|lento)',
    '(poco|un poco|molto) (rit|rall|accel|adag|lent|alleg|andant)',
    'poco a poco (rit|rall|accel)',
    'assai',
    'sostenuto',
    'maestoso',
    'langsam',
    'mäßig',
    'm[aä](ss|ß)ig',
    'schnell',
    'rasch',
    'lebhaft',
    'bewegt',
    'sehr (langsam|schnell|rasch|bewegt|lebhaft)',
    'im tempo',
    'lentement',
    'modéré',
    'vite',
    'vif',
    'animé',
    'slow',
    'fast',
    'lively',
    'moderate',
    'quick',
    'steady',
    'gently moving',
  ].join('|')})`,
  'i',
);

/** True for words that set or change a tempo. */
export function areTempoWords(words: string): boolean {
  return TEMPO_WORDS.test(words);
}

/** A metronome mark in words, and in crotchets a minute. */
export interface MetronomeMark {
  /** "quarter. = 60" with the note names of the file. */
  readonly text: string;
  /** Null for a mark that sets one note value equal to another. */
  readonly crotchetsPerMinute: number | null;
}

/**
 * Reads a `metronome` element; null where it has no beat. Of "ca. 60" or "60-66" the first number counts.
 * A dot lengthens the beat by half (common practice): dotted crotchet = 60 is 90 crotchets a minute.
 */
export function readMetronome(element: XmlElement): MetronomeMark | null {
  const unit = childText(element, 'beat-unit');
  const perMinute = childText(element, 'per-minute');
  if (unit === undefined) return null;
  const dots = perMinute === undefined ? 0 : element.children.filter((entry) => entry.name === 'beat-unit-dot').length;
  const rate = plainNumber(/\d+(\.\d+)?/.exec(perMinute ?? '')?.[0]);
  const beat = CROTCHETS.get(unit);
  return {
    text: `${unit}${'.'.repeat(dots)} = ${perMinute ?? '?'}`,
    crotchetsPerMinute: rate === null || rate <= 0 || beat === undefined ? null : rate * beat * (2 - 2 ** -dots),
  };
}

/** Tempo of a `sound` element: crotchets a minute whatever the metre (MusicXML 4.0); 0 means "ask" and gives null. */
export function soundTempo(sound: XmlElement | undefined): number | null {
  const tempo = plainNumber(sound?.attributes['tempo']);
  return tempo === null || tempo <= 0 ? null : tempo;
}
