/** What each written note of a demo piece asks of the finger: one record a note-head. */
import { parseHand, type Sign, type WrittenEvent } from './notation.js';
import { noteId, type Hand } from './noteIds.js';
import type { Piece } from './piece.js';

/** How a note joins the next one. */
export type Touch = 'legato' | 'plain' | 'tenuto' | 'staccato';

/** One written note to be played. */
export interface Sounding {
  readonly id: string;
  readonly hand: Hand;
  readonly barIndex: number;
  /** Divisions from the start of the bar. */
  readonly at: number;
  /** Written length, divisions. */
  readonly length: number;
  /** MIDI number as written. */
  readonly midi: number;
  readonly touch: Touch;
  readonly accent: boolean;
  readonly fermata: boolean;
  /** Place in its chord from below, and how many notes the chord has. */
  readonly inChord: number;
  readonly chordSize: number;
  /** True for the short note of a dotted pair: a semiquaver after a dotted quaver. */
  readonly shortOfPair: boolean;
}

/** All notes of the piece by bar index, in score order. */
export function soundings(piece: Piece): readonly (readonly Sounding[])[] {
  const right = handSoundings(piece, 'right');
  const left = handSoundings(piece, 'left');
  return piece.bars.map((_, i) => [...(right[i] ?? []), ...(left[i] ?? [])]);
}

/** One hand's notes by bar; a slur reaches over bar lines. */
function handSoundings(piece: Piece, hand: Hand): readonly (readonly Sounding[])[] {
  let slurred = false;
  return piece.bars.map((bar, barIndex) => {
    const events = parseHand(hand === 'right' ? bar.right : bar.left);
    return events.flatMap((event, place) => {
      slurred = slurAfter(slurred, event.signs);
      const shared = { hand, barIndex, touch: touchOf(event, slurred), shortOfPair: isShortOfPair(events[place - 1], event) };
      return event.pitches.map((pitch, inChord) => ({
        ...shared,
        id: noteId(hand, bar.number, { event: place, inChord }),
        at: event.at,
        length: event.length,
        midi: pitch.midi,
        accent: event.signs.includes('>'),
        fermata: event.signs.includes('^'),
        inChord,
        chordSize: event.pitches.length,
      }));
    });
  });
}

/** Whether a slur leads on from this event. */
function slurAfter(before: boolean, signs: readonly Sign[]): boolean {
  return signs.includes('(') || (before && !signs.includes(')'));
}

/** A dot outdoes a slur, a slur a tenuto line. */
function touchOf(event: WrittenEvent, slurred: boolean): Touch {
  if (event.signs.includes("'")) return 'staccato';
  if (slurred) return 'legato';
  return event.signs.includes('-') ? 'tenuto' : 'plain';
}

/** A semiquaver right after a dotted quaver. */
function isShortOfPair(before: WrittenEvent | undefined, event: WrittenEvent): boolean {
  return event.type === '16th' && before?.type === 'eighth' && before.dots === 1;
}
