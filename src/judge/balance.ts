/*
 * Balance: the tune over its accompaniment, the top of chords over their inner notes.
 *
 * What is a fault: bars in a row in which the accompaniment is as loud as the tune or louder, notes held against notes that sound together.
 * The tune usually stands 10 to 20 velocity units over its accompaniment (trade texts), a chord's top 5 to 10 over the inner notes (common practice).
 * Where nearly all bars are like that, or the rest of them hardly better, it is one remark on the whole, at the bars where it is worst. Where it is not certain which line has
 * the tune, nothing is said; in counterpoint either hand may lead.
 */
import { median } from 'simple-statistics';
import { groupBy, measured, notMeasured } from '../base/index.js';
import type { Hand } from '../measure/index.js';
import { balancedBars, type BalancedBar } from './balancedBars.js';
import { tellBalance } from './balanceWords.js';
import { singingPraise } from './levelPraise.js';
import { HEARD_UNITS, levelFinding, levelGround, type LevelGround } from './levelGround.js';
import { observe } from './merge.js';
import type { AspectJudgement, Finding, JudgeInput, Observation } from './types.js';
import { concernOf, severityOf } from './weight.js';

/** A tune that stands less (<) than this over its accompaniment is covered, velocity units: the accompaniment is heard to be louder. */
const COVERED_UNITS = -HEARD_UNITS;

/** Where the player's normal is under this (<), velocity units, the hands are alike: no difference is heard. */
const ALIKE_UNITS = HEARD_UNITS;

/** In counterpoint either hand may lead: only what lies so far (>) under the player's own best is spoken of, velocity units. Our own rule. */
const COUNTERPOINT_UNITS = 25;

/** From this share (>=) of the bars on a covered tune is a fault of the whole piece. Our own rule. */
const THROUGHOUT_SHARE = 0.9;

/** How many of the worst bars stand for a fault of the whole piece. */
const WORST_BARS = 4;

/** What a tune is expected to stand over its accompaniment at least, velocity units (trade texts: 10-20). */
const USUAL_UNITS = 10;

/** Bars in a row (>=) that a teacher speaks of. */
const LEAST_BARS = 2;

/** A single bar may be better within a covered stretch. */
const BRIDGED_BARS = 1;

/** Median of a chord's top over its inner notes under which (<) chords are not voiced, velocity units: the top is not the loudest. */
const UNVOICED_UNITS = 0;

/** What a top is expected to stand over the inner notes at least, velocity units. Common practice, no source. */
const VOICED_UNITS = 5;

/** From so much (>=) of the tune over its accompaniment on nothing is wanting, velocity units (trade texts: 10-20). */
const FULL_UNITS = 20;

/** What a thin balance can add to the concern. Our own rule. */
const THIN_CONCERN = 0.5;

/** Judges the balance. */
export function judgeBalance(input: JudgeInput): AspectJudgement {
  const { levels } = input.measures;
  if (!levels.measured) return { aspect: 'balance', concern: levels, summary: '', observations: [] };
  const { normal, topOverInner } = levels.value.balance;
  if (!normal.measured && !topOverInner.measured) return { aspect: 'balance', concern: notMeasured('too little is heard of a tune and an accompaniment together'), summary: '', observations: [] };
  const ground = levelGround(input, levels.value);
  const observations = observe(input, [...covered(ground), ...unvoiced(ground)], (untold) => tellBalance(input, untold));
  const thin = normal.measured && !levels.value.balance.counterpoint ? Math.min(1, Math.max(0, 1 - normal.value / FULL_UNITS)) : 0;
  return { aspect: 'balance', concern: measured(concernOf([...observations.map(({ weight }) => weight), THIN_CONCERN * thin])), summary: summary(observations), observations, praise: singingPraise(ground, balancedBars(ground), observations) };
}

/** What is covered: stretches, or the whole. */
function covered(ground: LevelGround): readonly Finding[] {
  const bars = balancedBars(ground);
  const { atBest, counterpoint } = ground.facts.balance;
  const ceiling = counterpoint && atBest.measured ? Math.min(COVERED_UNITS, atBest.value - COUNTERPOINT_UNITS) : COVERED_UNITS;
  const found = stretches(bars).filter((some) => some.length >= LEAST_BARS && median(some.map(({ over }) => over)) < ceiling);
  const inside = new Set(found.flat());
  const rest = bars.filter((bar) => !inside.has(bar));
  const everywhere = inside.size >= THROUGHOUT_SHARE * bars.length;
  const alike = everywhere || (!counterpoint && ground.facts.balance.normal.measured && median(rest.map(({ over }) => over)) < ALIKE_UNITS);
  return alike ? throughout(ground, bars) : found.flatMap((some) => stretchFinding(ground, some));
}

/** One stretch in which the accompaniment covers the tune. */
function stretchFinding(ground: LevelGround, bars: readonly BalancedBar[]): readonly Finding[] {
  const [first] = bars;
  if (first === undefined) return [];
  const { normal } = ground.facts.balance;
  const own = Math.max(USUAL_UNITS, normal.measured ? normal.value : 0);
  const over = median(bars.map((bar) => bar.over));
  return levelFinding(ground, {
    aspect: 'balance', kind: 'tuneCovered', hand: other(first.hand), topic: '', visits: bars.map(({ visit }) => visit), notes: [], startS: first.visit.startS,
    measured: { value: Math.round(over), unit: 'velocity units', threshold: COVERED_UNITS },
    severity: severityOf((own - over) / (own - COVERED_UNITS)), confidence: Math.min(1, 0.7 + 0.1 * (bars.length - 1)),
  });
}

/** Hands as loud as one another, or the wrong one louder, in all these bars; told at the worst of them. */
function throughout(ground: LevelGround, bars: readonly BalancedBar[]): readonly Finding[] {
  if (bars.length === 0) return [];
  const over = median(bars.map((bar) => bar.over));
  const worst = [...bars].sort((a, b) => a.over - b.over).slice(0, WORST_BARS);
  return worst.flatMap(({ visit, hand }) => levelFinding(ground, {
    aspect: 'balance', kind: over < COVERED_UNITS ? 'coveredThroughout' : 'handsAlike', hand: other(hand), topic: '', visits: [visit], notes: [], startS: visit.startS, confidence: 0.8,
    measured: { value: Math.round(over), unit: 'velocity units', threshold: ALIKE_UNITS },
    severity: severityOf((USUAL_UNITS - over) / (USUAL_UNITS - ALIKE_UNITS)),
  }));
}

/** The hand that accompanies. */
function other(hand: Hand): Hand {
  return hand === 'right' ? 'left' : 'right';
}

/** Runs of covered bars that follow one another on paper, with the tune in one hand. */
function stretches(bars: readonly BalancedBar[]): readonly (readonly BalancedBar[])[] {
  const out: BalancedBar[][] = [];
  for (const bar of bars.filter(({ smooth }) => smooth < COVERED_UNITS)) {
    const last = out.at(-1)?.at(-1);
    const gap = last === undefined ? Infinity : bar.visit.barIndex - last.visit.barIndex - 1;
    const goesOn = last !== undefined && last.hand === bar.hand && last.visit.pass === bar.visit.pass && last.visit.stretch === bar.visit.stretch && gap >= 0 && gap <= BRIDGED_BARS;
    if (goesOn) out.at(-1)?.push(bar);
    else out.push([bar]);
  }
  return out;
}

/** Chords of the right hand whose tops are not heard over the rest, at the bars where it is worst. */
function unvoiced(ground: LevelGround): readonly Finding[] {
  const { topOverInner, chords } = ground.facts.balance;
  if (!topOverInner.measured || topOverInner.value >= UNVOICED_UNITS) return [];
  const severity = severityOf((VOICED_UNITS - topOverInner.value) / (VOICED_UNITS - UNVOICED_UNITS));
  const bars = [...groupBy(chords, ({ stretch, visitIndex }) => `${stretch} ${visitIndex}`).values()].map((some) => ({ some, over: median(some.map(({ topOver }) => topOver)) }));
  return [...bars].sort((a, b) => a.over - b.over).slice(0, WORST_BARS).flatMap(({ some: [first] }) => {
    const visit = first === undefined ? undefined : ground.visit(first.stretch, first.visitIndex);
    if (first === undefined || visit === undefined) return [];
    return levelFinding(ground, {
      aspect: 'balance', kind: 'chordsNotVoiced', hand: 'right', topic: '', visits: [visit], notes: [], startS: first.startS, confidence: 0.7,
      measured: { value: Math.round(topOverInner.value), unit: 'velocity units', threshold: UNVOICED_UNITS }, severity,
    });
  });
}

/** One plain sentence. */
function summary([first, ...others]: readonly Observation[]): string {
  if (first === undefined) return 'The tune is heard over its accompaniment.';
  return others.length === 0 ? first.text : `${first.text.slice(0, -1)}; ${others.length === 1 ? 'one more thing' : 'more'} to hear.`;
}
