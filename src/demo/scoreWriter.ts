/** Writes a demo piece as MusicXML 4.0, score-partwise: one part on two staves, an id on every note and rest. */
import { beatLength, crotchetsPerMinute, type Mark, type Piece, type WrittenBar } from './piece.js';
import { accidentalMemory, copyHand, MIDDLE_LINE, type AccidentalMemory, type Copy } from './engravingRules.js';
import { DIVISIONS, filled, parseHand, type WrittenEvent } from './notation.js';
import { directionElements, tempoDirection } from './scoreDirections.js';
import { noteElements } from './scoreNotes.js';
import { element, leaf } from './xml.js';

/** Said in every demo score, on the page and in its data. */
export const RIGHTS = 'Invented for the Barwise demo room';

const HEAD = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
`;

/** One stave while it is being written. */
interface Stave {
  readonly hand: 'right' | 'left';
  readonly number: 1 | 2;
  readonly middleLine: number;
  readonly accidentals: AccidentalMemory;
}

/** A hand's events of one bar and what the copyist adds. */
interface Line {
  readonly stave: Stave;
  readonly events: readonly WrittenEvent[];
  readonly copies: readonly Copy[];
  /** Last event of the bar before; none in the first bar. */
  readonly before: WrittenEvent | undefined;
}

/** The whole score file as text. */
export function writeScore(piece: Piece, composer: string): string {
  const staves = [
    { hand: 'right', number: 1, middleLine: MIDDLE_LINE.treble, accidentals: accidentalMemory(piece.fifths) },
    { hand: 'left', number: 2, middleLine: MIDDLE_LINE.bass, accidentals: accidentalMemory(piece.fifths) },
  ] as const;
  const measures = piece.bars.map((bar, index) => measure(piece, { bar, index }, staves));
  return `${HEAD}${element('score-partwise', { version: '4.0' }, [
    element('work', {}, [leaf('work-title', piece.title)]),
    element('identification', {}, [element('creator', { type: 'composer' }, composer), leaf('rights', RIGHTS)]),
    element('credit', { page: 1 }, [leaf('credit-type', 'rights'), leaf('credit-words', RIGHTS)]),
    element('part-list', {}, [element('score-part', { id: 'P1' }, [leaf('part-name', 'Piano')])]),
    element('part', { id: 'P1' }, measures),
  ])}\n`;
}

/** One bar: upper stave, back, lower stave, each with the marks that belong to it. */
function measure(piece: Piece, place: { bar: WrittenBar; index: number }, staves: readonly Stave[]): string {
  const { bar, index } = place;
  const lines = staves.map((stave) => lineOf(piece, place, stave));
  const [right, left] = lines;
  if (!right || !left) throw new RangeError('a demo piece has two staves');
  const printed = bar.marks.filter((mark) => mark.kind !== 'pedal' || mark.only !== 'foot');
  const upper = printed.filter((mark) => !isBelow(mark));
  const lower = printed.filter(isBelow);
  for (const stave of staves) stave.accidentals.barLine();
  return element('measure', { number: bar.number, implicit: bar.number === '0' ? 'yes' : undefined }, [
    ...(index === 0 ? [attributes(piece), tempoDirection(piece.tempoWord, metronome(piece), crotchetsPerMinute(piece))] : []),
    ...leftClef(bar, piece.bars[index - 1]),
    ...leftBarline(bar),
    ...written(bar, right, upper),
    element('backup', {}, [leaf('duration', filled(right.events))]),
    ...written(bar, left, lower),
    ...rightBarline(bar, index === piece.bars.length - 1),
  ]);
}

/** Whether a mark stands under the lower stave. */
function isBelow(mark: Mark): boolean {
  return mark.kind === 'pedal' || (mark.kind === 'words' && mark.place === 'below');
}

/** Reads a hand's text and lets the copyist look over it. */
function lineOf(piece: Piece, { bar, index }: { bar: WrittenBar; index: number }, stave: Stave): Line {
  const before = piece.bars[index - 1];
  const events = parseHand(bar[stave.hand]);
  const last = before ? parseHand(before[stave.hand]).at(-1) : undefined;
  const middleLine = stave.hand === 'left' && bar.crossing === true ? MIDDLE_LINE.treble : stave.middleLine;
  return { stave, events, copies: copyHand(events, beatLength(piece), middleLine), before: last };
}

/** One stave's bar: each mark stands before the event in which it falls. */
function written(bar: WrittenBar, line: Line, marks: readonly Mark[]): readonly string[] {
  const { stave, events, copies } = line;
  return events.flatMap((event, i) => [
    ...marks.filter((mark) => event.at <= mark.at && mark.at < event.at + event.length)
      .flatMap((mark) => directionElements(mark, mark.at - event.at, stave.number)),
    ...noteElements({ event, copy: copies[i], hand: stave.hand, staff: stave.number, bar: bar.number, place: i, tiedFrom: tiedFrom(events[i - 1] ?? line.before) }, stave.accidentals),
  ]);
}

/** MIDI numbers that are tied on from an event. */
function tiedFrom(event: WrittenEvent | undefined): readonly number[] {
  return event?.pitches.filter((pitch) => pitch.tied).map((pitch) => pitch.midi) ?? [];
}

/** Divisions, key, time, staves and clefs: they stand in the first bar only. */
function attributes(piece: Piece): string {
  return element('attributes', {}, [
    leaf('divisions', DIVISIONS),
    element('key', {}, [leaf('fifths', piece.fifths), leaf('mode', piece.mode)]),
    element('time', {}, [leaf('beats', piece.beats), leaf('beat-type', piece.beatType)]),
    leaf('staves', 2),
    clef(1, 'treble'),
    clef(2, 'bass'),
  ]);
}

/** The lower stave's clef where the left hand goes over the right one or comes back from there. */
function leftClef(bar: WrittenBar, before: WrittenBar | undefined): readonly string[] {
  if (!before || (bar.crossing ?? false) === (before.crossing ?? false)) return [];
  return [element('attributes', {}, [clef(2, bar.crossing === true ? 'treble' : 'bass')])];
}

/** The clef of a stave. */
function clef(stave: number, kind: 'treble' | 'bass'): string {
  const [sign, line] = kind === 'treble' ? ['G', 2] as const : ['F', 4] as const;
  return element('clef', { number: stave }, [leaf('sign', sign), leaf('line', line)]);
}

/** The metronome mark as printed. */
function metronome(piece: Piece): string {
  const dot = piece.beatUnit === 'quarter' ? [] : [element('beat-unit-dot', {})];
  return element('metronome', {}, [leaf('beat-unit', 'quarter'), ...dot, leaf('per-minute', piece.perMinute)]);
}

/** A repeat's start, an ending's start, or nothing. */
function leftBarline(bar: WrittenBar): readonly string[] {
  const parts = [
    ...(bar.repeat === 'forward' ? [leaf('bar-style', 'heavy-light')] : []),
    ...(bar.ending ? [element('ending', { number: bar.ending, type: 'start' })] : []),
    ...(bar.repeat === 'forward' ? [element('repeat', { direction: 'forward' })] : []),
  ];
  return parts.length ? [element('barline', { location: 'left' }, parts)] : [];
}

/** A repeat's end, an ending's end, the final bar line, or nothing. */
function rightBarline(bar: WrittenBar, last: boolean): readonly string[] {
  const parts = [
    ...(last || bar.repeat === 'backward' ? [leaf('bar-style', 'light-heavy')] : []),
    ...(bar.ending ? [element('ending', { number: bar.ending, type: bar.ending === 1 ? 'stop' : 'discontinue' })] : []),
    ...(bar.repeat === 'backward' ? [element('repeat', { direction: 'backward' })] : []),
  ];
  return parts.length ? [element('barline', { location: 'right' }, parts)] : [];
}
