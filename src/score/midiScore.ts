/**
 * MIDI files as scores. What a note of such a score cannot know (slurs, signs, spelling, grace notes) has its empty
 * value, and the warnings say so once for all.
 */
import { InputError } from '../base/index.js';
import { checkSounds } from './checks.js';
import { barsOfMidi, MIDI_GRID, onGrid } from './midiBars.js';
import { readMidi, type MidiContent, type MidiNote } from './midiEvents.js';
import { findHands, type HandRule } from './midiHands.js';
import { midiAsXml } from './midiXml.js';
import { soundingNotes } from './occurrences.js';
import { layOrder } from './order.js';
import { barAtTick } from './positions.js';
import { likelySpelling } from './spelling.js';
import type { Bar, Direction, PartInfo, Score, ScoreNote } from './types.js';
import { WarningList } from './warnings.js';

/** Share of notes off the grid from which on a MIDI file counts as played rather than written (inclusive). */
const PLAYED_SHARE = 0.25;

/** How far off the grid, in crotchets, a note is called off (exclusive): half a sixth of the finest step in use. */
const OFF_GRID_QUARTERS = 1 / 96;

/**
 * Reads a MIDI file as a score: bars from its time signatures, notes set on the nearest demisemiquaver or sixth of a
 * crotchet, hands from tracks or channels or by height. What such a score cannot know is said in its warnings.
 * @param wanted id ("track-2") or name of one track to read alone
 * @throws InputError
 */
export function readMidiScore(bytes: Uint8Array, wanted?: string): Score {
  const file = readMidi(bytes);
  const parts = partsOf(file, wanted);
  const content = { ...file, notes: file.notes.filter((note) => parts.some((part) => part.chosen && part.id === trackId(note.track))) };
  const hands = findHands(content);
  const bars = barsOfMidi(content, lastTick(content));
  const notes = placeNotes(content, bars, hands);
  const order = layOrder(
    bars.map((bar) => ({ barIndex: bar.index, pass: 1 })),
    bars,
  );
  const warnings = new WarningList();
  warnOfLimits(content, hands, warnings);
  checkSounds(notes, warnings);
  return {
    source: 'midi',
    title: file.trackNames[0] ?? '',
    composer: '',
    ticksPerQuarter: MIDI_GRID,
    parts,
    staves: 2,
    bars,
    notes,
    rests: [],
    directions: tempoMarks(content, bars),
    order,
    occurrences: soundingNotes({ ticksPerQuarter: MIDI_GRID, bars, notes, order }, warnings),
    warnings: warnings.all(),
    xml: midiAsXml(bars, notes),
  };
}

/** Tracks have no ids of their own; they are counted from 1. */
function trackId(track: number): string {
  return `track-${track + 1}`;
}

/** The tracks with notes; all of them are read unless one is asked for. */
function partsOf(file: MidiContent, wanted: string | undefined): readonly PartInfo[] {
  const key = wanted?.trim().toLowerCase();
  const parts = file.trackNames
    .map((name, track) => ({ id: trackId(track), name, notes: file.notes.filter((note) => note.track === track).length }))
    .filter((part) => part.notes > 0)
    .map((part) => ({ ...part, chosen: key === undefined || part.id === key || part.name.toLowerCase() === key }));
  if (key !== undefined && !parts.some((part) => part.chosen)) {
    throw new InputError(
      'no-such-part',
      `There is no track of that id or name; expected one of: ${parts.map((part) => part.id).join(', ')}.`,
    );
  }
  return parts;
}

/** Last tick of the grid on which anything sounds; 0 without notes. */
function lastTick(content: MidiContent): number {
  const ticks = content.ticksPerQuarter;
  return content.notes.reduce((last, note) => Math.max(last, onGrid(note.onset, ticks) + lengthOf(note, ticks) - 1), 0);
}

/** Notes in order of onset, then pitch; ids tell the place in that order. */
function placeNotes(content: MidiContent, bars: readonly Bar[], hands: HandRule): readonly ScoreNote[] {
  const ticks = content.ticksPerQuarter;
  const sorted = content.notes.toSorted(
    (a, b) => onGrid(a.onset, ticks) - onGrid(b.onset, ticks) || a.pitch - b.pitch || a.track - b.track,
  );
  const heard = new Set<string>();
  return sorted.map((note, index) => {
    const onsetTick = onGrid(note.onset, ticks);
    const { barIndex } = barAtTick({ bars }, onsetTick);
    const staff = hands.staffOf(note);
    const inChord = heard.has(`${onsetTick} ${staff}`);
    heard.add(`${onsetTick} ${staff}`);
    const pitch = likelySpelling(note.pitch, bars[barIndex]?.key.fifths ?? 0);
    return {
      ...PLAIN_NOTE,
      index,
      id: `note-${index + 1}`,
      barIndex,
      onsetTick,
      lengthTicks: lengthOf(note, ticks),
      pitch,
      staff,
      inChord,
    };
  });
}

/** Length on the grid, at least its finest step. */
function lengthOf(note: MidiNote, ticksPerQuarter: number): number {
  const finest = MIDI_GRID / 8;
  return Math.max(finest, onGrid(note.end, ticksPerQuarter) - onGrid(note.onset, ticksPerQuarter));
}

/** Everything that a note of a MIDI file does not tell. */
const PLAIN_NOTE = {
  voice: '1',
  grace: null,
  cue: false,
  tieStart: false,
  tieStop: false,
  letRing: false,
  slurs: [],
  articulations: [],
  ornaments: [],
  arpeggio: null,
  fermata: false,
  type: null,
  dots: 0,
  tuplet: null,
  fingering: [],
  velocity: null,
  hidden: false,
} as const satisfies Partial<ScoreNote>;

/** Tempo events as tempo marks; the same tempo again is none. */
function tempoMarks(content: MidiContent, bars: readonly Bar[]): readonly Direction[] {
  const tempos = content.tempos.toSorted((a, b) => a.tick - b.tick).filter((tempo, i, all) => tempo.value !== all[i - 1]?.value);
  return tempos.map((tempo) => {
    const onsetTick = onGrid(tempo.tick, content.ticksPerQuarter);
    return {
      kind: 'tempo',
      barIndex: barAtTick({ bars }, onsetTick).barIndex,
      onsetTick,
      untilTick: null,
      staff: null,
      text: '',
      value: tempo.value,
    };
  });
}

/** What the teacher should know of this score before trusting it. */
function warnOfLimits(content: MidiContent, hands: HandRule, warnings: WarningList): void {
  warnings.add(
    null,
    'A MIDI file knows no slurs, articulation, ornaments, grace notes, dynamics, pedal marks, repeats or spelling; what hangs on these is not judged',
  );
  warnings.add(null, `Notes are set on the nearest demisemiquaver or sixth of a crotchet; ${hands.text}`);
  if (content.times.length === 0) warnings.add(null, 'This MIDI file names no time signature; 4/4 is taken, so bar lines may be wrong');
  if (content.hanging > 0) warnings.add(null, 'Some notes of this MIDI file never end; they are held to the end of their track');
  const off = content.notes.filter(
    (note) => Math.abs(note.onset / content.ticksPerQuarter - onGrid(note.onset, content.ticksPerQuarter) / MIDI_GRID) > OFF_GRID_QUARTERS,
  );
  if (content.notes.length > 0 && off.length >= PLAYED_SHARE * content.notes.length) {
    warnings.add(
      null,
      'This MIDI file looks played rather than written: many notes stand between the beats, so bars and rhythms are a guess',
    );
  }
}
