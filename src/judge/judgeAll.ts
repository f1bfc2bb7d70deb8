import { decided, decidedAbout, decidedPraise, NO_DECISIONS } from './decisions.js';
import { judgesFor } from './scales.js';
import type { Judgement, JudgeInput } from './types.js';

/**
 * Judges every aspect of one recording. Quick (facts are measured before), so that a change of plan, preference or
 * language only needs this again.
 */
export function judgeAll(input: JudgeInput): Judgement {
  const { decisions = NO_DECISIONS, score } = input;
  const aspects = judgesFor(score).map((judge) => {
    const judged = judge(input);
    return decidedAbout(decisions, judged.aspect) ? decided(judged, judge({ ...input, decisions: NO_DECISIONS }), decisions) : judged;
  });
  const observations = aspects.flatMap((aspect) => aspect.observations).sort((a, b) => b.weight - a.weight);
  const praise = [...decidedPraise(aspects.flatMap((aspect) => aspect.praise ?? []), decisions, score)].sort((a, b) => b.weight - a.weight);
  return { aspects, observations, praise };
}
