/** What a score prints about its tempo: figures, words, changes, and the beat that they are counted in. */
import type { TradeWordName } from '../base/index.js';
import { tempoChange, type TempoChange } from './tempoTerms.js';
import type { Direction, Score, TimeSignature } from './types.js';

/** The beat that a tempo is counted in. */
export interface BeatUnit {
  readonly name: TradeWordName;
  /** Length in crotchets. */
  readonly crotchets: number;
}

/** What a score prints about its tempo, at its beginning or at the first figure. */
export interface TempoMark {
  /** The beat of the printed figure, or else of the metre. */
  readonly unit: BeatUnit;
  /** `unit`s a minute; null where no figure is printed. */
  readonly marked: number | null;
  /** The words at the beginning, without the figure: "Andantino". Empty where there are none. */
  readonly words: string;
}

/** One tempo mark at its place. */
export interface PrintedTempo {
  readonly barIndex: number;
  /** Written ticks. */
  readonly tick: number;
  /** Without the figure; empty where only a figure is printed. */
  readonly words: string;
  /** Printed figure, crotchets a minute; null without one. */
  readonly crotchetsAMinute: number | null;
  /** The beat of the figure, or else of the metre there. */
  readonly unit: BeatUnit;
  readonly change: TempoChange | null;
}

const SEMIBREVE: BeatUnit = { name: 'semibreve', crotchets: 4 };
const DOTTED_MINIM: BeatUnit = { name: 'dottedMinim', crotchets: 3 };
const MINIM: BeatUnit = { name: 'minim', crotchets: 2 };
const DOTTED_CROTCHET: BeatUnit = { name: 'dottedCrotchet', crotchets: 1.5 };
const CROTCHET: BeatUnit = { name: 'crotchet', crotchets: 1 };
const DOTTED_QUAVER: BeatUnit = { name: 'dottedQuaver', crotchets: 0.75 };
const QUAVER: BeatUnit = { name: 'quaver', crotchets: 0.5 };

/** Beats by the lower figure of a simple time signature. */
const SIMPLE: Readonly<Record<number, BeatUnit>> = { 1: SEMIBREVE, 2: MINIM, 4: CROTCHET, 8: QUAVER };

/** Beats of compound time (6, 9, 12 over …): three of the lower figure. */
const COMPOUND: Readonly<Record<number, BeatUnit>> = { 4: DOTTED_MINIM, 8: DOTTED_CROTCHET, 16: DOTTED_QUAVER };

/** The beat of a time signature, by the common rule for simple and compound time. */
export function beatUnit(time: TimeSignature | undefined): BeatUnit {
  if (time === undefined) return CROTCHET;
  const compound = time.beats > 3 && time.beats % 3 === 0;
  return (compound ? COMPOUND[time.beatType] : SIMPLE[time.beatType]) ?? CROTCHET;
}

/**
 * What a score prints about its tempo. A file may also set a speed for playing back that no edition prints: only a
 * figure that can be read is a marking.
 */
export function tempoMarkOf(score: Score): TempoMark {
  const marks = score.directions.filter((direction) => direction.kind === 'tempo');
  const mark = marks.find((one) => printedFigure(one) !== null);
  const figure = mark === undefined ? null : printedFigure(mark);
  const unit = unitOfMark(mark?.text ?? '') ?? beatUnit(score.bars.find((bar) => !bar.implicit)?.time);
  const first = marks.find(({ barIndex, text }) => barIndex === 0 && text !== '')?.text ?? '';
  return { unit, marked: figure === null ? null : figure / unit.crotchets, words: wordsOf(first) };
}

/** Every printed mark that sets or changes the tempo, in order of ticks. A speed for playing back alone is none. */
export function printedTempos(score: Score): readonly PrintedTempo[] {
  return score.directions.flatMap((direction): readonly PrintedTempo[] => {
    const { kind, text, barIndex, onsetTick } = direction;
    const change = tempoChange(text);
    if (text === '' || (kind !== 'tempo' && (kind !== 'words' || change === null))) return [];
    return [{
      barIndex, tick: onsetTick, words: wordsOf(text), crotchetsAMinute: kind === 'tempo' ? printedFigure(direction) : null,
      unit: unitOfMark(text) ?? beatUnit(score.bars[barIndex]?.time), change,
    }];
  }).sort((a, b) => a.tick - b.tick);
}

/** Some figure. */
const FIGURE = /\d/;

/** The metronome mark behind the words. */
const FIGURE_AT_END = /\S*\s*=\s*\S+\s*$/;

/** The speed of a mark whose figure can be read on the page, crotchets a minute. */
function printedFigure({ value, text }: Direction): number | null {
  return FIGURE.test(text) ? value : null;
}

/** The words of a mark, its figure left out. */
function wordsOf(text: string): string {
  return text.replace(FIGURE_AT_END, '').trim();
}

/** Note values as a metronome mark in a score file names them (MusicXML 4.0, note-type-value), dot behind. */
const MARK_UNITS: Readonly<Record<string, BeatUnit>> = {
  'whole': SEMIBREVE,
  'half': MINIM,
  'half.': DOTTED_MINIM,
  'quarter': CROTCHET,
  'quarter.': DOTTED_CROTCHET,
  'eighth': QUAVER,
  'eighth.': DOTTED_QUAVER,
};

/** The beat that a printed mark counts in, so that both figures can be compared with the page: "quarter. = 60". */
function unitOfMark(text: string): BeatUnit | undefined {
  return MARK_UNITS[/(?:^|\s)([a-z]+\.?) = \S*\d/.exec(text)?.[1] ?? ''];
}
