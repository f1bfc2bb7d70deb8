import { ASPECT_JUDGES } from './aspects.js';
import type { Judgement, JudgeInput } from './types.js';

/**
 * Judges every aspect of one recording. Quick (facts are measured before), so that a change of plan, preference or
 * language only needs this again.
 */
export function judgeAll(input: JudgeInput): Judgement {
  const aspects = ASPECT_JUDGES.map((judge) => judge(input));
  const observations = aspects.flatMap((aspect) => aspect.observations).sort((a, b) => b.weight - a.weight);
  const praise = aspects.flatMap((aspect) => aspect.praise ?? []).sort((a, b) => b.weight - a.weight);
  return { aspects, observations, praise };
}
