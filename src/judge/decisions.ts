/**
 * What the teacher decided, and judgement obeys: notes, marks and remarks that are right as played, kinds of remark
 * left for a pupil, and how strict to be.
 */
import type { AspectJudgement, Decisions, FoundPlace, Observation, Praise, RightAsPlayed, Strictness } from './types.js';
import { concernOf } from './weight.js';

/** Nothing decided. */
export const NO_DECISIONS: Decisions = { rightAsPlayed: [], left: [], preferences: { strictness: {}, lookAt: [] } };

/** What strictness does to a weight. Our own rule. */
const STRICTNESS_FACTOR: Readonly<Record<Strictness, number>> = { lenient: 0.5, usual: 1, strict: 1.25 };

/** A lenient teacher is not bothered with what weighs less (<) than this after halving. */
const LEAST_LENIENT_WEIGHT = 0.2;

/** What a decision is checked against: printed numbers and ids of the score. */
export interface DecidedScore {
  readonly bars: readonly { readonly number: string }[];
  readonly notes: readonly { readonly id: string }[];
}

/** An aspect's judgement with the decisions applied: what was decided is gone from its observations and its concern. */
export function decided(judged: AspectJudgement, decisions: Decisions, score: DecidedScore): AspectJudgement {
  const strictness = decisions.preferences.strictness[judged.aspect] ?? 'usual';
  const observations = judged.observations.flatMap((one) => remaining(one, decisions, score)).flatMap((one) => weighed(one, strictness));
  if (strictness === 'usual' && unchanged(observations, judged.observations)) return judged;
  const concern = judged.concern.measured ? { ...judged.concern, value: lessened(judged, observations) } : judged.concern;
  return { ...judged, concern, observations };
}

/** Praise for what the teacher does not want to hear of is left out as well. */
export function decidedPraise(praise: readonly Praise[], decisions: Decisions, score: DecidedScore): readonly Praise[] {
  return praise.filter((one) => !decisions.rightAsPlayed.some((right) => right.kind === null && right.aspect === one.aspect && one.places.every((place) => covers(right, place, score))));
}

/** True where nothing was dropped and nothing reweighed. */
function unchanged(after: readonly Observation[], before: readonly Observation[]): boolean {
  return after.length === before.length && after.every((one, i) => one === before[i]);
}

/** The concern in the proportion that the observations lost; a judge's own scale is kept. */
function lessened(judged: AspectJudgement, left: readonly Observation[]): number {
  const before = concernOf(judged.observations.map(({ weight }) => weight));
  const after = concernOf(left.map(({ weight }) => weight));
  const value = judged.concern.measured ? judged.concern.value : 0;
  return before === 0 ? value : Math.min(1, (value * after) / before);
}

/** The observation without the places that are right as played; nothing where none is left, or where its kind is left alone. */
function remaining(one: Observation, { rightAsPlayed, left }: Decisions, score: DecidedScore): readonly Observation[] {
  if (left.some(({ aspect, kind }) => aspect === one.aspect && kind === one.kind)) return [];
  const about = rightAsPlayed.filter(({ aspect, kind }) => aspect === one.aspect && (kind === null || kind === one.kind));
  if (about.length === 0) return [one];
  const places = one.places.filter((place) => !about.some((right) => covers(right, place, score)));
  if (places.length === one.places.length) return [one];
  return places.length === 0 ? [] : [{ ...one, places }];
}

/** True where a decision covers a place: its notes where it names some, else its bars. */
function covers(right: RightAsPlayed, place: FoundPlace, score: DecidedScore): boolean {
  if (right.notes.length > 0 && place.notes.length > 0) return place.notes.every((index) => right.notes.includes(score.notes[index]?.id ?? ''));
  if (right.bars === null) return right.notes.length === 0;
  return right.bars.some(([first, last]) => {
    const from = score.bars.findIndex(({ number }) => number === first);
    const to = score.bars.findIndex(({ number }) => number === last);
    return from >= 0 && place.fromBar >= from && place.toBar <= Math.max(from, to);
  });
}

/** The weight as strict as the teacher is. */
function weighed(one: Observation, strictness: Strictness): readonly Observation[] {
  if (strictness === 'usual') return [one];
  const weight = Math.min(1, one.weight * STRICTNESS_FACTOR[strictness]);
  return strictness === 'lenient' && weight < LEAST_LENIENT_WEIGHT ? [] : [{ ...one, weight }];
}
