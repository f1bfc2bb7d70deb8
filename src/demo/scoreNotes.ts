/** Notes and rests of a demo piece as MusicXML. */
import type { AccidentalMemory, Copy } from './engravingRules.js';
import type { Sign, WrittenEvent, WrittenPitch } from './notation.js';
import { noteId, type Hand } from './noteIds.js';
import { element, leaf } from './xml.js';

/** One event and all that decides how it is written. */
export interface PlacedEvent {
  readonly event: WrittenEvent;
  readonly copy: Copy | undefined;
  readonly hand: Hand;
  readonly staff: 1 | 2;
  /** Printed bar number. */
  readonly bar: string;
  /** Place of the event in its bar, from 0. */
  readonly place: number;
  /** MIDI numbers that a tie leads to from the event before. */
  readonly tiedFrom: readonly number[];
}

/** MusicXML's names of the signs that are articulations. */
const ARTICULATIONS: ReadonlyMap<Sign, string> = new Map([["'", 'staccato'], ['-', 'tenuto'], ['>', 'accent']] as const);
/** The same for ornaments. */
const ORNAMENTS: ReadonlyMap<Sign, string> = new Map([['m', 'mordent'], ['t', 'trill-mark']] as const);

/** The `<note>` elements of one event: one for a rest, one for each note of a chord. */
export function noteElements(placed: PlacedEvent, accidentals: AccidentalMemory): readonly string[] {
  const { event } = placed;
  if (event.pitches.length === 0) return [noteElement(placed, 0, [element('rest', {})], [])];
  return event.pitches.map((pitch, inChord) => {
    // the accidental of a tied note is the first one's
    const accidental = isTiedTo(placed, pitch) ? null : accidentals.next(pitch);
    const sound = [...(inChord > 0 ? [element('chord', {})] : []), pitchElement(pitch)];
    const printed = accidental ? [element('accidental', { cautionary: accidental.reminds ? 'yes' : undefined }, accidental.name)] : [];
    return noteElement(placed, inChord, sound, printed);
  });
}

/** One note-head or rest; the children in the order that the format asks for. */
function noteElement(placed: PlacedEvent, inChord: number, sound: readonly string[], accidental: readonly string[]): string {
  const { event, copy, staff } = placed;
  const rest = event.pitches.length === 0;
  const beams = inChord === 0 ? (copy?.beams ?? []) : [];
  return element('note', { id: noteId(placed.hand, placed.bar, { event: placed.place, inChord }) }, [
    ...sound,
    leaf('duration', event.length),
    ...tieEnds(placed, inChord).map((type) => element('tie', { type })),
    leaf('voice', staff === 1 ? 1 : 5),
    leaf('type', event.type),
    ...Array.from({ length: event.dots }, () => element('dot', {})),
    ...accidental,
    ...(rest || event.type === 'whole' ? [] : [leaf('stem', copy?.stem ?? 'up')]),
    leaf('staff', staff),
    ...beams.map((beam, i) => element('beam', { number: i + 1 }, beam)),
    ...notations(placed, inChord),
  ]);
}

/** Whether a tie leads to this pitch from the event before. */
function isTiedTo(placed: PlacedEvent, pitch: WrittenPitch): boolean {
  return placed.tiedFrom.includes(pitch.midi);
}

/** Ends of ties at one note-head, the one that ends first. */
function tieEnds(placed: PlacedEvent, inChord: number): readonly ('stop' | 'start')[] {
  const pitch = placed.event.pitches[inChord];
  if (!pitch) return [];
  return [...(isTiedTo(placed, pitch) ? ['stop' as const] : []), ...(pitch.tied ? ['start' as const] : [])];
}

/** Step, alteration where there is one, octave. */
function pitchElement(pitch: WrittenPitch): string {
  const alter = pitch.alter === 0 ? [] : [leaf('alter', pitch.alter)];
  return element('pitch', {}, [leaf('step', pitch.step), ...alter, leaf('octave', pitch.octave)]);
}

/** Ties and the sign of a broken chord stand at every note of a chord, all else at the lowest. */
function notations(placed: PlacedEvent, inChord: number): readonly string[] {
  const { signs } = placed.event;
  const parts = [
    ...tieEnds(placed, inChord).map((type) => element('tied', { type })),
    ...(inChord === 0 ? chordNotations(placed.event) : []),
    ...(signs.includes('z') ? [element('arpeggiate', {})] : []),
  ];
  return parts.length ? [element('notations', {}, parts)] : [];
}

/** A slur that ends is closed before the next one opens, so that both may use number 1. */
function chordNotations({ signs, finger }: WrittenEvent): readonly string[] {
  return [
    ...(signs.includes(')') ? [element('slur', { type: 'stop', number: 1 })] : []),
    ...(signs.includes('(') ? [element('slur', { type: 'start', number: 1 })] : []),
    ...group('ornaments', named(ORNAMENTS, signs)),
    ...group('technical', finger === null ? [] : [leaf('fingering', finger)]),
    ...group('articulations', named(ARTICULATIONS, signs)),
    ...(signs.includes('^') ? [element('fermata', { type: 'upright' })] : []),
  ];
}

/** Empty elements for the signs that the table names. */
function named(table: ReadonlyMap<Sign, string>, signs: readonly Sign[]): readonly string[] {
  return signs.flatMap((sign) => table.get(sign) ?? []).map((name) => element(name, {}));
}

/** A parent for the children, or nothing without any. */
function group(name: string, children: readonly string[]): readonly string[] {
  return children.length ? [element(name, {}, children)] : [];
}
