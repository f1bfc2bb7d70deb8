/** Faults of touch and of lengths. */
import { isIn, isNamed, type FaultOf } from './faultPlace.js';
import type { Touch } from './sounding.js';
import type { TakeNote } from './take.js';

/** How long the key of a lost bass stays down, seconds: less than the foot needs. */
const LOST_BASS_S = 0.16;

/** Notes of one touch held for `ratio` of the time to the next onset of the hand. */
export function heldOf(notes: readonly TakeNote[], fault: FaultOf<'staccatoHeld' | 'slurDetached'>, touch: Touch): readonly TakeNote[] {
  return notes.map((note) => {
    if (note.written?.touch !== touch || !isIn(fault, note)) return note;
    const next = nextOnset(notes, note);
    return Number.isFinite(next) ? { ...note, releaseS: note.onsetS + fault.ratio * (next - note.onsetS) } : note;
  });
}

/** The notes named are held until the hand plays again. */
export function fillRests(notes: readonly TakeNote[], fault: FaultOf<'restFilled'>): readonly TakeNote[] {
  return notes.map((note) => (isNamed(fault, note) ? { ...note, releaseS: nextOnset(notes, note) } : note));
}

/** The notes named are let go after `ratio` of the time they would have lasted. */
export function cutShort(notes: readonly TakeNote[], fault: FaultOf<'cutShort'>): readonly TakeNote[] {
  return notes.map((note) => (isNamed(fault, note) ? { ...note, releaseS: note.onsetS + fault.ratio * (note.releaseS - note.onsetS) } : note));
}

/** The first left-hand note of each bar is let go before the pedal can take it. */
export function losesBass(notes: readonly TakeNote[], fault: FaultOf<'bassNotCaught'>): readonly TakeNote[] {
  return notes.map((note) => (isIn(fault, note) && note.hand === 'left' && note.at === 0 ? { ...note, releaseS: Math.min(note.releaseS, note.onsetS + LOST_BASS_S) } : note));
}

/** Seconds at which the same hand plays next without a jump; `Infinity` where it does not. */
function nextOnset(notes: readonly TakeNote[], note: TakeNote): number {
  return notes.filter((each) => each.hand === note.hand && each.leg === note.leg && (each.visit > note.visit || (each.visit === note.visit && each.at > note.at)))
    .reduce((soonest, each) => Math.min(soonest, each.onsetS), Infinity);
}
