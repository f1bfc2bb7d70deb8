/** What each written note of a demo piece asks of the finger: one record a key press, the heads of a tie together. */
import { parseHand, parsePitch, type Sign, type WrittenEvent, type WrittenPitch } from './notation.js';
import { alterInKey, STEPS } from './engravingRules.js';
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
  /** Written length, divisions, all heads of a tie together. */
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
  /** True where a tie leads on from it. */
  readonly tied?: boolean;
  /** True for a chord that is broken upwards. */
  readonly broken?: boolean;
  /** Ornament sign, and the key beside that it takes in, as a MIDI number. */
  readonly ornament?: Ornament;
}

/** An ornament of one note. */
export interface Ornament {
  readonly kind: 'mordent' | 'trill';
  /** MIDI number of the other key. */
  readonly beside: number;
}

/** All events of a hand through the piece, and the key signature that they stand under. */
interface Line {
  readonly events: readonly WrittenEvent[];
  readonly fifths: number;
}

/** All notes of the piece by bar index, in score order. */
export function soundings(piece: Piece): readonly (readonly Sounding[])[] {
  const right = handSoundings(piece, 'right');
  const left = handSoundings(piece, 'left');
  return piece.bars.map((_, i) => [...(right[i] ?? []), ...(left[i] ?? [])]);
}

/** One hand's notes by bar; a slur reaches over bar lines. */
function handSoundings(piece: Piece, hand: Hand): readonly (readonly Sounding[])[] {
  const line = { events: piece.bars.flatMap((bar) => parseHand(bar[hand])), fifths: piece.fifths };
  let slurred = false;
  let index = -1;
  return piece.bars.map((bar, barIndex) => {
    const events = parseHand(bar[hand]);
    return events.flatMap((event, place) => {
      index += 1;
      slurred = slurAfter(slurred, event.signs);
      const shared = { hand, barIndex, at: event.at, touch: touchOf(event, slurred), shortOfPair: isShortOfPair(events[place - 1], event) };
      return pressesOf(line, index).map(({ inChord, ...press }) => ({ ...shared, ...press, inChord, id: noteId(hand, bar.number, { event: place, inChord }) }));
    });
  });
}

/** Facts of an event's notes that come from its own signs and from ties: one a key press, none for a head that is tied to. */
function pressesOf(line: Line, index: number): readonly Pick<Sounding, 'length' | 'midi' | 'accent' | 'fermata' | 'inChord' | 'chordSize' | 'tied' | 'broken' | 'ornament'>[] {
  const event = line.events[index];
  const before = line.events[index - 1]?.pitches.filter((pitch) => pitch.tied).map((pitch) => pitch.midi) ?? [];
  return (event?.pitches ?? []).flatMap((pitch, inChord) => {
    if (!event || before.includes(pitch.midi)) return [];
    const ornament = ornamentOf(event, pitch, line.fifths);
    return [{
      length: tiedLength(line.events, index, pitch.midi),
      midi: pitch.midi,
      accent: event.signs.includes('>'),
      fermata: event.signs.includes('^'),
      inChord,
      chordSize: event.pitches.length,
      tied: pitch.tied,
      broken: event.signs.includes('z'),
      ...(ornament ? { ornament } : {}),
    }];
  });
}

/** Divisions from an event to the end of the tie that begins there; the event's own where there is none. */
function tiedLength(events: readonly WrittenEvent[], index: number, midi: number): number {
  const event = events[index];
  const pitch = event?.pitches.find((each) => each.midi === midi);
  if (!event || !pitch) return 0;
  return event.length + (pitch.tied ? tiedLength(events, index + 1, midi) : 0);
}

/** The ornament over an event, if any: a mordent takes in the step below, a trill the step above, as the key has them. */
function ornamentOf(event: WrittenEvent, pitch: WrittenPitch, fifths: number): Ornament | null {
  const kind = event.signs.includes('m') ? 'mordent' : event.signs.includes('t') ? 'trill' : null;
  if (!kind) return null;
  const place = pitch.octave * 7 + STEPS.indexOf(pitch.step) + (kind === 'trill' ? 1 : -1);
  const step = STEPS.charAt(place % 7);
  const natural = parsePitch(`${step}${String(Math.floor(place / 7))}`).midi;
  return { kind, beside: natural + alterInKey(step, fifths) };
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
