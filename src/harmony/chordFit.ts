/*
 * Question: how much does a span of cells speak for each chord?
 * Conventions: chords by number; the score of a chord is a sum over its members, less what its bass costs.
 * Method: a member's part depends only on what kind of member it is (its slot) and on its pitch class. So for each span one small table is
 *   filled, slots by pitch classes, and each chord is four look-ups in it and one for its bass.
 * Source: Pardo and Birmingham 2002 (notes matched, unmatched, missing); the charges are our own, see weights.ts.
 * What it does not tell: where a span should begin and end.
 */
import { isSixFour } from './expectations.js';
import { CHORD_COUNT, CHORDS, type Template } from './templates.js';
import { ABSENT, ABSENT_MARKED_FIFTH, ABSENT_SIX_FOUR, AWAY, BASS, BASS_FOREIGN, FOUR_NOTE_SHARE, HELD_BASS_SHARE, SIX_FOUR_BASS } from './weights.js';

/** A kind of member: what a sounding note counts, what a crotchet away costs, what never sounding costs. */
interface Slot {
  readonly share: number;
  readonly away: number;
  readonly absent: number;
}

/** The slot of a template's member. */
function slotOf({ quality, intervals }: Template, member: number): Slot {
  const marked = member === 2 && intervals[2] !== 7;
  const absent = isSixFour(quality) && member > 0 ? ABSENT_SIX_FOUR : marked ? ABSENT_MARKED_FIFTH : (ABSENT[member] ?? 0);
  return { share: intervals.length > 3 ? FOUR_NOTE_SHARE : 1, away: AWAY[member] ?? 0, absent };
}

/** Every distinct slot, found by name. */
const SLOTS: ReadonlyMap<string, Slot> = new Map(
  CHORDS.flatMap(({ template }) => template.intervals.map((_, member) => slotOf(template, member))).map((slot) => [nameOf(slot), slot]),
);

/** Slots with equal figures are one. */
function nameOf({ share, away, absent }: Slot): string {
  return `${share} ${away} ${absent}`;
}

/** The same, as lists for the innermost loops. */
const SHARES = Float64Array.from(SLOTS.values(), (slot) => slot.share);
const AWAYS = Float64Array.from(SLOTS.values(), (slot) => slot.away);
const ABSENTS = Float64Array.from(SLOTS.values(), (slot) => slot.absent);
const SLOT_NAMES = [...SLOTS.keys()];

/** Size of a table of slots by pitch classes, with one place more that always holds 0. */
export const TABLE_SIZE = SLOTS.size * 12 + 1;

/** Four places in the table for each chord; a triad's last is the 0. */
const PLACES = Int16Array.from({ length: CHORD_COUNT * 4 }, (_, i) => {
  const chord = CHORDS[i >> 2];
  const interval = chord?.template.intervals[i & 3];
  if (chord === undefined || interval === undefined) return TABLE_SIZE - 1;
  return SLOT_NAMES.indexOf(nameOf(slotOf(chord.template, i & 3))) * 12 + ((chord.root + interval) % 12);
});

/** What each chord's bass costs, by the bass's pitch class: struck first, then held in from before. */
const BASS_CHARGES = Float64Array.from({ length: 2 * CHORD_COUNT * 12 }, (_, i) => {
  const held = i >= CHORD_COUNT * 12;
  const chord = CHORDS[Math.floor(i / 12) % CHORD_COUNT];
  if (chord === undefined) return 0;
  if (isSixFour(chord.template.quality) && i % 12 !== chord.root) return SIX_FOUR_BASS;
  const member = chord.template.intervals.findIndex((interval) => (chord.root + interval) % 12 === i % 12);
  return (member < 0 ? BASS_FOREIGN : (BASS[member] ?? 0)) * (held ? HELD_BASS_SHARE : 1);
});

/** What sounds in a span, by pitch class. */
export interface SpanSounds {
  /** What a chord gains by holding it. */
  readonly gain: Float64Array;
  /** How much of it sounds at all. */
  readonly present: Float64Array;
  /** Crotchets during which it is nowhere near. */
  readonly away: Float64Array;
}

/** Fills a table of TABLE_SIZE for a span. */
export function fillTable(table: Float64Array, { gain, present, away }: SpanSounds): void {
  for (let slot = 0; slot < SHARES.length; slot += 1) {
    const [share, apart, absent] = [SHARES[slot] ?? 0, AWAYS[slot] ?? 0, ABSENTS[slot] ?? 0];
    for (let pc = 0; pc < 12; pc += 1) {
      const missing = (present[pc] ?? 0) <= 1e-9 ? absent : 0;
      table[slot * 12 + pc] = share * (gain[pc] ?? 0) - apart * (away[pc] ?? 0) - missing;
    }
  }
}

/** What a filled table gives to a chord over a bass (pitch class, 0-11), which may be held in from before. */
export function chordFit(table: Float64Array, chord: number, bass: number): number {
  const at = chord * 4;
  return (
    (table[PLACES[at] ?? 0] ?? 0) + (table[PLACES[at + 1] ?? 0] ?? 0) + (table[PLACES[at + 2] ?? 0] ?? 0) + (table[PLACES[at + 3] ?? 0] ?? 0) -
    (BASS_CHARGES[bass + chord * 12] ?? 0)
  );
}

/** The bass as `chordFit` takes it: a MIDI number, and whether it began before the span. */
export function bassPlace(midi: number, held: boolean): number {
  return (midi % 12) + (held ? CHORD_COUNT * 12 : 0);
}
