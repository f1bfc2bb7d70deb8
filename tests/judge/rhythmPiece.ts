/** Pieces judged for their rhythm: small invented scores and players with human scatter. */
import { gaussian, seededRandom } from '../../src/base/index.js';
import { judgeRhythm } from '../../src/judge/rhythm.js';
import type { AspectJudgement, Observation } from '../../src/judge/index.js';
import { analyseScore, type Analysis } from '../../src/analysis/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import type { Piece } from '../../src/measure/index.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { rhythmFacts } from '../../src/measure/rhythmFacts.js';
import type { Occurrence, Score } from '../../src/score/index.js';
import { played, steady } from '../measure/piece.js';

/** Scatter of one finger's onsets, ms: two takes of one good pianist differ by about as much. */
export const SCATTER_MS = 8;

/** Judges what was played. */
export function judged(piece: Piece): AspectJudgement {
  const onsets = onsetDeviations(piece);
  const bars = barFacts(piece, onsets);
  return judgeRhythm({ ...piece, analysis: analysisOf(piece.score), measures: { bars, rhythm: rhythmFacts(piece, { onsets, bars }) }, language: 'british' });
}

/** Analyses by score: many takes of one score need one. */
const ANALYSES = new WeakMap<Score, Analysis>();

function analysisOf(score: Score): Analysis {
  const known = ANALYSES.get(score) ?? analyseScore(score);
  ANALYSES.set(score, known);
  return known;
}

/** Kinds that were found, in order of weight. */
export function kinds({ observations }: AspectJudgement): readonly string[] {
  return observations.map(({ kind }) => kind);
}

/** The one observation of a kind. @throws RangeError where there is none, or more */
export function observed({ observations }: AspectJudgement, kind: string): Observation {
  const [found, ...others] = observations.filter((one) => one.kind === kind);
  if (found === undefined || others.length > 0) throw new RangeError(`not one ${kind} among ${observations.map((one) => one.kind).join(', ')}`);
  return found;
}

/** How one player plays a score: steady crotchets with scatter, and what is added to it. */
export interface Player {
  readonly seed: number;
  readonly crotchetS?: number;
  readonly lateMs?: (occurrence: Occurrence) => number;
}

/** One take of a score. */
export function take(score: Score, { seed, crotchetS = 0.6, lateMs = () => 0 }: Player): ReturnType<typeof played> {
  const scatter = gaussian(seededRandom(seed));
  return played(score, { clock: steady(crotchetS), shiftMs: (one) => lateMs(one) + SCATTER_MS * scatter() });
}

/** Share of so many players with whom a kind is found. */
export function foundShare(score: Score, kind: string, { lateMs, crotchetS, players = 20 }: Omit<Player, 'seed'> & { readonly players?: number }): number {
  const seeds = Array.from({ length: players }, (_, i) => 100 + i);
  return seeds.filter((seed) => kinds(judged(take(score, { seed, ...(lateMs && { lateMs }), ...(crotchetS && { crotchetS }) }))).includes(kind)).length / players;
}
