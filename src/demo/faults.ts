/** Puts the planned faults into faultless playing. Faults of the route are in the legs already; pedal faults come with the pedal. */
import { addNotes, handLate, noodle, missNotes, octaveSlip, strikeTiesAgain, wrongNotes } from './noteFaults.js';
import type { Fault } from './plan.js';
import type { TakeNote } from './take.js';
import { evenDots, hesitate, rush, unevenRuns } from './timeFaults.js';
import { flatten, leftTooLoud, sticksOut } from './levelFaults.js';
import { cutShort, fillRests, heldOf, losesBass } from './touchFaults.js';

/** The notes with one fault more; the order of notes may change. */
export function applyFault(notes: readonly TakeNote[], fault: Fault): readonly TakeNote[] {
  switch (fault.kind) {
    case 'wrongNote':
    case 'misreadAccidental':
      return wrongNotes(notes, fault);
    case 'missedNote':
      return missNotes(notes, fault);
    case 'addedNote':
      return addNotes(notes, fault);
    case 'octaveSlip':
      return octaveSlip(notes, fault);
    case 'noodling':
      return noodle(notes, fault);
    case 'hesitation':
      return hesitate(notes, fault);
    case 'rushed':
      return rush(notes, fault);
    case 'evenDots':
      return evenDots(notes, fault);
    case 'unevenRuns':
      return unevenRuns(notes, fault);
    case 'tieStruckAgain':
      return strikeTiesAgain(notes, fault);
    case 'handLate':
      return handLate(notes, fault);
    case 'staccatoHeld':
      return heldOf(notes, fault, 'staccato');
    case 'slurDetached':
      return heldOf(notes, fault, 'legato');
    case 'restFilled':
      return fillRests(notes, fault);
    case 'cutShort':
      return cutShort(notes, fault);
    case 'flat':
      return flatten(notes, fault);
    case 'leftTooLoud':
      return leftTooLoud(notes, fault);
    case 'sticksOut':
      return sticksOut(notes, fault);
    case 'bassNotCaught':
      return losesBass(notes, fault);
    default:
      return notes;
  }
}
