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
  const onsets = { right: onsetsOf(notes, 'right'), left: onsetsOf(notes, 'left') };
  return notes.map((note) => {
    const next = onsets[note.hand].find((chord) => chord.onsetS > note.onsetS && !sameMoment(chord, note));
    const releaseS = note.onsetS + keyDown(note, next, player) * (1 + RELEASE_SCATTER * normal());
    return { ...note, releaseS: Math.max(note.onsetS + SHORTEST_S, releaseS) };
  });
}

/** Lets every key up before it is struck again. Ends in the order of the notes given. */
export function freeKeys(notes: readonly TakeNote[]): readonly TakeNote[] {
  return notes.map((note) => {
    const again = notes.filter((each) => each !== note && each.status !== 'missed' && each.pitch === note.pitch && each.onsetS >= note.onsetS)
      .reduce((soonest, each) => Math.min(soonest, each.onsetS), Infinity);
    return { ...note, releaseS: Math.max(note.onsetS + SHORTEST_S / 4, Math.min(note.releaseS, again - REPETITION_S)) };
  });
}

interface Chord {
  readonly visit: number;
  readonly at: number;
  readonly onsetS: number;
  readonly pitches: readonly number[];
}

function onsetsOf(notes: readonly TakeNote[], hand: 'right' | 'left'): readonly Chord[] {
  const chords = new Map<string, TakeNote[]>();
  for (const note of notes.filter((each) => each.hand === hand)) {
    const key = `${note.visit}/${note.at}`;
    chords.set(key, [...(chords.get(key) ?? []), note]);
  }
  return [...chords.values()].flatMap(([first, ...rest]) => (first ? [{
    visit: first.visit, at: first.at,
    onsetS: Math.min(first.onsetS, ...rest.map((note) => note.onsetS)),
    pitches: [first, ...rest].map((note) => note.pitch),
  }] : [])).sort((a, b) => a.onsetS - b.onsetS);
}

function sameMoment(chord: Chord, note: TakeNote): boolean {
  return chord.visit === note.visit && chord.at === note.at;
}

/** Seconds that the key stays down. */
function keyDown(note: TakeNote, next: Chord | undefined, player: Player): number {
  const value = note.releaseS - note.onsetS;
  const gap = next ? next.onsetS - note.onsetS : value;
  const touch = note.written?.touch ?? 'plain';
  if (touch === 'staccato') return player.staccato * Math.min(gap, value);
  if (next?.pitches.includes(note.pitch) && gap <= value * 1.1) return REPEATED * gap;
  if (touch === 'legato') return gap + Math.min(LONGEST_OVERLAP_S, player.overlap * gap);
  return (touch === 'tenuto' ? TENUTO : PLAIN) * value;
}
