/** A comparison as it goes out as JSON, and in words for a terminal. */
import { fourDecimals, listInWords, sentenceCase } from '../base/index.js';
import type { Aspect } from '../judge/index.js';
import type { Score } from '../score/index.js';
import type { Comparison, Direction } from './types.js';

/** First and last printed bar number. */
type Bars = readonly [first: string, last: string];

/** What `compare --json` says. */
export interface ComparisonReport {
  readonly format: 'barwise-comparison/1';
  readonly changes: readonly {
    readonly aspect: Aspect; readonly kind: string; readonly direction: Direction; readonly hand: 'right' | 'left' | 'both'; readonly bars: Bars; readonly pass: number;
    readonly weight: number; readonly text: string; readonly places: readonly { readonly bars: Bars; readonly pass: number; readonly attempt: number }[];
  }[];
  readonly unchanged: readonly Aspect[];
  readonly notCompared: readonly string[];
}

/** The report of a comparison. */
export function comparisonReport(score: Score, { changes, unchanged, notCompared }: Comparison): ComparisonReport {
  const numberOf = (barIndex: number): string => score.bars[barIndex]?.number ?? '';
  return {
    format: 'barwise-comparison/1',
    changes: changes.map(({ aspect, kind, direction, hand, places, weight, text }) => {
      const named = places.map(({ fromBar, toBar, pass, attempt }) => ({ bars: [numberOf(fromBar), numberOf(toBar)] as const, pass, attempt }));
      return { aspect, kind, direction, hand: hand ?? 'both', bars: named[0]?.bars ?? ['', ''], pass: named[0]?.pass ?? 1, weight: fourDecimals(weight), text, places: named };
    }),
    unchanged,
    notCompared,
  };
}

/** The comparison in sentences: better, worse, no change. */
export function comparisonInWords(title: string, { changes, unchanged, notCompared }: Comparison): string {
  const part = (direction: Direction, heading: string): readonly string[] => {
    const own = changes.filter((change) => change.direction === direction);
    return own.length === 0 ? [] : ['', heading, ...own.map(({ text }) => `  ${text}`)];
  };
  const still = unchanged.length === 0 ? [] : ['', `${sentenceCase(listInWords(unchanged))}: no evidence of a change.`];
  return `${[title, ...part('better', 'Better'), ...part('worse', 'Worse'), ...still, ...(notCompared.length > 0 ? ['', ...notCompared] : [])].join('\n')}\n`;
}
