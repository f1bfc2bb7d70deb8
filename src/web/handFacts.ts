/** What the hands have to do in a bar, as short clauses for its drawer. The sentences of the pitfalls say more; these only name. */
import { countInWords } from '../base/index.js';
import type { HandPlace, OrnamentSign } from '../analysis/index.js';

/** Intervals by semitones up to the octave. */
const INTERVALS = [
  'a unison', 'a semitone', 'a tone', 'a minor third', 'a major third', 'a fourth', 'an augmented fourth', 'a fifth', 'a minor sixth', 'a major sixth', 'a minor seventh', 'a major seventh', 'an octave',
] as const;

/** Beyond the octave, up to the tenth, as a hand knows them. */
const WIDE = ['a minor ninth', 'a major ninth', 'a minor tenth', 'a major tenth'] as const;

/** Signs as they are called. */
const SIGNS: Readonly<Record<OrnamentSign, string>> = {
  trill: 'trill', mordent: 'mordent', invertedMordent: 'inverted mordent', turn: 'turn', invertedTurn: 'inverted turn', delayedTurn: 'delayed turn', appoggiatura: 'appoggiatura',
};

/** One clause: "a jump of two octaves down". */
export function handFact(place: HandPlace): string {
  switch (place.kind) {
    case 'stretch':
      return `a stretch of ${distance(place.semitones)}${helped(place)}`;
    case 'smallHandStretch':
      return `a stretch of ${distance(place.semitones)} for a small hand${helped(place)}`;
    case 'wideChord':
      return `${place.marked ? 'a chord marked to be broken' : 'a chord too wide to strike at once'}, ${distance(place.semitones)}${helped(place)}`;
    case 'octaves':
      return `${countInWords(place.count)} octaves in a row`;
    case 'jump':
      return `a jump of ${distance(place.semitones)} ${place.up ? 'up' : 'down'}${place.rest ? ', with a rest to do it in' : ''}`;
    case 'crossing':
      return `the ${place.crossing} hand goes ${place.crossing === 'right' ? 'below the left' : 'above the right'}`;
    case 'sharedKey':
      return place.how === 'together' ? 'both hands on one key at once' : 'one hand strikes a key that the other should hold';
    case 'repeatedNotes':
      return `the same ${place.chord ? 'chord' : 'note'} ${countInWords(place.count)} times, ${speed(place.perSecond)}`;
    case 'ornament':
      return `${SIGNS[place.sign]}: ${place.names.join(', ')}${place.goesOn ? ' and on' : ''}${place.fits ? '' : '; hardly fits at the marked tempo'}`;
    case 'fastRun':
      return `${countInWords(place.count)} quick notes ${place.stepwise ? 'by step' : 'in broken chords'}, ${speed(place.perSecond)}`;
    case 'heldVoice':
      return `a finger holds ${place.above ? 'above' : 'below'} while the others move`;
    case 'positionChange':
      return `${place.moves === 1 ? 'one change' : `${countInWords(place.moves)} changes`} of position`;
  }
}

/** "a major tenth", "two octaves and a fifth". */
export function distance(semitones: number): string {
  if (semitones <= 12) return INTERVALS[semitones] ?? 'an octave';
  const wide = WIDE[semitones - 13];
  if (wide !== undefined) return wide;
  const octaves = Math.floor(semitones / 12);
  const whole = octaves === 1 ? 'an octave' : `${countInWords(octaves)} octaves`;
  return semitones % 12 === 0 ? whole : `${whole} and ${INTERVALS[semitones % 12] ?? 'more'}`;
}

/** Where the other hand could take a note. */
function helped({ helped: other, hand }: { readonly helped: boolean; readonly hand: 'right' | 'left' | 'both' }): string {
  return other && hand !== 'both' ? `; the ${hand === 'right' ? 'left' : 'right'} hand could help` : '';
}

/** "about nine a second". */
function speed(perSecond: number): string {
  const whole = Math.max(1, Math.round(perSecond));
  return `about ${countInWords(whole)} a second`;
}
