import { asPrinted } from './asPrinted.js';
import { balanceMended } from './balanceMended.js';
import { dynamicsMade } from './dynamicsMade.js';
import { lengthsGiven } from './lengthsGiven.js';
import { notesRighted } from './notesRighted.js';
import { pedalAsPlanned } from './pedalAsPlanned.js';
import { pulseEvened } from './pulseEvened.js';
import type { SoundInput, Version, VersionName } from './types.js';

/** How each version is made. */
const MAKERS: Readonly<Record<VersionName, (input: SoundInput) => Version>> = {
  pedal: pedalAsPlanned, pulse: pulseEvened, lengths: lengthsGiven, balance: balanceMended, dynamics: dynamicsMade, notes: notesRighted, printed: asPrinted,
};

/** All versions, in the order in which they are offered. */
export const VERSION_NAMES: readonly VersionName[] = ['pedal', 'pulse', 'lengths', 'balance', 'dynamics', 'notes', 'printed'];

/** What each is called, behind "as you played it". */
const CALLED: Readonly<Record<VersionName, string>> = {
  pedal: 'with the pedal cleared', pulse: 'with an even pulse', lengths: 'with rests and ties at their length', balance: 'with the tune over its accompaniment',
  dynamics: 'with the marked dynamics', notes: 'with the written notes', printed: 'as printed, at the same speed',
};

/** One version of a recording. */
export function makeVersion(name: VersionName, input: SoundInput): Version {
  return MAKERS[name](input);
}

/** "with the pedal cleared". */
export function versionInWords(name: VersionName): string {
  return CALLED[name];
}

/** True for the name of a version. */
export function isVersionName(text: unknown): text is VersionName {
  return VERSION_NAMES.some((name) => name === text);
}
