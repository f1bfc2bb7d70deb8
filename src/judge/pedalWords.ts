/** The sentences of the pedal. */
import { chordOverBass } from '../analysis/index.js';
import { listInWords, sentenceCase } from '../base/index.js';
import type { PedalChange } from '../measure/index.js';
import type { Untold } from './merge.js';
import { namePlayed, noteInWords } from './noteNames.js';
import { placesInWords, whereInWords } from './placeWords.js';
import type { FoundPlace, JudgeInput, Told } from './types.js';

/** As many carried notes are named; a teacher names the ones that jar. */
const MOST_NAMED = 2;

/** Words of one observation. */
export function tellPedal(input: JudgeInput, untold: Untold, worst: FoundPlace): Told {
  const where = whereInWords(input, untold.hand, untold.places);
  const several = untold.places.length > 1;
  switch (untold.kind) {
    case 'blurred': return blurred(input, untold, worst);
    case 'caught': return { text: `${where}: the pedal goes down before the old sound is gone and catches ${caughtNotes(input, worst, several)}.`, advice: 'Let the new chord sound by itself, then press.' };
    case 'neverLifted': return { text: `The pedal stays down over nearly every change, and the harmonies run into one another; most of all in ${placesInWords(input, [worst])}.`, advice: 'Left hand alone: foot up as each new bass sounds, down again when it is clear.' };
    case 'withTheChord': return { text: `${where}: the foot goes down together with the chord, so the old one is cut off or caught.`, advice: 'Chord first, then the foot: say "play, press" in slow chords.' };
    case 'smeared': return { text: `${where}: ${smearedNotes(input, untold, worst)} under the pedal.`, advice: 'Change once more there, or take the pedal less deep.' };
    case 'gap': return { text: `${where}: the foot is up before the new chord is there, and the line breaks${several ? ' each time' : ''}.`, advice: 'Keep the foot down until the new chord sounds, and change then.' };
    case 'bassNotCaught': return { text: `${where}: ${bassNotes(input, untold)} gone before the pedal is down.`, advice: 'Keep the key down until the foot has it.' };
    case 'notUsed': return { text: `${where}: ${usedNot(input, untold)}.`, advice: 'Left hand and foot first, then both hands.' };
    case 'notDry': return { text: `${where}: no pedal is ${isPrinted(input, untold.places) ? 'marked' : 'planned'} here, and the foot is down.`, advice: 'Foot beside the pedal: the fingers hold what is written.' };
    case 'unaCorda': return { text: `${where}: "${untold.topic}" is marked, and the soft pedal stays up.`, advice: 'Left foot down before the first soft note.' };
    case 'treCorde': return { text: `${where}: "${untold.topic}" is marked, and the soft pedal is still down.`, advice: 'Lift the left foot there, and let the tone open.' };
    case 'notRinging': return { text: `${where}: the sound should ring on, and the foot comes up too soon${several ? ' each time' : ''}.`, advice: 'Stay down until the next change.' };
    default: return { text: `${where}: ${untold.kind}.`, advice: '' };
  }
}

/** "the pedal is marked and not used". */
function usedNot(input: JudgeInput, { topic, places }: Untold): string {
  if (topic !== '') return `"${topic}" is marked, and the foot never goes down`;
  return `the pedal is ${isPrinted(input, places) ? 'marked' : 'planned'} and not used`;
}

/** True where the score itself marks a pedal, or none, over one of these bars; else it is the teacher's plan that asks for it. */
function isPrinted({ score, analysis }: JudgeInput, places: readonly FoundPlace[]): boolean {
  const printed = analysis.pedalPlan.entries.filter(({ source }) => source === 'printed');
  return places.some(({ fromBar, toBar }) => printed.some(({ fromTick, toTick }) => toTick > (score.bars[fromBar]?.startTick ?? 0) && fromTick < (score.bars[toBar + 1]?.startTick ?? Infinity)));
}

/** "Bar 14: the old C rings on under the left hand's G." */
function blurred(input: JudgeInput, { places }: Untold, worst: FoundPlace): Told {
  const change = changeAt(input, worst);
  const here = change === undefined ? 'the old harmony rings on into the new one' : ringsOn(input, change);
  const bass = change === undefined ? null : newBass(input, change);
  const advice = `Foot up as ${places.length === 1 && bass !== null ? bass : 'the new chord'} sounds, down again when it is clear.`;
  if (places.length === 1) return { text: `${sentenceCase(placesInWords(input, places))}: ${here}.`, advice };
  return { text: `${sentenceCase(placesInWords(input, places))}: the old harmony rings on into the new one. In ${placesInWords(input, [worst])} ${here}.`, advice };
}

/** "the old C and E ring on into G seventh". */
function ringsOn(input: JudgeInput, change: PedalChange): string {
  const bass = newBass(input, change);
  const below = bass === null ? [] : change.carried.filter(({ pitch }) => pitch < lowestNew(input, change));
  const under = bass !== null && below.length > 0;
  const carried = (under ? below : change.carried).slice(0, MOST_NAMED);
  const names = [...new Set(carried.map(({ noteIndex, pitch }) => nameOf(input, noteIndex, pitch)))];
  const harmony = input.analysis.harmonies[change.harmony ?? -1];
  const chord = harmony === undefined ? '' : chordOverBass(harmony);
  const into = under ? `under the left hand's ${bass}` : chord === '' ? 'into what follows' : `into ${chord}`;
  if (names.length === 0) return `the old harmony rings on ${into}`;
  return `the old ${listInWords(names)} ${names.length === 1 ? 'rings' : 'ring'} on ${into}`;
}

/** The lowest written note struck with the change; null where none is. */
function lowestOf(input: JudgeInput, { tick }: Pick<PedalChange, 'tick'>): { readonly midi: number; readonly noteIndex: number; readonly staff: number } | null {
  const at = input.score.occurrences.filter(({ onsetTick }) => onsetTick === tick);
  return at.reduce<(typeof at)[number] | null>((low, one) => (low === null || one.midi < low.midi ? one : low), null);
}

/** MIDI number of the new bass. */
function lowestNew(input: JudgeInput, change: PedalChange): number {
  return lowestOf(input, change)?.midi ?? -Infinity;
}

/** The new bass by name, where the left hand has it. */
function newBass(input: JudgeInput, change: PedalChange): string | null {
  const low = lowestOf(input, change);
  return low === null || low.staff < 2 ? null : nameOf(input, low.noteIndex, low.midi);
}

/** "the old D", "the old sound". */
function caughtNotes(input: JudgeInput, worst: FoundPlace, several: boolean): string {
  const change = changeAt(input, worst);
  const first = change?.carried[0];
  if (first === undefined) return 'it';
  const names = [...new Set((change?.carried ?? []).slice(0, MOST_NAMED).map(({ noteIndex, pitch }) => nameOf(input, noteIndex, pitch)))];
  return several ? `it, the ${listInWords(names)} in ${placesInWords(input, [worst])} most of all` : `the ${listInWords(names)}`;
}

/** "the B and A ring into the notes after them". */
function smearedNotes(input: JudgeInput, { places }: Untold, worst: FoundPlace): string {
  const smear = input.measures.pedal.smears.find(({ soundS }) => soundS === worst.startS);
  const names = [...new Set((smear?.carried ?? []).slice(0, MOST_NAMED).map(({ noteIndex, pitch }) => nameOf(input, noteIndex, pitch)))];
  if (names.length === 0 || places.length > 1) return 'passing notes smear';
  return `the ${listInWords(names)} ${names.length === 1 ? 'rings' : 'ring'} into what follows`;
}

/** "the low F is", "the low notes are". */
function bassNotes(input: JudgeInput, { places }: Untold): string {
  const names = [...new Set(places.flatMap(({ notes }) => notes).map((index) => nameOf(input, index, 0)))];
  return names.length > MOST_NAMED ? 'the basses are' : `the low ${listInWords(names)} ${names.length === 1 ? 'is' : 'are'}`;
}

/** The change that a finding was made from. */
function changeAt(input: JudgeInput, { startS }: FoundPlace): PedalChange | undefined {
  return input.measures.pedal.changes.find(({ soundS }) => soundS === startS);
}

/** A note by its written name, or by its key where none is known. */
function nameOf({ score }: JudgeInput, noteIndex: number | null, midi: number): string {
  const note = noteIndex === null ? undefined : score.notes[noteIndex];
  return noteInWords(note?.pitch ?? namePlayed(midi, null, score.bars[0]?.key ?? 0));
}
