/** Faults of levels and balance. */
import { isIn, isNamed, type FaultOf } from './faultPlace.js';
import type { TakeNote } from './take.js';

/** Loudest key that a fault makes. */
const LOUDEST = 124;

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
  return notes.map((note) => (isIn(fault, note) && note.hand === 'left' ? { ...note, velocity: Math.min(LOUDEST, note.velocity + fault.by) } : note));
}

/** The notes named louder by some velocity units. */
export function sticksOut(notes: readonly TakeNote[], fault: FaultOf<'sticksOut'>): readonly TakeNote[] {
  return notes.map((note) => (isNamed(fault, note) ? { ...note, velocity: Math.min(LOUDEST, note.velocity + fault.by) } : note));
}

/** Mean velocity of a hand over the whole recording; 0 for a hand that does not play. */
function meanVelocity(notes: readonly TakeNote[], hand: 'right' | 'left'): number {
  const velocities = notes.filter((note) => note.hand === hand).map((note) => note.velocity);
  return velocities.reduce((sum, velocity) => sum + velocity, 0) / Math.max(1, velocities.length);
}
