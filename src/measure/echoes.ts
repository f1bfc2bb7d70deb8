/*
 * The teacher's question: what is played twice over, was it softer (or louder) the second time?
 *
 * Conventions: velocity units as struck, louder positive; unfolded visits; one entry a repetition, in order of time.
 * Method: bars of the playing order whose tune has the same pitches at the same places as the one, two or four bars before them; the longest such
 *   stretch counts, and its bars are not looked at again.
 * Source: an echo is softer (common practice, no source); the lengths are our own rule.
 * What it does not tell: sequences and echoes that are varied, or an octave away.
 */
import type { Score } from '../score/index.js';
import { groupBy } from '../base/index.js';
import type { EchoLevel } from './phraseTypes.js';
import { meanOf, type Struck } from './struck.js';

/** Lengths that are compared, bars, the longest first. */
const LENGTHS = [4, 2, 1] as const;

/** Fewest notes (>=) of the tune that make a repetition. */
const LEAST_NOTES = 4;

/** Every repetition in a tune; `tune` is in order of stretch and time. */
export function echoLevels(score: Score, tune: readonly Struck[]): readonly EchoLevel[] {
  return [...groupBy(tune, ({ stretch }) => stretch)].flatMap(([stretch, notes]) => {
    const bars = groupBy(notes, ({ visitIndex }) => visitIndex);
    const visits = [...bars.keys()];
    const [first = 0, last = -1] = [visits[0], visits.at(-1)];
    const echoes: EchoLevel[] = [];
    for (let at = first; at <= last; at += 1) {
      const length = LENGTHS.find((count) => repeats(score, bars, { at, count }));
      if (length === undefined) continue;
      const [then, now] = [between(bars, at - length, length), between(bars, at, length)];
      echoes.push({ stretch, fromVisit: at, toVisit: at + length - 1, startS: now[0]?.onsetS ?? 0, over: levelOf(now) - levelOf(then) });
      at += length - 1;
    }
    return echoes;
  });
}

/** Notes of some bars from a visit on. */
function between(bars: ReadonlyMap<number, readonly Struck[]>, from: number, count: number): readonly Struck[] {
  return Array.from({ length: count }, (_, i) => bars.get(from + i) ?? []).flat();
}

/** True where so many bars repeat as many before them. */
function repeats({ order }: Score, bars: ReadonlyMap<number, readonly Struck[]>, { at, count }: { readonly at: number; readonly count: number }): boolean {
  const [then, now] = [between(bars, at - count, count), between(bars, at, count)];
  const shift = (order[at]?.startTick ?? 0) - (order[at - count]?.startTick ?? Infinity);
  return now.length >= LEAST_NOTES && then.length === now.length && bars.has(at + count - 1) && now.every(({ midi, tick }, i) => then[i]?.midi === midi && then[i].tick === tick - shift);
}

/** Mean velocity. */
function levelOf(notes: readonly Struck[]): number {
  return meanOf(notes.map(({ velocity }) => velocity));
}
