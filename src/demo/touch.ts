/** When the keys come up: legato, plain, tenuto and staccato against the next onset of the same hand. */
import type { Random } from '../base/index.js';
import type { Player } from './plan.js';
import type { TakeNote } from './take.js';

/** Key-down time of notes without slur or sign, share of the written value; our own choice, nearly joined. */
const PLAIN = 0.92;
/** Key-down time under a tenuto line, share of the written value; the whole value less the finger's travel. */
const TENUTO = 0.97;
/** Key-down time of a note that is struck again next, share of the time between the two (Bresin & Battel 2000). */
const REPEATED = 0.6;
/** A tied note whose hand strikes again within this share of its value is held through that. */
const HELD_UNDER = 0.8;
/** Most that a legato overlap lasts, seconds: it does not grow for ever with the length of the note. */
const LONGEST_OVERLAP_S = 0.09;
/** Scatter of key-down times, share of the time to the next onset; our own choice. */
const RELEASE_SCATTER = 0.04;
/** Shortest key press, seconds. */
const SHORTEST_S = 0.04;
/** Time that a key needs to come up and be struck again, seconds; our own choice, well inside what actions repeat. */
const REPETITION_S = 0.025;

/** The same notes with the release that the touch asks for; `releaseS` comes in as the end of the written value. */
export function withReleases(notes: readonly TakeNote[], player: Player, normal: Random): readonly TakeNote[] {
  const next = followers(notes);
  return notes.map((note) => {
    const releaseS = note.onsetS + keyDown(note, next.get(chordKey(note)), player) * (1 + RELEASE_SCATTER * normal());
    return { ...note, releaseS: Math.max(note.onsetS + SHORTEST_S, releaseS) };
  });
}

/** Lets every key up before it is struck again. Ends in the order of the notes given. */
export function freeKeys(notes: readonly TakeNote[]): readonly TakeNote[] {
  const again = new Map<TakeNote, number>();
  const struck = new Map<number, number>();
  const sounding = notes.filter((note) => note.status !== 'missed').sort((a, b) => b.onsetS - a.onsetS);
  for (const note of sounding) {
    again.set(note, struck.get(note.pitch) ?? Infinity);
    struck.set(note.pitch, note.onsetS);
  }
  return notes.map((note) => {
    const free = (again.get(note) ?? Infinity) - REPETITION_S;
    return { ...note, releaseS: Math.max(note.onsetS + SHORTEST_S / 4, Math.min(note.releaseS, free)) };
  });
}

/** All notes that one hand strikes at one moment. */
interface Chord {
  readonly key: string;
  readonly onsetS: number;
  readonly pitches: readonly number[];
}

/** The chord that follows each chord of the same hand, by the key of the earlier one. */
function followers(notes: readonly TakeNote[]): ReadonlyMap<string, Chord> {
  const pairs = (['right', 'left'] as const).flatMap((hand) => {
    const chords = chordsOf(notes.filter((note) => note.hand === hand));
    return chords.slice(1).map((chord, i) => [chords[i]?.key ?? '', chord] as const);
  });
  return new Map(pairs);
}

/** The chords of one hand in time order. */
function chordsOf(notes: readonly TakeNote[]): readonly Chord[] {
  const chords = new Map<string, Chord>();
  for (const note of notes) {
    const key = chordKey(note);
    const before = chords.get(key);
    const onsetS = Math.min(note.onsetS, before?.onsetS ?? Infinity);
    chords.set(key, { key, onsetS, pitches: [...(before?.pitches ?? []), note.pitch] });
  }
  return [...chords.values()].sort((a, b) => a.onsetS - b.onsetS);
}

/** What the notes of one chord have in common; unique within a leg. */
function chordKey(note: TakeNote): string {
  return `${note.hand}/${note.visit}/${note.at}`;
}

/** Seconds that the key stays down. */
function keyDown(note: TakeNote, next: Chord | undefined, player: Player): number {
  const value = note.releaseS - note.onsetS;
  const gap = next ? next.onsetS - note.onsetS : value;
  const touch = note.written?.touch ?? 'plain';
  if (touch === 'staccato') return player.staccato * Math.min(gap, value);
  if (next?.pitches.includes(note.pitch) && gap <= value * 1.1) return REPEATED * gap;
  // a tied note is held under what the hand plays meanwhile
  if (note.written?.tied === true && gap < HELD_UNDER * value) return TENUTO * value;
  if (touch === 'legato') return gap + Math.min(LONGEST_OVERLAP_S, player.overlap * gap);
  return (touch === 'tenuto' ? TENUTO : PLAIN) * value;
}
