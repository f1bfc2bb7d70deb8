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
}

/** MusicXML's names of the signs that are articulations. */
const ARTICULATIONS: ReadonlyMap<Sign, string> = new Map([["'", 'staccato'], ['-', 'tenuto'], ['>', 'accent']] as const);

/** The `<note>` elements of one event: one for a rest, one for each note of a chord. */
export function noteElements(placed: PlacedEvent, accidentals: AccidentalMemory): readonly string[] {
  const { event } = placed;
  if (event.pitches.length === 0) return [noteElement(placed, 0, [element('rest', {})], [])];
  return event.pitches.map((pitch, inChord) => {
    const accidental = accidentals.next(pitch);
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
    leaf('voice', staff === 1 ? 1 : 5),
    leaf('type', event.type),
    ...Array.from({ length: event.dots }, () => element('dot', {})),
    ...accidental,
    ...(rest || event.type === 'whole' ? [] : [leaf('stem', copy?.stem ?? 'up')]),
    leaf('staff', staff),
    ...beams.map((beam, i) => element('beam', { number: i + 1 }, beam)),
    ...(inChord === 0 ? notations(event.signs) : []),
  ]);
}

/** Step, alteration where there is one, octave. */
function pitchElement(pitch: WrittenPitch): string {
  const alter = pitch.alter === 0 ? [] : [leaf('alter', pitch.alter)];
  return element('pitch', {}, [leaf('step', pitch.step), ...alter, leaf('octave', pitch.octave)]);
}

/** A slur that ends is closed before the next one opens, so that both may use number 1. */
function notations(signs: readonly Sign[]): readonly string[] {
  const articulations = signs.flatMap((sign) => ARTICULATIONS.get(sign) ?? []).map((name) => element(name, {}));
  const parts = [
    ...(signs.includes(')') ? [element('slur', { type: 'stop', number: 1 })] : []),
    ...(signs.includes('(') ? [element('slur', { type: 'start', number: 1 })] : []),
    ...(articulations.length ? [element('articulations', {}, articulations)] : []),
    ...(signs.includes('^') ? [element('fermata', { type: 'upright' })] : []),
  ];
  return parts.length ? [element('notations', {}, parts)] : [];
}
