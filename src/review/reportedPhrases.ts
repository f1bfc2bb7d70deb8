/** Phrases, endings and echoes as they go out as JSON: printed bar numbers, ids of the score file, velocity units to a tenth. */
import { fourDecimals, measured, type Measured } from '../base/index.js';
import type { EndingLevel, LevelFacts } from '../measure/index.js';
import type { Score } from '../score/index.js';

/** First and last printed bar number, and the pass of the first. */
interface Where {
  readonly bars: readonly [first: string, last: string];
  readonly pass: number;
  readonly start: number;
}

/** A phrase of the tune, as it was played. */
interface ReportedPhrase extends Where {
  readonly hand: 'right' | 'left';
  readonly level: number;
  readonly quarters: Measured<readonly number[]>;
}

/** The last note of a phrase or a slur. */
interface ReportedEnding extends Where {
  readonly of: EndingLevel['of'];
  readonly hand: 'right' | 'left';
  readonly note: string;
  readonly overLast: number;
  readonly overLoudest: number;
}

/** What is played twice over. */
interface ReportedEcho extends Where {
  readonly over: number;
}

/** The tune of a recording in phrases. */
export interface ReportedPhrases {
  readonly phrases: readonly ReportedPhrase[];
  readonly endings: readonly ReportedEnding[];
  readonly echoes: readonly ReportedEcho[];
}

/** Phrases of a recording; not measured where levels are not. */
export function reportedPhrases(score: Score, levels: Measured<LevelFacts>): Measured<ReportedPhrases> {
  if (!levels.measured) return levels;
  const { phrases, endings, echoes } = levels.value.phrases;
  const where = (fromVisit: number, toVisit: number, startS: number): Where => ({ bars: [barOf(score, fromVisit), barOf(score, toVisit)], pass: score.order[fromVisit]?.pass ?? 1, start: fourDecimals(startS) });
  return measured({
    phrases: phrases.map(({ hand, fromVisit, toVisit, startS, level, quarters }) => ({
      ...where(fromVisit, toVisit, startS), hand, level: toTenths(level), quarters: quarters.measured ? measured(quarters.value.map(toTenths)) : quarters,
    })),
    endings: endings.map(({ of, hand, visitIndex, noteIndex, startS, overLast, overLoudest }) => ({ ...where(visitIndex, visitIndex, startS), of, hand, note: score.notes[noteIndex]?.id ?? '', overLast, overLoudest })),
    echoes: echoes.map(({ fromVisit, toVisit, startS, over }) => ({ ...where(fromVisit, toVisit, startS), over: toTenths(over) })),
  });
}

/** Printed number of a visited bar. */
function barOf(score: Score, visit: number): string {
  return score.bars[score.order[visit]?.barIndex ?? -1]?.number ?? '';
}

/** One decimal. */
export function toTenths(value: number): number {
  return Math.round(value * 10) / 10;
}
