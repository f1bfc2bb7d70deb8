/*
 * The teacher's question: what do the score's words ask of the pedals, and what did the feet do there?
 *
 * Conventions: seconds; one entry for each bar that such words hold for and each time it was gone through, in order of time.
 * Method: words hold until others of their pedal come. The sustain pedal is "con pedale" and the like; the soft pedal "una corda" until "tre
 *   corde", from where on it should be up. What was down from before does not count (footOver.ts).
 * Source: the words as they are used; common practice, no source.
 * What it does not tell: whether an instrument has a soft pedal at all.
 */
import { wordedStretches } from '../analysis/index.js';
import type { Score } from '../score/index.js';
import { footOver, type WrittenStretch } from './footOver.js';
import { downShare } from './pedalHabits.js';
import type { WordedBar } from './pedalTypes.js';
import type { Piece } from './piece.js';
import { downTimes, PEDAL_HOLDS } from './soundEnds.js';

/** Words that put the soft pedal down, and words that lift it. */
const SOFT_WORDS = /\b(una corda|1 corda|u\.\s?c\.|due corde|mit verschiebung|petite p[eé]dale|avec sourdine)/i;
const FULL_WORDS = /\b(tre corde|3 corde|tutte (le )?corde|t\.\s?c\.|ohne verschiebung)/i;

/** Words over one bar. */
interface Worded extends WrittenStretch, Pick<WordedBar, 'asks' | 'text' | 'sinceTick'> {}

/** All bars of a recording that stand under such words. */
export function pedalWords(piece: Piece): readonly WordedBar[] {
  const { score, recording } = piece;
  const worded = [...wordedStretches(score).flatMap(({ asks, ...one }) => (asks === 'pedal' ? [{ ...one, asks }] : [])), ...softStretches(score)];
  const soft = downTimes(recording.soft, PEDAL_HOLDS, recording.durationS);
  return (['pedal', 'soft', 'full'] as const).flatMap((asks) => {
    const bars = worded.filter((one) => one.asks === asks).flatMap((one) => barsOf(score, one));
    return footOver(piece, bars).map(({ entry, stretch, visitIndex, fromS, toS, depth }) => ({
      asks, text: entry.text, sinceTick: entry.sinceTick, stretch, visitIndex, fromS, toS, depth, softShare: downShare(soft, { fromS, toS }),
    }));
  });
}

/** What the words ask of the soft pedal; nothing before the first of them. */
function softStretches(score: Score): readonly (WrittenStretch & Pick<WordedBar, 'asks' | 'text'>)[] {
  const last = score.bars.at(-1);
  const marks = score.directions.flatMap(({ kind, text, onsetTick }) => {
    if (kind !== 'words' && kind !== 'tempo' && kind !== 'dynamics') return [];
    const asks = FULL_WORDS.test(text) ? ('full' as const) : SOFT_WORDS.test(text) ? ('soft' as const) : null;
    return asks === null ? [] : [{ fromTick: onsetTick, asks, text }];
  }).sort((a, b) => a.fromTick - b.fromTick);
  return marks.map((mark, i) => ({ ...mark, toTick: marks[i + 1]?.fromTick ?? (last === undefined ? 0 : last.startTick + last.lengthTicks) }));
}

/** A stretch cut at the bar lines. */
function barsOf({ bars }: Score, { fromTick, toTick, asks, text }: WrittenStretch & Pick<WordedBar, 'asks' | 'text'>): readonly Worded[] {
  return bars.flatMap(({ startTick, lengthTicks }) => {
    const [from, to] = [Math.max(fromTick, startTick), Math.min(toTick, startTick + lengthTicks)];
    return from < to ? [{ asks, text, sinceTick: fromTick, fromTick: from, toTick: to }] : [];
  });
}
