/** Where the beat hides in a bar, as short clauses for its drawer. */
import { countInWords } from '../base/index.js';
import type { BeatPlace } from '../analysis/index.js';

/** One clause: "comes in on the third quaver after a rest". */
export function beatFact(place: BeatPlace): string {
  switch (place.kind) {
    case 'entryAfterRest':
      return `comes in on ${place.count}${place.opening ? '' : ' after a rest'}`;
    case 'emptyFirstBeat':
      return place.cause === 'rest' ? 'nothing on the first beat' : 'the first beat is held over, not struck';
    case 'tieAcross':
      return place.partial ? 'a note tied over the bar line while others are struck' : 'tied over the bar line';
    case 'syncopation':
      return 'syncopated: held through stronger beats than its own';
    case 'metreChange':
      return `the time changes from ${place.from.beats}/${place.from.beatType} to ${place.to.beats}/${place.to.beatType}${place.beatChanges ? ', and with it what counts as the beat' : ''}`;
    case 'crossRhythm':
      return `${countInWords(place.ratio[0])} in the right hand against ${countInWords(place.ratio[1])} in the left`;
    case 'dotsAgainstTriplets':
      return 'dotted pairs against triplets';
    case 'hemiola':
      return place.shape === 'acrossTwoBars' ? 'hemiola: two bars sound as three twos' : 'hemiola: the bar sounds as three';
    case 'longRest':
      return `rests for ${place.bars === 1 ? 'the bar' : `${countInWords(place.bars)} bars`}${place.otherPlays ? ' while the other hand plays' : ''}`;
    case 'divisionChange':
      return 'the division of the beat changes';
  }
}
