import { measured, notMeasured, word, type Language, type Measured } from '../base/index.js';
import type { Measures, TempoSpan } from '../measure/index.js';
import { tempoMarkOf, type Score, type TempoMark } from '../score/index.js';

/** Tempo of a whole recording beside its marking. */
export interface TempoFound extends TempoMark {
  /** `unit`s a minute. */
  readonly played: Measured<number>;
}

/**
 * The tempo under the first marking, as remarks on it have it, and the marking; where nothing was played under it, the middle tempo of
 * all bars that could be measured.
 */
export function tempoOf(score: Score, measures: Measures): TempoFound {
  const mark = tempoMarkOf(score);
  const under = measures.pulse.spans.filter((span) => span.mark?.barIndex === 0).reduce<TempoSpan | null>((longest, span) => (longest === null || barsOf(span) > barsOf(longest) ? span : longest), null);
  if (under?.played.measured === true) return { ...mark, played: measured(under.played.value / mark.unit.crotchets) };
  const tempos = measures.bars.flatMap((bar) => (bar.tempo.measured ? [bar.tempo.value] : [])).sort((a, b) => a - b);
  const middle = tempos[Math.floor(tempos.length / 2)];
  return { ...mark, played: middle === undefined ? notMeasured('no bar had enough notes') : measured(middle / mark.unit.crotchets) };
}

/** Bars of a span. */
function barsOf({ fromVisit, toVisit }: TempoSpan): number {
  return toVisit - fromVisit + 1;
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
