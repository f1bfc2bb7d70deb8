import { groupBy } from '../base/index.js';
import { ASPECTS, judgeAll, type Judgement, type JudgeInput, type Praise } from '../judge/index.js';
import { worthOf, type Caring } from './care.js';
import { bundles, tellUnlearned, type Bundle } from './explain.js';
import { forParent, spokenOf } from './forParent.js';
import { guessPurpose } from './purpose.js';
import type { RecordingLimit } from '../recording/index.js';
import type { Remark, Review, ReviewOptions } from './types.js';

/** A teacher says two or three things. */
const MOST_WORTH_SAYING = 3;

/** A child under this age (<), years, takes in one remark. */
const CHILD_AGE = 9;

/** Worth saying from here on (>=): what is only just over its threshold (0.3) stays with the rest. */
const LEAST_WORTH = 0.4;

/** At most so many of one aspect. */
const MOST_OF_AN_ASPECT = 2;

/** Praise in few words. */
const MOST_PRAISE = 3;

/** Praise of so much (>=) of the piece is of the whole: it is no news of a player who can play, and told only among so few. */
const WHOLE_SHARE = 0.75;
const MOST_PRAISE_WITH_WHOLE = 2;

/** What the recording cannot tell and no remark needs. */
const NO_LIMITS: ReadonlySet<RecordingLimit['kind']> = new Set(['no-release-velocity', 'doubled-notes', 'long-silence']);

/** Further parts of a bundle add this share of what they are worth. */
const PART_SHARE = 0.3;

/** Which share of notes (<) must be told apart for the review to be sure of the way taken. */
const SURE_MATCH = 0.75;

/** The review of one recording: of everything observed, what a teacher would have said. */
export function makeReview(input: JudgeInput, options: ReviewOptions = {}): Review {
  const judgement = judgeAll(input);
  const purpose = options.purpose === undefined ? guessPurpose(input) : { purpose: options.purpose, guessed: false, reason: '' };
  const caring: Caring = { purpose: purpose.purpose, lookAt: input.decisions?.preferences.lookAt ?? [], pitfallBars: pitfallBars(input) };
  const remarks = bundles(judgement.observations).map((bundle) => remarkOf(input, bundle, caring)).sort((a, b) => b.worth - a.worth);
  const child = options.age !== undefined && options.age !== null && options.age < CHILD_AGE;
  const picked = chosen(remarks, child ? 1 : MOST_WORTH_SAYING);
  const worthSaying = withoutEchoes(picked);
  const rest = groupBy(remarks.filter((one) => one.worth > 0 && !picked.includes(one)), ({ aspect }) => aspect);
  const name = options.name ?? 'The pupil';
  const well = goingWell(input, judgement, worthSaying);
  return {
    purpose,
    limits: limitsOf(input),
    forParent: child,
    worthSaying: child ? worthSaying.map((one) => ({ ...one, ...forParent(one, name) })) : worthSaying,
    goingWell: child ? well.map((one) => ({ ...one, text: spokenOf(one.text, name) })) : well,
    alsoSeen: ASPECTS.flatMap((aspect) => {
      const some = rest.get(aspect);
      return some === undefined ? [] : [{ aspect, remarks: some }];
    }),
    judgement,
  };
}

/** Bars that the analysis expected to go wrong. */
function pitfallBars({ analysis }: JudgeInput): ReadonlySet<number> {
  return new Set(analysis.pitfalls.flatMap(({ places }) => places.flatMap(({ fromBar, toBar }) => (toBar - fromBar <= 1 ? [fromBar, toBar] : []))));
}

/** A bundle as one thing to say. */
function remarkOf(input: JudgeInput, { observations, unlearnedBar }: Bundle, caring: Caring): Remark {
  const ranked = [...observations].sort((a, b) => worthOf(b, caring) - worthOf(a, caring));
  const main = ranked[0];
  if (main === undefined) throw new RangeError('a remark about nothing');
  const told = unlearnedBar === null ? main : tellUnlearned(input, unlearnedBar, observations);
  const worth = ranked.slice(1).reduce((sum, one) => 1 - (1 - sum) * (1 - PART_SHARE * worthOf(one, caring)), worthOf(main, caring));
  return {
    observations: ranked,
    aspect: main.aspect,
    kind: main.kind,
    id: [main.aspect, main.kind, main.hand ?? 'both', main.topic].join('/'),
    hand: unlearnedBar === null ? main.hand : null,
    places: main.places,
    text: told.text,
    advice: told.advice,
    worth,
  };
}

/** The weightiest, not two about the same bars and not too many of one aspect. */
function chosen(remarks: readonly Remark[], most: number): readonly Remark[] {
  const out: Remark[] = [];
  for (const one of remarks) {
    if (out.length >= most || one.worth < LEAST_WORTH) break;
    const alike = out.filter(({ aspect }) => aspect === one.aspect).length;
    if (alike < MOST_OF_AN_ASPECT && !out.some((other) => other.aspect === one.aspect && sameBars(other, one)) && !out.some(({ text }) => text === one.text)) out.push(one);
  }
  return out;
}

/** The same advice is given once: what to do about the second is known by then. */
export function withoutEchoes(remarks: readonly Remark[]): readonly Remark[] {
  return remarks.map((one, i) => (remarks.slice(0, i).some(({ advice }) => advice === one.advice) ? { ...one, advice: '' } : one));
}

/** True where all that one remark is about lies in the bars of another. */
function sameBars(other: Remark, one: Remark): boolean {
  return one.places.every((place) => other.places.some(({ fromBar, toBar }) => place.fromBar >= fromBar && place.toBar <= toBar));
}

/** The best of what was earned, not in the bars and the aspect of a remark. Praise of the whole is told where there is little else. */
function goingWell({ score }: JudgeInput, { praise }: Judgement, remarks: readonly Remark[]): readonly Praise[] {
  const spoken = praise.filter((one) => !remarks.some((remark) => remark.aspect === one.aspect && one.places.some((place) => remark.places.some(({ fromBar, toBar }) => place.fromBar <= toBar && place.toBar >= fromBar))));
  const whole = (one: Praise): boolean => one.places.reduce((bars, { fromBar, toBar }) => bars + toBar - fromBar + 1, 0) >= WHOLE_SHARE * score.bars.length;
  const out: Praise[] = [];
  for (const one of [...spoken.filter((each) => !whole(each)), ...spoken.filter(whole)]) {
    const most = whole(one) ? MOST_PRAISE_WITH_WHOLE : MOST_PRAISE;
    if (out.length < most && !out.some(({ aspect, text }) => aspect === one.aspect || text === one.text)) out.push(one);
  }
  return out;
}

/** What limits the judgement: the instrument, and an alignment that fits badly. */
function limitsOf({ recording, alignment }: JudgeInput): readonly string[] {
  const limits = recording.limits.filter(({ kind }) => !NO_LIMITS.has(kind)).map(({ text }) => text);
  return alignment.matched < SURE_MATCH ? [...limits, 'Much of what was played could not be told for a written note, so the remarks below are less sure than usual.'] : limits;
}
