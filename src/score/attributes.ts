/**
 * Signatures, divisions, staves and transpositions: what an `attributes` element changes for everything after it.
 * The state is a plain record that is replaced, never altered, so that a bar can keep what held when it began.
 */
import { InputError } from '../base/index.js';
import { placeOf, readDivisions } from './grid.js';
import { MAX_STAVES } from './limits.js';
import type { Transposition } from './pitch.js';
import type { KeySignature, TimeSignature } from './types.js';
import { readWhole } from './values.js';
import type { WarningList } from './warnings.js';
import { childText, childrenNamed, type XmlElement } from './xmlTree.js';

/** What is in force at one moment of a part; carried from bar to bar while the part is read. */
export interface InForce {
  readonly divisions: number;
  readonly time: TimeSignature;
  readonly key: KeySignature;
  /** Declared number of staves, 1 where the file does not say. */
  readonly staves: number;
  /** By stave; 0 holds for all staves without an entry of their own. */
  readonly transpositions: ReadonlyMap<number, Transposition>;
}

/** Before a part says anything: crotchets, common time, no accidentals. */
export const AT_THE_START: InForce = {
  divisions: 1,
  time: { beats: 4, beatType: 4, symbol: null },
  key: { fifths: 0, mode: null },
  staves: 1,
  transpositions: new Map(),
};

/**
 * What is in force after an `attributes` element. Where staves differ in key or time, the first stave speaks for all.
 * @throws InputError `bad-value` for divisions, staves, beats or fifths that are no sensible numbers
 */
export function afterAttributes(before: InForce, element: XmlElement, measure: XmlElement, warnings: WarningList): InForce {
  const divisions = childText(element, 'divisions');
  const staves = childText(element, 'staves');
  const time = forFirstStave(element, 'time');
  const key = forFirstStave(element, 'key');
  return {
    divisions: divisions === undefined ? before.divisions : readDivisions(divisions, measure),
    staves:
      staves === undefined ? before.staves : readWhole(staves, { what: 'The number of staves', min: 1, max: MAX_STAVES }, placeOf(measure)),
    time: time === undefined ? before.time : readTime(time, before.time, measure),
    key: key === undefined ? before.key : readKey(key, measure, warnings),
    transpositions: readTranspositions(element, before.transpositions, measure),
  };
}

/** The entry without a stave number, or the one for stave 1. */
function forFirstStave(element: XmlElement, name: string): XmlElement | undefined {
  return childrenNamed(element, name).find((entry) => (entry.attributes['number'] ?? '1') === '1');
}

/**
 * A time signature; composite ones ("3+2", or several pairs) become one with all beats in the finest beat value.
 * Without beats (senza misura) the earlier one goes on.
 */
function readTime(element: XmlElement, before: TimeSignature, measure: XmlElement): TimeSignature {
  const beats = childrenNamed(element, 'beats');
  const beatTypes = childrenNamed(element, 'beat-type').map((entry) =>
    readWhole(entry.text.trim(), { what: 'The beat value of the time signature', min: 1, max: 1024 }, placeOf(measure)),
  );
  if (beats.length === 0) return before;
  if (beats.length !== beatTypes.length)
    throw new InputError(
      'bad-value',
      'The time signature has not as many beat values as beats; expected pairs such as 3 and 8.',
      placeOf(measure),
    );
  const beatType = Math.max(...beatTypes);
  const total = beats.reduce((sum, entry, i) => sum + readBeats(entry.text, measure) * (beatType / (beatTypes[i] ?? beatType)), 0);
  return { beats: total, beatType, symbol: element.attributes['symbol'] ?? null };
}

/** "6", or "3+2" summed. */
function readBeats(text: string, measure: XmlElement): number {
  return text
    .split('+')
    .reduce(
      (sum, term) =>
        sum + readWhole(term.trim(), { what: 'The number of beats of the time signature', min: 1, max: 1024 }, placeOf(measure)),
      0,
    );
}

/** A key signature; a non-traditional one (single accidentals) counts as none, with a warning. */
function readKey(element: XmlElement, measure: XmlElement, warnings: WarningList): KeySignature {
  const fifths = childText(element, 'fifths');
  if (fifths === undefined) {
    warnings.add(
      placeOf(measure).bar,
      'This key signature is not one of the usual ones and is read as no sharps and flats; the notes keep their own accidentals',
    );
    return { fifths: 0, mode: null };
  }
  return {
    fifths: readWhole(fifths, { what: 'The key signature', min: -7, max: 7 }, placeOf(measure)),
    mode: childText(element, 'mode') ?? null,
  };
}

/** Transpositions after this element (MusicXML 4.0: chromatic and octave-change are added to one another). */
function readTranspositions(element: XmlElement, before: InForce['transpositions'], measure: XmlElement): InForce['transpositions'] {
  const entries = childrenNamed(element, 'transpose');
  if (entries.length === 0) return before;
  const after = new Map(before);
  for (const entry of entries) {
    const staff = readWhole(
      entry.attributes['number'] ?? '0',
      { what: 'The stave of a transposition', min: 0, max: MAX_STAVES },
      placeOf(measure),
    );
    if (staff === 0) after.clear();
    after.set(staff, readTransposition(entry, measure));
  }
  return after;
}

/** One `transpose` element as semitones and steps, the octave added to both. */
function readTransposition(entry: XmlElement, measure: XmlElement): Transposition {
  const octaves = readWhole(
    childText(entry, 'octave-change') ?? '0',
    { what: 'The octave of a transposition', min: -4, max: 4 },
    placeOf(measure),
  );
  const diatonic = childText(entry, 'diatonic');
  const chromatic = readWhole(
    childText(entry, 'chromatic') ?? '0',
    { what: 'A transposition in semitones', min: -48, max: 48 },
    placeOf(measure),
  );
  return {
    semitones: chromatic + 12 * octaves,
    steps:
      diatonic === undefined
        ? null
        : readWhole(diatonic, { what: 'A transposition in steps', min: -28, max: 28 }, placeOf(measure)) + 7 * octaves,
  };
}
