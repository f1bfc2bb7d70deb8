import type { Purpose, PurposeFound } from './types.js';

/** What a recording is for, as it is spoken. */
const NAMES: Readonly<Record<Purpose, string>> = {
  firstReading: 'first reading', buildingUp: 'building up', polishing: 'polishing', runThrough: 'run-through', fromMemory: 'from memory',
};

/** The same after "taken as". */
const AS: Readonly<Record<Purpose, string>> = { ...NAMES, firstReading: 'a first reading', runThrough: 'a run-through', fromMemory: 'playing from memory' };

/** Every purpose, in the order in which a piece passes through them. */
export const PURPOSES: readonly Purpose[] = ['firstReading', 'buildingUp', 'polishing', 'runThrough', 'fromMemory'];

/** "first reading", "building up" … */
export function purposeName(purpose: Purpose): string {
  return NAMES[purpose];
}

/** "Taken as building up: it goes back three times."; "Meant as a run-through." where somebody said so. */
export function purposeInWords({ purpose, guessed, reason }: PurposeFound): string {
  return `${guessed ? `Taken as ${AS[purpose]}: ${reason}` : `Meant as ${AS[purpose]}`}.`;
}
