/** Faults that change which keys are struck, and one hand that comes late. */
import { isIn, isNamed, type FaultOf } from './faultPlace.js';
import type { TakeNote } from './take.js';

/** Loudness of an added note against its neighbour: a key struck by mistake is rarely struck fully. */
const ADDED_SOFTER = 12;
/** Length of a stray key press, seconds. */
const STRAY_S = 0.12;
/** A key struck again comes up this long before, seconds. */
const RELIFT_S = 0.06;
/** Time between the notes of noodling, seconds. */
const NOODLE_STEP_S = 0.28;

/** Each note named is missed, and a key some semitones away sounds instead. */
export function wrongNotes(notes: readonly TakeNote[], fault: FaultOf<'wrongNote' | 'misreadAccidental'>): readonly TakeNote[] {
  return notes.flatMap((note) =>
    isNamed(fault, note)
      ? [{ ...note, status: 'missed' as const }, { ...note, status: 'added' as const, written: null, pitch: note.pitch + fault.semitones }]
      : [note],
  );
}

/** Each note named stays silent. */
export function missNotes(notes: readonly TakeNote[], fault: FaultOf<'missedNote'>): readonly TakeNote[] {
  return notes.map((note) => (isNamed(fault, note) ? { ...note, status: 'missed' as const } : note));
}

/** A stray key beside each note named. */
export function addNotes(notes: readonly TakeNote[], fault: FaultOf<'addedNote'>): readonly TakeNote[] {
  return notes.flatMap((note) => {
    if (!isNamed(fault, note)) return [note];
    const onsetS = note.onsetS + fault.delayMs / 1000;
    const stray = { ...note, status: 'added' as const, written: null, pitch: note.pitch + fault.semitones, onsetS, releaseS: onsetS + STRAY_S };
    return [note, { ...stray, velocity: Math.max(8, note.velocity - ADDED_SOFTER) }];
  });
}

/** The hand lies whole octaves too high or too low. */
export function octaveSlip(notes: readonly TakeNote[], fault: FaultOf<'octaveSlip'>): readonly TakeNote[] {
  return notes.map((note) => (note.status === 'matched' && isIn(fault, note) ? { ...note, pitch: note.pitch + 12 * fault.octaves } : note));
}

/**
 * Notes tied over a bar line are let go there and struck again with what the other hand plays on the first beat.
 * @throws RangeError where the other hand has nothing there
 */
export function strikeTiesAgain(notes: readonly TakeNote[], fault: FaultOf<'tieStruckAgain'>): readonly TakeNote[] {
  return notes.flatMap((note) => {
    if (!isNamed(fault, note)) return [note];
    const beat = notes.find((each) => each.hand !== note.hand && each.leg === note.leg && each.visit === note.visit + 1 && each.at === 0);
    if (!beat) throw new RangeError(`nothing to strike a tie again with after ${note.written?.id ?? ''}`);
    return [{ ...note, releaseS: beat.onsetS - RELIFT_S }, { ...note, status: 'added' as const, written: null, onsetS: beat.onsetS }];
  });
}

/** A few keys tried out before the music; everything else comes later by as much. */
export function noodle(notes: readonly TakeNote[], fault: FaultOf<'noodling'>): readonly TakeNote[] {
  const first = [...notes].sort((a, b) => a.onsetS - b.onsetS)[0];
  if (!first) return notes;
  const delayS = fault.pitches.length * NOODLE_STEP_S + fault.pauseS;
  const tried = fault.pitches.map((pitch, i) => {
    const onsetS = first.onsetS + i * NOODLE_STEP_S;
    return { ...first, status: 'added' as const, written: null, leg: -1, visit: -1, pitch, onsetS, releaseS: onsetS + STRAY_S * 2 };
  });
  return [...tried, ...notes.map((note) => ({ ...note, onsetS: note.onsetS + delayS, releaseS: note.releaseS + delayS }))];
}

/** One hand always a little behind. */
export function handLate(notes: readonly TakeNote[], fault: FaultOf<'handLate'>): readonly TakeNote[] {
  const lateS = fault.lateMs / 1000;
  return notes.map((note) => (isIn(fault, note) ? { ...note, onsetS: note.onsetS + lateS, releaseS: note.releaseS + lateS } : note));
}
