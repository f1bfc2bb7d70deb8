/** A scale or arpeggio as MusicXML on two staves, bars of four crotchets, the last note to the end of its beat or, on a beat, a crotchet; then rests. */
import { alterInKey } from '../spelling.js';
import type { Pitch } from '../types.js';
import { newElement, writeXml } from '../writeXml.js';
import type { XmlElement } from '../xmlTree.js';
import { downAndUp, upAndDown } from './scaleNotes.js';
import { checkScalePlan, scaleFifths, scaleTitle, type ScalePlan } from './scalePlan.js';

/** Ticks of a crotchet: divisible by two, three and four. */
const DIVISIONS = 12;
const BAR = 4 * DIVISIONS;

/** Printed values by notes to a crotchet. */
const TYPES: Readonly<Record<ScalePlan['notesPerBeat'], string>> = { 1: 'quarter', 2: 'eighth', 3: 'eighth', 4: '16th' };
const BEAMS: Readonly<Record<ScalePlan['notesPerBeat'], number>> = { 1: 0, 2: 1, 3: 1, 4: 2 };

/** Printed values of the last note by how far it is to the end of its beat. */
const LAST: readonly { readonly ticks: number; readonly type: string; readonly dotted: boolean; readonly triplet: boolean }[] = [
  { ticks: 12, type: 'quarter', dotted: false, triplet: false }, { ticks: 9, type: 'eighth', dotted: true, triplet: false }, { ticks: 8, type: 'quarter', dotted: false, triplet: true },
  { ticks: 6, type: 'eighth', dotted: false, triplet: false }, { ticks: 4, type: 'eighth', dotted: false, triplet: true }, { ticks: 3, type: '16th', dotted: false, triplet: false },
];

/** Signs by alteration. */
const ACCIDENTALS: ReadonlyMap<number, string> = new Map([[-2, 'flat-flat'], [-1, 'flat'], [0, 'natural'], [1, 'sharp'], [2, 'double-sharp']]);

/** A staff is written in the treble from this middle pitch on (>=), MIDI number: middle C. */
const TREBLE_FROM = 60;

/** A note at its place. */
interface Placed {
  readonly pitch: Pitch;
  readonly tick: number;
  readonly ticks: number;
  readonly first: boolean;
  readonly top: boolean;
  readonly last: boolean;
  /** True for the note before the last one, where both share a beat: its beam ends there. */
  readonly endsBeam: boolean;
}

/**
 * The scale as a MusicXML file.
 * @throws RangeError for a plan that nobody could play
 */
export function scaleXml(plan: ScalePlan): string {
  checkScalePlan(plan);
  const lines = handsOf(plan).map((pitches) => (pitches === null ? [] : placed(pitches, plan)));
  const bars = Math.max(...lines.map((line) => Math.ceil(((line.at(-1)?.tick ?? 0) + 1) / BAR)));
  const clefs: (string | null)[] = [null, null];
  const measures = Array.from({ length: bars }, (_, i) => newElement('measure', measureOf(plan, { bar: i, lines, clefs }), { number: String(i + 1) }));
  const list = newElement('part-list', [newElement('score-part', [newElement('part-name', 'Piano')], { id: 'P1' })]);
  return writeXml(newElement('score-partwise', [newElement('work', [newElement('work-title', scaleTitle(plan))]), list, newElement('part', measures, { id: 'P1' })], { version: '4.0' }));
}

/** Notes of the right and the left hand; null for one that rests. */
function handsOf(plan: ScalePlan): readonly (readonly Pitch[] | null)[] {
  // many octaves begin lower, so that all of them are on the keyboard
  const right = plan.octaves > 2 ? 3 : 4;
  switch (plan.hands) {
    case 'right':
      return [upAndDown(plan, right), null];
    case 'left':
      return [null, upAndDown(plan, right - 1)];
    case 'together':
      return [upAndDown(plan, right), upAndDown(plan, right - 1)];
    case 'contrary':
      return [upAndDown(plan, 4), downAndUp(plan, 4)];
  }
}

/** The notes in time; the last one fills its beat. */
function placed(pitches: readonly Pitch[], { notesPerBeat }: ScalePlan): readonly Placed[] {
  const unit = DIVISIONS / notesPerBeat;
  return pitches.map((pitch, i) => {
    const tick = i * unit;
    const last = i === pitches.length - 1;
    return { pitch, tick, ticks: last ? DIVISIONS - (tick % DIVISIONS) : unit, first: i === 0, top: i === (pitches.length - 1) / 2, last, endsBeam: i === pitches.length - 2 && (tick + unit) % DIVISIONS !== 0 };
  });
}

/** Where one bar stands. */
interface BarPlace {
  readonly bar: number;
  readonly lines: readonly (readonly Placed[])[];
  /** Clef in force on each staff, kept from bar to bar. */
  readonly clefs: (string | null)[];
}

/** One bar: attributes, tempo in the first, both staves. */
function measureOf(plan: ScalePlan, { bar, lines, clefs }: BarPlace): readonly XmlElement[] {
  const inBar = lines.map((line) => line.filter(({ tick }) => Math.floor(tick / BAR) === bar));
  const fresh = inBar.flatMap((notes, staff) => {
    const pitches = notes.map(({ pitch }) => pitch.midi);
    const middle = pitches.length === 0 ? null : pitches.reduce((sum, midi) => sum + midi, 0) / pitches.length;
    const sign = middle === null ? (clefs[staff] ?? (staff === 0 ? 'G' : 'F')) : middle >= TREBLE_FROM ? 'G' : 'F';
    if (clefs[staff] === sign) return [];
    clefs[staff] = sign;
    return [newElement('clef', [newElement('sign', sign), newElement('line', sign === 'G' ? '2' : '4')], { number: String(staff + 1) })];
  });
  const first = bar === 0 ? [
    newElement('divisions', String(DIVISIONS)), newElement('key', [newElement('fifths', String(scaleFifths(plan))), ...(isMinor(plan) ? [newElement('mode', 'minor')] : [])]),
    newElement('time', [newElement('beats', '4'), newElement('beat-type', '4')]), newElement('staves', '2'),
  ] : [];
  const attributes = first.length + fresh.length === 0 ? [] : [newElement('attributes', [...first, ...fresh])];
  const back = newElement('backup', [newElement('duration', String(BAR))]);
  return [...attributes, ...(bar === 0 ? [tempo(plan)] : []), ...staffOf(plan, inBar[0] ?? [], 1), back, ...staffOf(plan, inBar[1] ?? [], 2)];
}

/** True for kinds that stand in a minor key. */
function isMinor({ kind }: ScalePlan): boolean {
  return kind === 'harmonicMinor' || kind === 'melodicMinor' || kind === 'naturalMinor' || kind === 'minorArpeggio';
}

/** The metronome mark. */
function tempo({ tempo: perMinute }: ScalePlan): XmlElement {
  const mark = newElement('metronome', [newElement('beat-unit', 'quarter'), newElement('per-minute', String(perMinute))]);
  return newElement('direction', [newElement('direction-type', [mark]), newElement('staff', '1'), newElement('sound', '', { tempo: String(perMinute) })], { placement: 'above' });
}

/** One staff of one bar. */
function staffOf(plan: ScalePlan, notes: readonly Placed[], staff: number): readonly XmlElement[] {
  if (notes.length === 0) return [newElement('note', [newElement('rest', '', { measure: 'yes' }), newElement('duration', String(BAR)), newElement('voice', staff === 1 ? '1' : '5'), newElement('staff', String(staff))])];
  const inForce = new Map<string, number>();
  return notes.flatMap((note) => (note.last ? lastNote(plan, note, { staff, inForce }) : [noteOf(plan, note, { staff, inForce })]));
}

/** The staff, and the accidentals that hold in this bar. */
interface Line {
  readonly staff: number;
  readonly inForce: Map<string, number>;
}

/** A note of the run. */
function noteOf(plan: ScalePlan, note: Placed, line: Line): XmlElement {
  const { notesPerBeat, touch } = plan;
  const inBeat = Math.round((note.tick % DIVISIONS) / (DIVISIONS / notesPerBeat));
  const beam = inBeat === 0 ? (note.endsBeam ? null : 'begin') : inBeat === notesPerBeat - 1 || note.endsBeam ? 'end' : 'continue';
  const ratio = notesPerBeat === 3 ? [newElement('time-modification', [newElement('actual-notes', '3'), newElement('normal-notes', '2')])] : [];
  const tuplet = notesPerBeat === 3 && (inBeat === 0 || inBeat === 2) ? [newElement('tuplet', '', { type: inBeat === 0 ? 'start' : 'stop', bracket: 'no' })] : [];
  const notations = [...tuplet, ...slurs(touch, note), ...(touch === 'staccato' ? [newElement('articulations', [newElement('staccato')])] : [])];
  return newElement('note', [
    ...pitched(note.pitch), newElement('duration', String(note.ticks)), newElement('voice', line.staff === 1 ? '1' : '5'), newElement('type', TYPES[notesPerBeat]), ...accidental(plan, note.pitch, line), ...ratio, newElement('staff', String(line.staff)),
    ...beams(plan, beam), ...(notations.length === 0 ? [] : [newElement('notations', notations)]),
  ]);
}

/** Beams within a beat; none for a note that the last one leaves alone. */
function beams({ notesPerBeat }: ScalePlan, beam: string | null): readonly XmlElement[] {
  return beam === null ? [] : Array.from({ length: BEAMS[notesPerBeat] }, (_, i) => newElement('beam', beam, { number: String(i + 1) }));
}

/** The last note, and rests to the end of its bar. */
function lastNote(plan: ScalePlan, note: Placed, line: Line): readonly XmlElement[] {
  const value = LAST.find(({ ticks }) => ticks === note.ticks);
  if (value === undefined) throw new RangeError(`no printed value lasts ${note.ticks} ticks`);
  const triplet = value.triplet ? [newElement('time-modification', [newElement('actual-notes', '3'), newElement('normal-notes', '2')])] : [];
  const notations = [...(value.triplet ? [newElement('tuplet', '', { type: 'stop' })] : []), ...slurs(plan.touch, note)];
  const voice = newElement('voice', line.staff === 1 ? '1' : '5');
  const staff = newElement('staff', String(line.staff));
  const rests = (BAR - ((note.tick + note.ticks) % BAR || BAR)) / DIVISIONS;
  return [
    newElement('note', [
      ...pitched(note.pitch), newElement('duration', String(note.ticks)), voice, newElement('type', value.type), ...(value.dotted ? [newElement('dot')] : []), ...accidental(plan, note.pitch, line), ...triplet, staff,
      ...(notations.length === 0 ? [] : [newElement('notations', notations)]),
    ]),
    ...Array.from({ length: rests }, () => newElement('note', [newElement('rest'), newElement('duration', String(DIVISIONS)), voice, newElement('type', 'quarter'), staff])),
  ];
}

/** One slur up to the top, one down from it. */
function slurs(touch: ScalePlan['touch'], { first, top, last }: Placed): readonly XmlElement[] {
  if (touch !== 'legato') return [];
  const slur = (type: string, number: string): XmlElement => newElement('slur', '', { type, number });
  return [...(first ? [slur('start', '1')] : []), ...(top ? [slur('stop', '1'), slur('start', '2')] : []), ...(last ? [slur('stop', '2')] : [])];
}

/** Step, alteration, octave. */
function pitched({ step, alter, octave }: Pitch): readonly XmlElement[] {
  return [newElement('pitch', [newElement('step', step), ...(alter === 0 ? [] : [newElement('alter', String(alter))]), newElement('octave', String(octave))])];
}

/** The sign to print: where the pitch differs from the key and from what came before it in the bar. */
function accidental(plan: ScalePlan, { step, octave, alter }: Pitch, { inForce }: Line): readonly XmlElement[] {
  const place = `${step}${octave}`;
  if ((inForce.get(place) ?? alterInKey(step, scaleFifths(plan))) === alter) return [];
  inForce.set(place, alter);
  return [newElement('accidental', ACCIDENTALS.get(alter) ?? 'natural')];
}
