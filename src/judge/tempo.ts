/*
 * The tempo: the whole against its marking, written changes, the closing ritardando.
 *
 * What is a fault stands in tempoMarks.ts and tempoChanges.ts. Where nothing is printed nothing is blamed; how far the beat lies from where
 * tempo is felt best still orders recordings of one piece.
 */
import { measured, notMeasured } from '../base/index.js';
import { tempoMarkOf } from '../score/index.js';
import { observe } from './merge.js';
import { bendFindings, bendPlace, changeFindings, madeChange, MADE_CHANGE } from './tempoChanges.js';
import { againstMarks, AS_MARKED, markFindings, PRACTICE_SEVERITY } from './tempoMarks.js';
import { summaryOf, tellMadeBend, tellTempo } from './tempoWords.js';
import type { AspectJudgement, JudgeInput, Praise } from './types.js';
import { concernOf } from './weight.js';

/** Beats a minute in the middle of where tempo is told best: intervals of 300 to 800 ms (Drake and Botte 1993), their geometric mean 490 ms. */
const BEST_FELT = 60 / Math.sqrt(0.3 * 0.8);

/** What being twice (or half) as fast as that weighs where nothing is printed: it orders, it blames nobody. */
const UNMARKED_SHARE = 0.3;

/** What being at the edge of "as marked" weighs in the concern. */
const EDGE_SHARE = 0.3;

/** What a bend that was not made at all weighs in the concern. */
const BEND_SHARE = 0.6;

/** A bend that takes this share off leaves nothing to wish. */
const FULL_CHANGE = 2 * MADE_CHANGE;

/** A slowing whose onsets stand within this share (<=) of its time from the curve went evenly. */
const EVEN = 0.15;

/** What praise for a well made close weighs: many make it, so that what only this recording has comes first. Our own rule. */
const PRAISE_WEIGHT = 0.3;

/** Judges the tempo. */
export function judgeTempo(input: JudgeInput): AspectJudgement {
  const { spans, bends } = input.measures.pulse;
  if (!spans.some(({ played }) => played.measured)) return { aspect: 'tempo', concern: notMeasured('too little was played in one go to tell a tempo'), summary: '', observations: [] };
  const observations = observe(input, [...markFindings(input), ...bendFindings(input), ...changeFindings(input)], (untold) => tellTempo(input, untold));
  const changes = bends.flatMap((bend) => madeChange(bend) ?? []);
  const weights = [wholeConcern(input), ...changes.map(bendConcern), ...changeFindings(input).map(({ severity, confidence }) => severity * confidence)];
  return { aspect: 'tempo', concern: measured(concernOf(weights)), summary: summaryOf(input, observations), observations, praise: madeBends(input) };
}

/** How far the tempo is from its marks, 0-1: rises smoothly from as marked on. */
function wholeConcern(input: JudgeInput): number {
  const { spans } = input.measures.pulse;
  if (markFindings(input).some(({ kind }) => kind === 'slowPractice')) return PRACTICE_SEVERITY;
  const against = againstMarks(spans);
  if (against.length > 0) {
    const off = Math.max(...against.map(({ ratio }) => Math.abs(Math.log(ratio)))) / -Math.log(1 - AS_MARKED);
    return 1 - 1 / (1 + (EDGE_SHARE / (1 - EDGE_SHARE)) * off ** 2);
  }
  const played = spans.flatMap((span) => (span.played.measured ? [{ value: span.played.value, bars: span.toVisit - span.fromVisit + 1 }] : [])).sort((a, b) => b.bars - a.bars)[0];
  if (played === undefined) return 0;
  return Math.min(1, UNMARKED_SHARE * Math.abs(Math.log2(played.value / tempoMarkOf(input.score).unit.crotchets / BEST_FELT)));
}

/** What a bend leaves to wish, 0-1. */
function bendConcern(made: number): number {
  return BEND_SHARE * Math.min(1, Math.max(0, 1 - made / FULL_CHANGE));
}

/** Closing bends that were made, and evenly. */
function madeBends(input: JudgeInput): readonly Praise[] {
  return input.measures.pulse.bends.filter(({ closing, offCurve, endTempo }) => closing && offCurve.measured && offCurve.value <= EVEN && endTempo.measured).flatMap((bend) => {
    const made = madeChange(bend);
    if (made === null || made < MADE_CHANGE) return [];
    const place = bendPlace(input, bend);
    return [{ aspect: 'tempo' as const, hand: null, places: [place], weight: PRAISE_WEIGHT, text: tellMadeBend(input, place, bend) }];
  });
}
