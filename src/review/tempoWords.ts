import { measured, notMeasured, word, type Language, type Measured, type TradeWordName } from '../base/index.js';
import type { Measures } from '../measure/index.js';
import type { Score, TimeSignature } from '../score/index.js';

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

/** Tempo of a whole recording beside its marking. */
export interface TempoFound extends TempoMark {
  /** `unit`s a minute. */
  readonly played: Measured<number>;
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

/** The middle tempo of all bars that could be measured, and the marking. */
export function tempoOf(score: Score, measures: Measures): TempoFound {
  const mark = tempoMarkOf(score);
  const tempos = measures.bars.flatMap((bar) => (bar.tempo.measured ? [bar.tempo.value] : [])).sort((a, b) => a - b);
  const middle = tempos[Math.floor(tempos.length / 2)];
  return { ...mark, played: middle === undefined ? notMeasured('no bar had enough notes') : measured(middle / mark.unit.crotchets) };
}

/**
 * What a score prints about its tempo. A file may also set a speed for playing back that no edition prints: only a
 * figure that can be read is a marking.
 */
export function tempoMarkOf(score: Score): TempoMark {
  const marks = score.directions.filter((direction) => direction.kind === 'tempo');
  const mark = marks.find(({ value, text }) => value !== null && PRINTED_FIGURE.test(text));
  const unit = unitOfMark(mark?.text ?? '') ?? beatUnit(score.bars.find((bar) => !bar.implicit)?.time);
  const first = marks.find(({ barIndex, text }) => barIndex === 0 && text !== '')?.text ?? '';
  return { unit, marked: mark === undefined || mark.value === null ? null : mark.value / unit.crotchets, words: first.replace(FIGURE_AT_END, '').trim() };
}

/** Some figure. */
const PRINTED_FIGURE = /\d/;

/** The metronome mark behind the words. */
const FIGURE_AT_END = /\S*\s*=\s*\S+\s*$/;

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

/** "about crotchet = 72, marked 96"; "about crotchet = 72, marked Andantino". */
export function tempoInWords(tempo: TempoFound, language: Language = 'british'): string {
  if (!tempo.played.measured) return `tempo not measured, because ${tempo.played.reason}`;
  const unit = word(tempo.unit.name, language);
  return `about ${unit} = ${Math.round(tempo.played.value)}, ${markingInWords(tempo)}`;
}

/** The figure, else the words, else that there is neither. */
function markingInWords({ marked, words }: TempoFound): string {
  if (marked !== null) return `marked ${Math.round(marked)}`;
  return words === '' ? 'no tempo marked' : `marked ${words}`;
}

/**
 * Within a tenth of the marking is as marked; below three quarters the character changes (common
 * practice).
 */
const AS_MARKED = 0.1;
const CHARACTER_CHANGES_BELOW = 0.75;

/** "slow", "a little slow", "as marked", "fast"; empty where nothing is marked or measured. */
export function paceInWords(tempo: TempoFound): string {
  if (!tempo.played.measured || tempo.marked === null) return '';
  const ratio = tempo.played.value / tempo.marked;
  if (ratio < CHARACTER_CHANGES_BELOW) return 'slow';
  if (ratio < 1 - AS_MARKED) return 'a little slow';
  return ratio <= 1 + AS_MARKED ? 'at the marked tempo' : 'faster than marked';
}
