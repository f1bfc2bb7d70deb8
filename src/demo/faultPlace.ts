/** Which notes a planned fault means. */
import type { Fault, FaultAction, FaultPlace } from './plan.js';
import type { TakeNote } from './take.js';

/** A fault of one kind. */
export type FaultOf<K extends FaultAction['kind']> = Extract<Fault, { kind: K }>;

/** Place of a printed bar among the bars of the demo pieces, whose numbers run from 0 or 1 upwards without gaps. */
export function barNumber(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number)) throw new RangeError(`demo bars have whole numbers: ${text}`);
  return number;
}

/** Whether a note lies in the bars, pass, attempt and hand of a fault. Demo pieces begin with bar 0, so numbers are places. */
export function isIn(fault: FaultPlace, note: TakeNote): boolean {
  const inBars = note.barIndex >= barNumber(fault.bars[0]) && note.barIndex <= barNumber(fault.bars[1]);
  const inTry = (fault.pass ?? note.pass) === note.pass && (fault.attempt ?? note.attempt) === note.attempt;
  return inBars && inTry && (fault.hand === 'both' || fault.hand === note.hand);
}

/** Whether a fault that names written notes means this one. */
export function isNamed(fault: FaultPlace & { readonly notes: readonly string[] }, note: TakeNote): boolean {
  return note.status === 'matched' && note.written !== null && fault.notes.includes(note.written.id) && isIn(fault, note);
}
