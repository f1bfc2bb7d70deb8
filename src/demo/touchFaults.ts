/** Faults of lengths, levels and balance. */
import { isIn, isNamed, type FaultOf } from './faultPlace.js';
import type { TakeNote } from './take.js';

/** How long the key of a lost bass stays down, seconds: less than the foot needs. */
const LOST_BASS_S = 0.16;

/** Staccato notes held for `ratio` of the time to the next onset of the hand. */
export function staccatoHeld(notes: readonly TakeNote[], fault: FaultOf<'staccatoHeld'>): readonly TakeNote[] {
  return notes.map((note) => {
    if (note.written?.touch !== 'staccato' || !isIn(fault, note)) return note;
    const next = notes.filter((each) => each.hand === note.hand && each.leg === note.leg && (each.visit > note.visit || (each.visit === note.visit && each.at > note.at)))
      .reduce((soonest, each) => Math.min(soonest, each.onsetS), Infinity);
    return Number.isFinite(next) ? { ...note, releaseS: note.onsetS + fault.ratio * (next - note.onsetS) } : note;
  });
}

/** The notes named are let go after `ratio` of the time they would have lasted. */
export function cutShort(notes: readonly TakeNote[], fault: FaultOf<'cutShort'>): readonly TakeNote[] {
  return notes.map((note) => (isNamed(fault, note) ? { ...note, releaseS: note.onsetS + fault.ratio * (note.releaseS - note.onsetS) } : note));
}

/** Levels drawn towards their mean, hand by hand: `keep` 0 is one level for all. */
export function flatten(notes: readonly TakeNote[], fault: FaultOf<'flat'>): readonly TakeNote[] {
  const means = { right: meanVelocity(notes, 'right'), left: meanVelocity(notes, 'left') };
  return notes.map((note) => {
    if (!isIn(fault, note)) return note;
    const mean = means[note.hand];
    return { ...note, velocity: Math.round(mean + fault.keep * (note.velocity - mean)) };
  });
}

/** The left hand louder by some velocity units. */
export function leftTooLoud(notes: readonly TakeNote[], fault: FaultOf<'leftTooLoud'>): readonly TakeNote[] {
  return notes.map((note) => (isIn(fault, note) && note.hand === 'left' ? { ...note, velocity: Math.min(124, note.velocity + fault.by) } : note));
}

/** The first left-hand note of each bar is let go before the pedal can take it. */
export function losesBass(notes: readonly TakeNote[], fault: FaultOf<'bassNotCaught'>): readonly TakeNote[] {
  return notes.map((note) => (isIn(fault, note) && note.hand === 'left' && note.at === 0 ? { ...note, releaseS: Math.min(note.releaseS, note.onsetS + LOST_BASS_S) } : note));
}

/** Mean velocity of a hand over the whole recording; 0 for a hand that does not play. */
function meanVelocity(notes: readonly TakeNote[], hand: 'right' | 'left'): number {
  const velocities = notes.filter((note) => note.hand === hand).map((note) => note.velocity);
  return velocities.reduce((sum, velocity) => sum + velocity, 0) / Math.max(1, velocities.length);
}
