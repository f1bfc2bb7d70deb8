/**
 * What the teacher decided, and judgement obeys: notes, marks and remarks that are right as played, kinds of remark
 * left for a pupil, and how strict to be.
 */
import type { Aspect, AspectJudgement, Decisions, Finding, FoundPlace, Observation, Praise, Preferences, RightAsPlayed, Strictness } from './types.js';
import { concernOf } from './weight.js';

/** Nothing decided. */
export const NO_DECISIONS: Decisions = { rightAsPlayed: [], left: [], preferences: { strictness: {}, lookAt: [] } };

/** Kinds of remark on ornaments, each in its aspect. */
const ORNAMENT_KINDS: ReadonlyMap<string, Aspect> = new Map([['longGrace', 'rhythm']]);

/** What strictness does to a weight. Our own rule. */
const STRICTNESS_FACTOR: Readonly<Record<Strictness, number>> = { lenient: 0.5, usual: 1, strict: 1.25 };

/** A lenient teacher is not bothered with what weighs less (<) than this after halving. */
const LEAST_LENIENT_WEIGHT = 0.2;

/** What a decision is checked against: printed numbers and ids of the score. */
export interface DecidedScore {
  readonly bars: readonly { readonly number: string }[];
  readonly notes: readonly { readonly id: string }[];
}

/** What is needed to apply decisions. */
export interface Deciding {
  readonly score: DecidedScore;
  readonly decisions?: Decisions;
}

/** The findings that nothing was decided about: those of a kind left alone, and those that are right as played, are gone. */
export function undecided(findings: readonly Finding[], { score, decisions = NO_DECISIONS }: Deciding): readonly Finding[] {
  const { rightAsPlayed, left } = decisions;
  if (rightAsPlayed.length === 0 && left.length === 0) return findings;
  return findings.filter(({ aspect, kind, hand, place }) => {
    const isLeft = left.some((one) => one.aspect === aspect && one.kind === kind);
    return !isLeft && !rightAsPlayed.some((right) => isAbout(right, { aspect, kind, hand }) && covers(right, place, score));
  });
}

/** True where a decision of any kind is about an aspect. */
export function decidedAbout({ rightAsPlayed, left, preferences }: Decisions, aspect: Aspect): boolean {
  return rightAsPlayed.some((one) => one.aspect === aspect) || left.some((one) => one.aspect === aspect) || strictnessesOf(preferences, aspect).some((how) => how !== 'usual');
}

/** Every strictness that an aspect is judged with. */
function strictnessesOf({ strictness }: Preferences, aspect: Aspect): readonly Strictness[] {
  const ornaments = [...ORNAMENT_KINDS.values()].includes(aspect) ? strictness.ornaments : undefined;
  return [strictness[aspect] ?? 'usual', ornaments ?? 'usual'];
}

/** How strict to be on one thing: ornaments by themselves. */
function strictnessFor({ strictness }: Preferences, { aspect, kind }: Pick<Finding, 'aspect' | 'kind'>): Strictness {
  return (ORNAMENT_KINDS.get(kind) === aspect ? strictness.ornaments : undefined) ?? strictness[aspect] ?? 'usual';
}

/**
 * An aspect's judgement as strict as the teacher is, and its concern in the proportion that the observations lost.
 * @param judged without what was decided
 * @param before as it would be without any decision
 */
export function decided(judged: AspectJudgement, before: AspectJudgement, { preferences }: Decisions): AspectJudgement {
  const observations = judged.observations.flatMap((one) => weighed(one, strictnessFor(preferences, one)));
  const concern = before.concern.measured ? { ...before.concern, value: lessened(before, observations) } : before.concern;
  return { ...judged, concern, observations };
}

/** Praise for what the teacher does not want to hear of is left out as well. */
export function decidedPraise(praise: readonly Praise[], decisions: Decisions, score: DecidedScore): readonly Praise[] {
  return praise.filter((one) => !decisions.rightAsPlayed.some((right) => right.kind === null && isAbout(right, { ...one, kind: '' }) && one.places.every((place) => covers(right, place, score))));
}

/** The concern in the proportion that the observations lost; a judge's own scale is kept. */
function lessened(judged: AspectJudgement, left: readonly Observation[]): number {
  const before = concernOf(judged.observations.map(({ weight }) => weight));
  const after = concernOf(left.map(({ weight }) => weight));
  const value = judged.concern.measured ? judged.concern.value : 0;
  return before === 0 ? value : Math.min(1, (value * after) / before);
}

/** True where a decision speaks of this kind of thing in this hand. */
function isAbout(right: RightAsPlayed, { aspect, kind, hand }: Pick<Finding, 'aspect' | 'kind' | 'hand'>): boolean {
  return right.aspect === aspect && (right.kind === null || right.kind === kind) && (right.hand === null || right.hand === hand);
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
