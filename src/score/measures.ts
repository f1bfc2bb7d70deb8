/**
 * The walk through a bar. A MusicXML bar is a tape with a moving head: notes and `forward` move it on, `backup` moves it
 * back for the next voice. Source: MusicXML 4.0 (W3C).
 */
import { InputError, type InputPlace } from '../base/index.js';
import { afterAttributes, AT_THE_START, type InForce } from './attributes.js';
import { placeGraces } from './graces.js';
import { dynamicsOfNote, soundingOffset, staffOfMarks } from './directionPlace.js';
import { longestDuration, placeOf, ticksOf, type Grid } from './grid.js';
import { readNote, readRest, type BarNote, type BarRest } from './notes.js';
import type { KeySignature, TimeSignature } from './types.js';
import { plainNumber } from './values.js';
import type { WarningList } from './warnings.js';
import { child, childText, type XmlElement } from './xmlTree.js';

/** A bar of one part as read, places told from the start of the bar. */
export interface MeasureContent {
  readonly measure: XmlElement;
  readonly notes: readonly BarNote[];
  readonly rests: readonly BarRest[];
  readonly directions: readonly PlacedElement[];
  /** End of the last note, ticks, cue notes left out; 0 for a bar without notes. */
  readonly notesEndTicks: number;
  /** Furthest moment that anything in the bar reaches, rests and steps in time included; 0 for an empty bar. */
  readonly reachTicks: number;
  /** In force when the first note sounds. */
  readonly time: TimeSignature;
  readonly key: KeySignature;
  readonly declaredStaves: number;
}

/** A direction, a sound, or the dynamics of a note, with the moment it stands at. */
export interface PlacedElement {
  readonly element: XmlElement;
  readonly offsetTicks: number;
  /** Stave in the piece; null for what belongs to no stave. */
  readonly staff: number | null;
}

/** What reading a part needs to know. */
export interface PartContext {
  readonly grid: Grid;
  readonly warnings: WarningList;
  /** Added to the stave numbers of the part, where several parts are read as one. */
  readonly staffOffset: number;
}

/**
 * Reads the bars of one part in order.
 * @throws InputError `bad-value` naming the bar, for durations, pitches, staves and signatures that cannot be
 */
export function readMeasures(part: XmlElement, context: PartContext): readonly MeasureContent[] {
  let inForce = AT_THE_START;
  return part.children
    .filter((element) => element.name === 'measure')
    .map((measure) => {
      const reader = new MeasureReader(measure, inForce, context);
      for (const element of measure.children) reader.take(element);
      inForce = reader.inForce;
      return reader.content();
    });
}

/** Walks through one bar, keeping the moment reached. */
class MeasureReader {
  inForce: InForce;
  readonly #measure: XmlElement;
  readonly #place: InputPlace & { readonly bar: string };
  readonly #context: PartContext;
  readonly #notes: BarNote[] = [];
  readonly #rests: BarRest[] = [];
  readonly #directions: PlacedElement[] = [];
  #signatures: InForce | null = null;
  #moment = 0;
  #furthest = 0;
  #notesEnd = 0;
  /** The note that a chord note would be added to; null right after a jump in time. */
  #chordRoot: { readonly offsetTicks: number; readonly lengthTicks: number } | null = null;

  constructor(measure: XmlElement, inForce: InForce, context: PartContext) {
    this.#measure = measure;
    this.#place = placeOf(measure);
    this.inForce = inForce;
    this.#context = context;
  }

  /** Takes the next element of the bar; what is not known or not needed (lyrics, figured bass) is passed over. */
  take(element: XmlElement): void {
    if (element.name === 'note') this.#takeNote(element);
    else if (element.name === 'backup') this.#move(-this.#duration(element, 0));
    else if (element.name === 'forward') this.#move(this.#duration(element, 0));
    else if (element.name === 'attributes') this.inForce = afterAttributes(this.inForce, element, this.#measure, this.#context.warnings);
    else if (element.name === 'direction' || element.name === 'sound') {
      const staff = staffOfMarks(element);
      const offsetTicks = Math.max(0, this.#moment + soundingOffset(element, this.inForce.divisions, this.#context.grid));
      this.#directions.push({ element, offsetTicks, staff: staff === null ? null : staff + this.#context.staffOffset });
    }
  }

  /** The bar as read. */
  content(): MeasureContent {
    const { time, key } = this.#signatures ?? this.inForce;
    return {
      measure: this.#measure,
      notes: placeGraces(this.#notes),
      rests: this.#rests,
      directions: this.#directions,
      notesEndTicks: this.#notesEnd,
      reachTicks: this.#furthest,
      time,
      key,
      declaredStaves: this.inForce.staves,
    };
  }

  /** A note or rest: keeps it, and moves time on unless it is a grace note or belongs to a chord. */
  #takeNote(element: XmlElement): void {
    this.#signatures ??= this.inForce;
    const isGrace = child(element, 'grace') !== undefined;
    const lengthTicks = isGrace ? 0 : this.#duration(element, Number.MIN_VALUE);
    const root = child(element, 'chord') === undefined ? null : this.#rootOfChord();
    const offsetTicks = root?.offsetTicks ?? this.#moment;
    this.#keepNote(element, { offsetTicks, lengthTicks, inChord: root !== null, staffOffset: this.#context.staffOffset });
    if (root !== null) return;
    this.#chordRoot = { offsetTicks, lengthTicks };
    if (child(element, 'rest') === undefined && child(element, 'cue') === undefined)
      this.#notesEnd = Math.max(this.#notesEnd, this.#moment + lengthTicks);
    this.#reach(this.#moment + lengthTicks);
  }

  /** Unpitched notes (knocks, clicks) only move time. */
  #keepNote(element: XmlElement, at: Parameters<typeof readNote>[2]): void {
    const pitch = child(element, 'pitch');
    const rest = child(element, 'rest');
    if (pitch !== undefined) {
      const note = readNote(element, pitch, at, { inForce: this.inForce, place: { bar: this.#place.bar, line: element.line } });
      this.#notes.push(note);
      for (const dynamics of dynamicsOfNote(element))
        this.#directions.push({ element: dynamics, offsetTicks: at.offsetTicks, staff: note.staff });
    } else if (rest !== undefined) this.#rests.push(readRest(element, rest, at, this.#place));
  }

  /** MusicXML 4.0: a chord note is added to the preceding note and does not move time. */
  #rootOfChord(): { readonly offsetTicks: number; readonly lengthTicks: number } | null {
    if (this.#chordRoot === null) {
      this.#context.warnings.add(
        this.#place.bar,
        'A note is marked as belonging to a chord, but no note stands right before it; it is read as a note of its own',
      );
    }
    return this.#chordRoot;
  }

  /** A step on (positive) or back (negative). What follows it cannot join a chord before it. */
  #move(ticks: number): void {
    this.#signatures ??= this.inForce;
    this.#chordRoot = null;
    if (this.#moment + ticks < 0)
      this.#context.warnings.add(this.#place.bar, 'The file steps back beyond the start of the bar; the start of the bar is taken instead');
    this.#reach(Math.max(0, this.#moment + ticks));
  }

  /** The moment now reached; the bar is at least as long. */
  #reach(moment: number): void {
    this.#moment = moment;
    this.#furthest = Math.max(this.#furthest, moment);
  }

  /** Length of an element in ticks, at least `least` divisions. */
  #duration(element: XmlElement, least: number): number {
    const { divisions } = this.inForce;
    const value = plainNumber(childText(element, 'duration'));
    if (value === null || value < least || value > longestDuration(divisions)) {
      throw new InputError(
        'bad-value',
        `The duration of a ${element.name === 'note' ? 'note' : 'step in time'} cannot be read; expected a positive number of divisions of at most ${longestDuration(divisions)}.`,
        { ...this.#place, line: element.line },
      );
    }
    return ticksOf(value, divisions, this.#context.grid);
  }
}
