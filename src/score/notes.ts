/**
 * Notes and rests as a bar holds them. `attack` and `release` are deliberately not read: they describe somebody's
 * performance, not the score (MusicXML 4.0, W3C).
 */
import type { InputPlace } from '../base/index.js';
import type { InForce } from './attributes.js';
import { MAX_STAVES } from './limits.js';
import { readSigns } from './notations.js';
import { readPitch } from './pitch.js';
import type { ScoreNote, Rest } from './types.js';
import { plainNumber, readWhole } from './values.js';
import { child, childText, childrenNamed, type XmlElement } from './xmlTree.js';

/** A note as read from its bar: not yet numbered, its place told from the start of the bar. */
export interface BarNote extends Omit<ScoreNote, 'index' | 'id' | 'barIndex' | 'onsetTick'> {
  readonly offsetTicks: number;
  /** The element it was read from. */
  readonly element: XmlElement;
}

/** A rest as read from its bar. */
export interface BarRest extends Omit<Rest, 'barIndex' | 'onsetTick'> {
  readonly offsetTicks: number;
}

/** MIDI velocity that 100 percent of a note's `dynamics` stands for (MusicXML 4.0, W3C). */
const FULL_DYNAMICS_VELOCITY = 90;

/** Where and how long a note of the file stands. */
export interface NotePlace {
  readonly offsetTicks: number;
  readonly lengthTicks: number;
  /** True where it is added to the note before it. */
  readonly inChord: boolean;
  /** Stave of a part's first stave minus 1, where several parts are read as one. */
  readonly staffOffset: number;
}

/**
 * A pitched note. Grace notes come without their place before the main note.
 * @throws InputError `bad-value` for a pitch or stave that cannot be
 */
export function readNote(
  element: XmlElement,
  pitchElement: XmlElement,
  at: NotePlace,
  context: { readonly inForce: InForce; readonly place: InputPlace },
): BarNote {
  const partStaff = readStaff(element, context.place);
  const { transpositions } = context.inForce;
  const grace = child(element, 'grace');
  const ties = childrenNamed(element, 'tie');
  return {
    element,
    offsetTicks: at.offsetTicks,
    lengthTicks: at.lengthTicks,
    pitch: readPitch(pitchElement, transpositions.get(partStaff) ?? transpositions.get(0), context.place),
    staff: partStaff + at.staffOffset,
    voice: childText(element, 'voice') ?? '1',
    inChord: at.inChord,
    grace: grace === undefined ? null : { slash: grace.attributes['slash'] === 'yes', before: 1, after: false },
    cue: child(element, 'cue') !== undefined,
    tieStart: ties.some((tie) => tie.attributes['type'] === 'start'),
    tieStop: ties.some((tie) => tie.attributes['type'] === 'stop'),
    ...readSigns(element),
    ...readPrintedValue(element),
    velocity: askedVelocity(element),
    hidden: element.attributes['print-object'] === 'no',
  };
}

/** A rest; `measure="yes"` marks the rest of a whole bar, whatever its metre. */
export function readRest(element: XmlElement, rest: XmlElement, at: NotePlace, place: InputPlace): BarRest {
  return {
    offsetTicks: at.offsetTicks,
    lengthTicks: at.lengthTicks,
    staff: readStaff(element, place) + at.staffOffset,
    voice: childText(element, 'voice') ?? '1',
    wholeBar: rest.attributes['measure'] === 'yes',
    fermata: readSigns(element).fermata,
  };
}

/** Stave within the part, 1 where the file does not say. */
function readStaff(element: XmlElement, place: InputPlace): number {
  const text = childText(element, 'staff');
  return text === undefined ? 1 : readWhole(text, { what: 'The stave of a note', min: 1, max: MAX_STAVES }, place);
}

/** Printed value, dots and tuplet ratio (3:2 = three in the time of two). */
function readPrintedValue(element: XmlElement): Pick<ScoreNote, 'type' | 'dots' | 'tuplet'> {
  const ratio = child(element, 'time-modification');
  const actual = ratio && plainNumber(childText(ratio, 'actual-notes'));
  const normal = ratio && plainNumber(childText(ratio, 'normal-notes'));
  return {
    type: childText(element, 'type') ?? null,
    dots: element.children.filter((entry) => entry.name === 'dot').length,
    tuplet: actual && normal ? [actual, normal] : null,
  };
}

/** Percent of 90 as a velocity from 1 to 127, halves upward; null where the note asks for none. */
function askedVelocity(element: XmlElement): number | null {
  const percent = plainNumber(element.attributes['dynamics']);
  return percent === null ? null : Math.min(127, Math.max(1, Math.round((percent * FULL_DYNAMICS_VELOCITY) / 100)));
}
