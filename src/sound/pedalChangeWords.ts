/** What a changed pedal would do, for those who cannot hear it: every length is the measured one, told by the pulse of its bar. */
import { noteInWords } from '../judge/index.js';
import type { BarFacts, BassCatch, Blur, CarriedNote, PedalChange } from '../measure/index.js';
import { crotchetIn, lengthInWords } from './lengthWords.js';
import type { SoundInput } from './types.js';

/** Notes below this (<), MIDI number, are called bass: under middle C. */
const BASS_BELOW = 60;

/** "the old bass C would stop ringing two quavers earlier". */
export function blurMended(input: SoundInput, { carried, overlapS }: Blur, visit: BarFacts): string {
  const longest = carried.reduce<CarriedNote | null>((most, one) => (most === null || one.lastsS > most.lastsS ? one : most), null);
  const lasts = lengthInWords(longest?.lastsS ?? overlapS, crotchetIn(input.measures, visit));
  return `the ${oldName(input, longest)} would stop ringing ${lasts} earlier`;
}

/** "the sound would go on to the new chord, a quaver longer". */
export function gapClosed(input: SoundInput, { gapS }: PedalChange, visit: BarFacts): string {
  return `the sound would go on until the new one, ${lengthInWords(gapS, crotchetIn(input.measures, visit))} longer`;
}

/** "the bass A would ring on for three quavers more". */
export function bassKept(input: SoundInput, { bass }: { readonly bass: BassCatch }, visit: BarFacts): string {
  return `the bass ${nameOf(input, bass.noteIndex)} would ring on for ${lengthInWords(bass.goneS, crotchetIn(input.measures, visit))} more`;
}

/** "the pedal would hold the sound for two crotchets, as marked". */
export function ringKept(kind: string, seconds: number, { input, visit }: { readonly input: SoundInput; readonly visit: BarFacts }): string {
  const length = lengthInWords(seconds, crotchetIn(input.measures, visit));
  return kind === 'notUsed' ? `the pedal would hold the sound for ${length}, as marked` : `the sound would ring on for ${length} more`;
}

/** "old C", "old bass C"; "old harmony" where its note is not known. */
function oldName(input: SoundInput, carried: CarriedNote | null): string {
  if (carried === null || carried.noteIndex === null) return 'old harmony';
  return `old ${carried.pitch < BASS_BELOW ? 'bass ' : ''}${nameOf(input, carried.noteIndex)}`;
}

/** A written note's name. */
function nameOf({ score }: SoundInput, noteIndex: number): string {
  const note = score.notes[noteIndex];
  return note === undefined ? 'note' : noteInWords(note.pitch);
}
