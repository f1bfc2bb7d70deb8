/*
 * What the score's words ask of the pedals.
 *
 * What is a fault: bars in a row under "con pedale" and the like without any, where the plan has one too; una corda without the soft pedal, where
 * the instrument plainly has one; a soft pedal that stays down after "tre corde". Words that say dry or let ring are entries of the
 * plan (pedalFoot.ts).
 */
import { groupBy } from '../base/index.js';
import { PEDAL_HOLDS, PEDAL_LINGERS, type BarFacts, type WordedBar } from '../measure/index.js';
import { pedalFinding, type PedalGround } from './pedalGround.js';
import type { Finding } from './types.js';

/** Without pedal for fewer bars (<) or less time (<) than this somebody chose to play a figure dry; bars, seconds. Our own rule: about a phrase. */
const DRY_RUN = { bars: 2, s: 4 } as const;

/** Under this share (<) of the time with the soft pedal it was not used, from this share on (>=) it stays down. Our own rule. */
const SOFT = { unused: 0.1, stays: 0.5 } as const;

/** A soft pedal is looked at over at least (>=) so long, and lifted so late it is not spoken of; seconds. */
const SOFT_LEAST_S = 2;

/** After "tre corde" so many bars tell whether the foot came up; later it may be down by choice. */
const LIFTED_BARS = 2;

/** How sure the program is. */
const CONFIDENCE = 0.7;

/** Words on the pedals that were not followed. */
export function wordFindings(ground: PedalGround): readonly Finding[] {
  const words = groupBy(ground.facts.words, ({ asks, stretch, sinceTick }) => `${asks} ${stretch} ${sinceTick}`);
  const hasSoft = ground.input.recording.soft.some(({ value }) => value >= PEDAL_HOLDS);
  return [...words.values()].flatMap((bars) => passes(bars).flatMap((run): readonly Finding[] => {
    switch (run[0]?.asks) {
      case 'pedal': return dryRuns(ground, run).flatMap((dry) => wordFinding(ground, 'notUsed', dry, DRY_RUN.s));
      case 'soft': return hasSoft && softShare(run) < SOFT.unused ? wordFinding(ground, 'unaCorda', run, SOFT_LEAST_S) : [];
      case 'full': return softShare(run.slice(0, LIFTED_BARS)) >= SOFT.stays ? wordFinding(ground, 'treCorde', run.slice(0, LIFTED_BARS), SOFT_LEAST_S) : [];
      case undefined: return [];
    }
  }));
}

/** Bars that follow one another in the playing order, each run for itself. */
function passes(bars: readonly WordedBar[]): readonly (readonly WordedBar[])[] {
  const runs: WordedBar[][] = [];
  for (const bar of bars) {
    const last = runs.at(-1);
    if (last?.at(-1)?.visitIndex === bar.visitIndex - 1) last.push(bar);
    else runs.push([bar]);
  }
  return runs;
}

/** Bars in a row without pedal, where the plan has one as well. */
function dryRuns(ground: PedalGround, bars: readonly WordedBar[]): readonly (readonly WordedBar[])[] {
  const dry = bars.filter((bar) => bar.depth < PEDAL_LINGERS && pedalled(ground, bar));
  return passes(dry).filter((run) => run.length >= DRY_RUN.bars);
}

/** True where the plan has the foot down somewhere in a bar. */
function pedalled({ input: { score, analysis } }: PedalGround, { visitIndex }: WordedBar): boolean {
  const bar = score.bars[score.order[visitIndex]?.barIndex ?? -1];
  return bar !== undefined && analysis.pedalPlan.entries.some(({ kind, fromTick, toTick }) => kind !== 'up' && kind !== 'none' && fromTick < bar.startTick + bar.lengthTicks && toTick > bar.startTick);
}

/** Share of the time of some bars with the soft pedal. */
function softShare(bars: readonly WordedBar[]): number {
  const lengthS = bars.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);
  return lengthS === 0 ? 0 : bars.reduce((sum, { fromS, toS, softShare: share }) => sum + share * (toS - fromS), 0) / lengthS;
}

/** One stretch of bars; nothing where it is too short, or stumbled through. */
function wordFinding(ground: PedalGround, kind: string, bars: readonly WordedBar[], leastS: number): readonly Finding[] {
  const visits = bars.flatMap(({ stretch, visitIndex }): readonly BarFacts[] => [ground.visit(stretch, visitIndex) ?? []].flat());
  const [first, last, visit] = [bars[0], bars.at(-1), visits[0]];
  if (first === undefined || last === undefined || visit === undefined) return [];
  const lastsS = last.toS - first.fromS;
  if (lastsS < leastS) return [];
  const toBar = Math.max(...visits.map(({ barIndex }) => barIndex));
  return [pedalFinding({ kind, topic: first.text, visit, toBar, notes: [], startS: first.fromS, value: lastsS, unit: 's', threshold: leastS, ratio: lastsS / leastS, confidence: CONFIDENCE })];
}
