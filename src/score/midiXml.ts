/**
 * A picture of a MIDI score: MusicXML that an engraver can draw. It holds what was read and nothing more; beams, slurs
 * and voices in the musical sense are not guessed.
 */
import { MIDI_GRID } from './midiBars.js';
import { piecesInBar, spreadVoices, type ChordPiece, type VoiceChord } from './midiVoices.js';
import { printedValues, type NoteValue } from './noteValues.js';
import { alterInKey } from './spelling.js';
import type { Bar, Pitch, ScoreNote } from './types.js';
import { newElement, writeXml } from './writeXml.js';
import type { XmlElement } from './xmlTree.js';

/** Printed accidentals by alteration. */
const ACCIDENTALS: ReadonlyMap<number, string> = new Map([
  [-2, 'flat-flat'],
  [-1, 'flat'],
  [0, 'natural'],
  [1, 'sharp'],
  [2, 'double-sharp'],
]);

/** Where a chord goes: its stave, its voice, and the accidentals already in force in this bar and stave. */
interface Line {
  readonly staff: number;
  readonly voice: string;
  readonly inForce: Map<string, number>;
  readonly bar: Bar;
}

/**
 * A score made from a MIDI file as MusicXML on two staves, so that it can be engraved. Every note carries its id;
 * pieces tied to it carry none.
 */
export function midiAsXml(bars: readonly Bar[], notes: readonly ScoreNote[]): string {
  const staves = [1, 2].map((staff) => spreadVoices(notes.filter((note) => note.staff === staff)));
  const measures = bars.map((bar, i) =>
    newElement('measure', [...attributesOf(bar, bars[i - 1]), ...musicOf(bar, staves)], { number: bar.number }),
  );
  const list = newElement('part-list', [newElement('score-part', [newElement('part-name', 'Piano')], { id: 'P1' })]);
  return writeXml(newElement('score-partwise', [list, newElement('part', measures, { id: 'P1' })], { version: '4.0' }));
}

/** Divisions, clefs and signatures: all at the beginning, later only what changes. */
function attributesOf(bar: Bar, before: Bar | undefined): readonly XmlElement[] {
  const { key, time } = bar;
  const newKey = before?.key.fifths !== key.fifths ? [newElement('key', [newElement('fifths', String(key.fifths))])] : [];
  const sameTime = before?.time.beats === time.beats && before.time.beatType === time.beatType;
  const newTime = sameTime
    ? []
    : [newElement('time', [newElement('beats', String(time.beats)), newElement('beat-type', String(time.beatType))])];
  const first = before === undefined;
  const clef = (number: string, sign: string, line: string): XmlElement =>
    newElement('clef', [newElement('sign', sign), newElement('line', line)], { number });
  const content = [
    ...(first ? [newElement('divisions', String(MIDI_GRID))] : []),
    ...newKey,
    ...newTime,
    ...(first ? [newElement('staves', '2'), clef('1', 'G', '2'), clef('2', 'F', '4')] : []),
  ];
  return content.length === 0 ? [] : [newElement('attributes', content)];
}

/** Both staves, voice by voice; an empty stave gets the rest of a whole bar. */
function musicOf(bar: Bar, staves: readonly (readonly (readonly VoiceChord[])[])[]): readonly XmlElement[] {
  const lines = staves.flatMap((voices, s) => {
    const inForce = new Map<string, number>();
    const used = voices
      .map((voice, v) => ({ line: { staff: s + 1, voice: String(4 * s + v + 1), inForce, bar }, pieces: piecesInBar(voice, bar) }))
      .filter((entry) => entry.pieces.length > 0);
    return used.length > 0 ? used : [{ line: { staff: s + 1, voice: String(4 * s + 1), inForce, bar }, pieces: [] }];
  });
  const back = newElement('backup', [newElement('duration', String(bar.lengthTicks))]);
  return lines.flatMap(({ line, pieces }, i) => [...(i === 0 ? [] : [back]), ...voiceOf(line, pieces)]);
}

/** One voice through one bar, gaps filled with rests. */
function voiceOf(line: Line, pieces: readonly ChordPiece[]): readonly XmlElement[] {
  const { bar } = line;
  if (pieces.length === 0) return [restOf(line, bar.lengthTicks, null)];
  const elements: XmlElement[] = [];
  let reached = bar.startTick;
  for (const piece of pieces) {
    elements.push(...restsOf(line, piece.onsetTick - reached), ...chordOf(line, piece));
    reached = piece.endTick;
  }
  return [...elements, ...restsOf(line, bar.startTick + bar.lengthTicks - reached)];
}

/** Rests for a gap, as few printed values as it takes; none for no gap. */
function restsOf(line: Line, ticks: number): readonly XmlElement[] {
  return printedValues(ticks).map((value) => restOf(line, value.ticks, value));
}

/** A rest; without a printed value, the rest of a whole bar. */
function restOf(line: Line, ticks: number, value: NoteValue | null): XmlElement {
  const rest = value === null ? newElement('rest', '', { measure: 'yes' }) : newElement('rest');
  return newElement('note', [
    rest,
    newElement('duration', String(ticks)),
    newElement('voice', line.voice),
    ...(value === null ? [] : printed(value)),
    newElement('staff', String(line.staff)),
  ]);
}

/** A chord as tied printed values. */
function chordOf(line: Line, piece: ChordPiece): readonly XmlElement[] {
  const values = printedValues(piece.endTick - piece.onsetTick);
  return values.flatMap((value, v) =>
    piece.notes.map((note, n) =>
      noteOf(line, note, {
        value,
        inChord: n > 0,
        stop: piece.tiedIn || v > 0,
        start: piece.tiedOut || v < values.length - 1,
      }),
    ),
  );
}

/** One note-head with its ties. */
function noteOf(
  line: Line,
  note: ScoreNote,
  at: { readonly value: NoteValue; readonly inChord: boolean; readonly stop: boolean; readonly start: boolean },
): XmlElement {
  const edges = [...(at.stop ? ['stop'] : []), ...(at.start ? ['start'] : [])];
  const { step, alter, octave } = note.pitch;
  const content = [
    ...(at.inChord ? [newElement('chord')] : []),
    newElement('pitch', [
      newElement('step', step),
      ...(alter === 0 ? [] : [newElement('alter', String(alter))]),
      newElement('octave', String(octave)),
    ]),
    newElement('duration', String(at.value.ticks)),
    ...edges.map((type) => newElement('tie', '', { type })),
    newElement('voice', line.voice),
    ...printed(at.value, at.stop ? null : accidentalOf(line, note.pitch)),
    newElement('staff', String(line.staff)),
    ...(edges.length === 0
      ? []
      : [
          newElement(
            'notations',
            edges.map((type) => newElement('tied', '', { type })),
          ),
        ]),
  ];
  return newElement('note', content, at.stop ? {} : { id: note.id });
}

/** Type, dot, accidental and tuplet ratio, in the order that the standard asks for. */
function printed(value: NoteValue, accidental: string | null = null): readonly XmlElement[] {
  const ratio = [newElement('actual-notes', '3'), newElement('normal-notes', '2')];
  return [
    newElement('type', value.type),
    ...(value.dots === 1 ? [newElement('dot')] : []),
    ...(accidental === null ? [] : [newElement('accidental', accidental)]),
    ...(value.triplet ? [newElement('time-modification', ratio)] : []),
  ];
}

/** The accidental to print: where the pitch differs from the key and from what came before it in the bar. */
function accidentalOf(line: Line, pitch: Pitch): string | null {
  const place = `${pitch.step}${pitch.octave}`;
  const before = line.inForce.get(place) ?? alterInKey(pitch.step, line.bar.key.fifths);
  if (before === pitch.alter) return null;
  line.inForce.set(place, pitch.alter);
  return ACCIDENTALS.get(pitch.alter) ?? null;
}
