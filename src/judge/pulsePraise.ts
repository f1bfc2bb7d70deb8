/*
 * Praise for the pulse: that it holds from beginning to end, and that a hard place is in time.
 *
 * What is earned: a place that the analysis expected to stop a hand (a jump, a stretch …) went by without a wait, with every note, in the tempo of the bars around it.
 */
import type { Pitfall } from '../analysis/index.js';
import { whereInWords } from './placeWords.js';
import { HARD_FOR_HANDS } from './pulseWords.js';
import type { JudgeInput, Observation, Praise } from './types.js';
import { middleOff } from './unsteady.js';
import { visitPlace } from './visitPlace.js';

/** Fewest bars with a tempo (>=) that can be praised for it. */
const PRAISE_BARS = 8;

/** Up to so far (<=) off their neighbours, in the middle, bars are very steady: a change of 3 % over several beats is just heard (Drake and Botte 1993). */
const VERY_STEADY = 0.03;

/** What praise for it weighs. */
const STEADY_WEIGHT = 0.35;

/** From this weight on (>=) a pitfall is likely to stop a hand. */
const HARD_WEIGHT = 0.6;

/** Within this share (<=) of the tempo around a hard bar is in time. */
const IN_TIME = 0.05;

/** What praise for a hard place weighs, by the weight of the pitfall. */
const HARD_SHARE = 0.6;

/** All that was earned, heaviest first. */
export function pulsePraise(input: JudgeInput, observations: readonly Observation[]): readonly Praise[] {
  return [...hardInTime(input, observations), ...steady(input, observations)].sort((a, b) => b.weight - a.weight);
}

/** For a pulse that holds from beginning to end; who breaks off and goes back has not held it, however steady between. */
function steady({ measures }: JudgeInput, observations: readonly Observation[]): readonly Praise[] {
  const off = middleOff(measures);
  const first = measures.bars[0];
  const last = measures.bars.at(-1);
  const wentBack = measures.bars.some(({ attempt }) => attempt > 1);
  if (observations.length > 0 || wentBack || off === null || off > VERY_STEADY || first === undefined || last === undefined || measures.bars.length < PRAISE_BARS) return [];
  const place = { ...visitPlace(first), fromBar: Math.min(first.barIndex, last.barIndex), toBar: Math.max(first.barIndex, last.barIndex) };
  return [{ aspect: 'pulse', hand: null, places: [place], weight: STEADY_WEIGHT, text: 'The pulse holds from beginning to end.' }];
}

/** For the hardest place that was played in time each time it came. */
function hardInTime(input: JudgeInput, observations: readonly Observation[]): readonly Praise[] {
  const spoken = new Set(observations.flatMap(({ places }) => places.flatMap(({ fromBar, toBar }) => Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i))));
  const earned = input.analysis.pitfalls.filter(({ kind, weight, places }) => HARD_FOR_HANDS[kind] !== undefined && weight >= HARD_WEIGHT && places.length === 1)
    .flatMap((pitfall) => inTime(input, pitfall, spoken));
  return earned.slice(0, 1);
}

/** Praise for one pitfall, where every visit to its bars was clean and in time. */
function inTime(input: JudgeInput, { kind, hand, places, weight }: Pitfall, spoken: ReadonlySet<number>): readonly Praise[] {
  const [only] = places;
  if (only === undefined || only.toBar - only.fromBar > 1) return [];
  const visits = input.measures.bars.flatMap((bar, i) => (bar.barIndex >= only.fromBar && bar.barIndex <= only.toBar ? [{ bar, pulse: input.measures.pulse.bars[i] }] : []));
  const clean = visits.length > 0 && visits.every(({ bar, pulse }) => {
    const around = pulse?.againstAround;
    return !spoken.has(bar.barIndex) && bar.wrong + bar.missed + bar.added === 0 && pulse?.waitBeats === 0 && around?.measured === true && Math.abs(around.value - 1) <= IN_TIME;
  });
  const first = visits[0]?.bar;
  if (!clean || first === undefined) return [];
  const place = { ...visitPlace(first), fromBar: only.fromBar, toBar: only.toBar };
  const played = hand === 'both' ? null : hand;
  return [{ aspect: 'pulse', hand: played, places: [place], weight: HARD_SHARE * weight, text: `${whereInWords(input, played, [place])}: ${HARD_FOR_HANDS[kind] ?? ''} in time.` }];
}
