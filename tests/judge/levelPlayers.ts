/** Seeded players of an invented piece: a tune over broken chords, with marks, each note as loud as asked and a little more or less. */
import { analyseScore, type Phrase } from '../../src/analysis/index.js';
import { gaussian, seededRandom } from '../../src/base/index.js';
import type { JudgeInput } from '../../src/judge/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { levelFacts } from '../../src/measure/levels.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import type { Piece } from '../../src/measure/piece.js';
import type { ControlPoint } from '../../src/recording/index.js';
import type { Occurrence, Score } from '../../src/score/index.js';
import { beatOf, marked, struck, type Mark } from '../measure/loudness.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { left, played, right, scoreOf, steady, type Written } from '../measure/piece.js';

/** Beat, pitch and length of the tune, four bars of four crotchets that come again. */
const TUNE: readonly (readonly [beat: number, pitch: number, length: number])[][] = [
  [[1, 72, 1], [2, 74, 1], [3, 76, 1], [4, 77, 1]], [[1, 79, 1.5], [2.5, 77, 0.5], [3, 76, 2]], [[1, 74, 1], [2, 76, 0.5], [2.5, 77, 0.5], [3, 74, 1], [4, 71, 1]], [[1, 72, 3]],
];

/** The chord of each bar, from the bass. */
const CHORDS: readonly (readonly number[])[] = [[48, 55, 52, 55], [48, 57, 53, 57], [43, 55, 50, 55], [48, 55, 52, 55]];

/** So many bars of it. */
export function songOf(bars: number, ...marks: readonly Mark[]): Score {
  const written: Written[] = Array.from({ length: bars }, (_, i) => [
    ...(TUNE[i % 4] ?? []).map(([beat, pitch, length]) => right(i + 1, beat, pitch, length)),
    ...[0, 1, 2, 3, 0, 1, 2, 3].map((place, k) => left(i + 1, 1 + k / 2, CHORDS[i % 4]?.[place] ?? 48, 0.5)),
  ]).flat();
  return marked(scoreOf(written), ...marks);
}

/** How somebody plays. */
export interface Player {
  readonly seed: number;
  /** Level of a moment, velocity units; the tune is this loud. */
  readonly level: (one: Occurrence) => number;
  /** Standard deviation of a single stroke, velocity units. A steady amateur: 4; Repp 1996 finds pianists about 3-5 from one performance to the next (from memory). */
  readonly scatter?: number;
  /** How far the left hand stays under the tune, velocity units. */
  readonly under?: (one: Occurrence) => number;
}

/** A score as somebody plays it, ready to be judged; `soft` is the soft pedal. */
export function playedBy(score: Score, { seed, level, scatter = 4, under = () => 15 }: Player, soft: readonly ControlPoint[] = []): JudgeInput {
  const normal = gaussian(seededRandom(seed));
  const velocities = score.occurrences.map((one) => {
    const shaped = level(one) - (one.staff === 2 ? under(one) : 0) + (beatOf(one) === 1 ? 3 : 0);
    return Math.min(127, Math.max(1, Math.round(shaped + scatter * normal())));
  });
  const piece = struck(played(score, { clock: steady(0.5) }), ({ index }) => velocities[index] ?? 64);
  return inputOf({ ...piece, recording: { ...piece.recording, soft } });
}

/** What the judges of levels need of a piece. */
export function inputOf(piece: Piece, phrases: readonly Phrase[] = []): JudgeInput {
  const bars = barFacts(piece, onsetDeviations(piece));
  const analysis = { ...EMPTY, phrases };
  return { ...piece, analysis, measures: { ...NO_MEASURES, bars, levels: levelFacts({ ...piece, analysis }, bars) }, language: 'british' };
}

/** Phrases of four bars each, as the song has them. */
export function fourBarPhrases({ bars }: Score): readonly Phrase[] {
  return bars.filter(({ index }) => index % 4 === 0).map(({ index, startTick }, i, starts) => ({
    from: { tick: startTick, barIndex: index, offset: 0 }, to: { tick: startTick, barIndex: index, offset: 0 }, untilTick: starts[i + 1]?.startTick ?? Infinity,
  }));
}

/** The same playing, seen in phrases of four bars. */
export function inPhrases({ score, recording, alignment }: JudgeInput): JudgeInput {
  return inputOf({ score, recording, alignment }, fourBarPhrases(score));
}

/** Of the rest of the analysis the judges of levels ask nothing: that of one note will do. */
const EMPTY = analyseScore(scoreOf([right(1, 1, 60)]));

/** Share of so many seeds for which something holds. */
export function shareOf(seeds: number, holds: (seed: number) => boolean): number {
  return Array.from({ length: seeds }, (_, seed) => holds(seed + 1)).filter((one) => one).length / seeds;
}

