/** Bars as they are spoken in a sentence, British or American. */
import { listInWords, word, type Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import type { BarSpan } from './teachingNotesTypes.js';

/** Editors number the second half of a split bar "X1", "X2" …: a number for machines. */
const NUMBER_FOR_MACHINES = /^X\d*$/i;

/** More stretches than this in one sentence are not read but skipped. */
const MOST_STRETCHES = 6;

/** True for the unnumbered beginning of a piece. */
export function isUpbeat(score: Pick<Score, 'bars'>, barIndex: number): boolean {
  const bar = score.bars[barIndex];
  return barIndex === 0 && bar !== undefined && score.bars.length > 1 && (bar.number === '0' || (bar.implicit && bar.lengthTicks < bar.nominalTicks));
}

/** "12"; for a bar without a number of its own the nearest number before. */
export function barNumber(score: Pick<Score, 'bars'>, barIndex: number): string {
  for (let i = Math.min(barIndex, score.bars.length - 1); i >= 0; i--) {
    const number = score.bars[i]?.number ?? '';
    if (!NUMBER_FOR_MACHINES.test(number) && number !== '') return number;
  }
  return '?';
}

/** "bar 7", "bars 5–8", "the upbeat". */
export function barsInWords(score: Pick<Score, 'bars'>, { fromBar, toBar }: BarSpan, language: Language): string {
  if (isUpbeat(score, fromBar)) return fromBar === toBar ? `the ${word('upbeat', language)}` : `the ${word('upbeat', language)} to ${word('bar', language)} ${barNumber(score, toBar)}`;
  const [first, last] = [barNumber(score, fromBar), barNumber(score, toBar)];
  return first === last ? `${word('bar', language)} ${first}` : `${word('bars', language)} ${first}–${last}`;
}

/** "5–8" without the word. */
export function numbersInWords(score: Pick<Score, 'bars'>, { fromBar, toBar }: BarSpan): string {
  const [first, last] = [barNumber(score, fromBar), barNumber(score, toBar)];
  return first === last ? first : `${first}–${last}`;
}

/** Single bars as stretches, neighbours joined; ascending, each bar once. */
export function spansOf(bars: readonly number[]): readonly BarSpan[] {
  const spans: BarSpan[] = [];
  for (const bar of [...new Set(bars)].sort((a, b) => a - b)) {
    const last = spans[spans.length - 1];
    if (last !== undefined && bar === last.toBar + 1) spans[spans.length - 1] = { ...last, toBar: bar };
    else spans.push({ fromBar: bar, toBar: bar });
  }
  return spans;
}

/** "bars 4, 8 and 15–16", "the upbeat and bars 2–7"; after six stretches "and later". */
export function spansInWords(score: Pick<Score, 'bars'>, spans: readonly BarSpan[], language: Language): string {
  const [first, ...rest] = spans;
  if (first === undefined) return '';
  if (rest.length === 0) return barsInWords(score, first, language);
  if (!isUpbeat(score, first.fromBar)) return listedBars(score, spans, language);
  if (first.fromBar === first.toBar) return `the ${word('upbeat', language)} and ${spansInWords(score, rest, language)}`;
  return listedBars(score, [{ ...first, fromBar: first.fromBar + 1 }, ...rest], language);
}

/** "bars 1–2, 6 and 8". */
function listedBars(score: Pick<Score, 'bars'>, spans: readonly BarSpan[], language: Language): string {
  const named = spans.slice(0, MOST_STRETCHES).map((span) => numbersInWords(score, span));
  return `${word('bars', language)} ${spans.length > MOST_STRETCHES ? `${named.join(', ')} and later` : listInWords(named)}`;
}

/** How many bars count: upbeats and second halves of split bars do not. */
export function countedBars(score: Pick<Score, 'bars'>, { fromBar, toBar }: BarSpan): number {
  return score.bars.slice(fromBar, toBar + 1).filter((bar) => !bar.implicit && !isUpbeat(score, bar.index)).length;
}
