import { measured, notMeasured, word, type Language, type Measured, type TradeWordName } from '../base/index.js';
import type { Measures } from '../measure/index.js';
import type { Score, TimeSignature } from '../score/index.js';

/** The beat that a tempo is counted in. */
export interface BeatUnit {
  readonly name: TradeWordName;
  /** Length in crotchets. */
  readonly crotchets: number;
}

/** Tempo of a whole recording beside its marking, both in `unit`s a minute. */
export interface TempoFound {
  readonly unit: BeatUnit;
  readonly played: Measured<number>;
  /** From the score's first printed figure; null where there is none. */
  readonly marked: number | null;
  /** The printed words where no figure is printed: "Andantino". Empty where there are none. */
  readonly words: string;
}

const CROTCHET: BeatUnit = { name: 'crotchet', crotchets: 1 };

/** Beats by the lower figure of a simple time signature. */
const SIMPLE: Readonly<Record<number, BeatUnit>> = {
  1: { name: 'semibreve', crotchets: 4 },
  2: { name: 'minim', crotchets: 2 },
  4: CROTCHET,
  8: { name: 'quaver', crotchets: 0.5 },
};

/** Beats of compound time (6, 9, 12 over …): three of the lower figure. */
const COMPOUND: Readonly<Record<number, BeatUnit>> = {
  4: { name: 'dottedMinim', crotchets: 3 },
  8: { name: 'dottedCrotchet', crotchets: 1.5 },
  16: { name: 'dottedQuaver', crotchets: 0.75 },
};

/** The beat of a time signature, by the common rule for simple and compound time. */
export function beatUnit(time: TimeSignature | undefined): BeatUnit {
  if (time === undefined) return CROTCHET;
  const compound = time.beats > 3 && time.beats % 3 === 0;
  return (compound ? COMPOUND[time.beatType] : SIMPLE[time.beatType]) ?? CROTCHET;
}

/** The middle tempo of all bars that could be measured, and the marking. */
export function tempoOf(score: Score, measures: Measures): TempoFound {
  const unit = beatUnit(score.bars.find((bar) => !bar.implicit)?.time);
  const tempos = measures.bars.flatMap((bar) => (bar.tempo.measured ? [bar.tempo.value] : [])).sort((a, b) => a - b);
  const middle = tempos[Math.floor(tempos.length / 2)];
  const marks = score.directions.filter((direction) => direction.kind === 'tempo');
  const mark = marks.find(({ value, text }) => value !== null && PRINTED_FIGURE.test(text));
  return {
    unit,
    played: middle === undefined ? notMeasured('no bar had enough notes') : measured(middle / unit.crotchets),
    marked: mark === undefined || mark.value === null ? null : mark.value / unit.crotchets,
    words: marks.find(({ barIndex, text }) => barIndex === 0 && text !== '')?.text ?? '',
  };
}

/** A file may set a speed for playing back that no edition prints: only a figure that can be read is a marking. */
const PRINTED_FIGURE = /\d/;

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
