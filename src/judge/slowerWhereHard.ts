/*
 * Slower in the hard bars: the tempo was taken too quick for them. Named once, as a pattern.
 *
 * What is a fault: most of the bars that the analysis expects to be hard for a hand go more slowly than the bars around them, though nothing lets the time bend there. Common practice.
 */
import { median } from 'simple-statistics';
import type { PitfallKind } from '../analysis/index.js';
import type { Finding, JudgeInput } from './types.js';
import { visitPlace } from './visitPlace.js';
import { severityOf } from './weight.js';

/** What makes a bar hard for the hands. */
const HARD: ReadonlySet<PitfallKind> = new Set(['stretch', 'wideChord', 'octaves', 'jump', 'crossing', 'repeatedNotes', 'ornament', 'fastRun', 'positionChange', 'crossRhythm']);

/** Bars of a pitfall that lasts longer (>) are the piece, not a hard place in it. */
const MOST_PITFALL_BARS = 2;

/** A pattern shows in so many bars (>=) that are hard … */
const LEAST_HARD = 3;

/** … and so many (>=) that are not. */
const LEAST_OTHER = 3;

/** A hard bar is slower from here on (<=), by the tempo around: 6 % of a change of tempo is heard (Drake and Botte 1993). */
const SLOWER = 0.94;

/** So much of the hard bars (>=) must be slower. */
const MOST_SHARE = 0.75;

/** Their middle is this far (>=) under the others': more than what passes as the same tempo. */
const UNDER = 0.1;

/** Hard bars are often weighty ones, too. */
const CONFIDENCE = 0.8;

/** One finding for each slower hard bar where they make a pattern. */
export function slowerWhereHardFindings({ measures, analysis }: JudgeInput): readonly Finding[] {
  const hardBars = new Set(analysis.pitfalls.filter(({ kind }) => HARD.has(kind)).flatMap(({ places }) => places.flatMap(({ fromBar, toBar }) => (toBar - fromBar < MOST_PITFALL_BARS ? [fromBar, toBar] : []))));
  const told = measures.bars.flatMap((bar, i) => {
    const { againstAround, bends = [] } = measures.pulse.bars[i] ?? {};
    return againstAround?.measured === true && bends.length === 0 ? [{ bar, tempo: againstAround.value }] : [];
  });
  const hard = told.filter(({ bar }) => hardBars.has(bar.barIndex));
  const others = told.filter(({ bar }) => !hardBars.has(bar.barIndex));
  const slower = hard.filter(({ tempo }) => tempo <= SLOWER);
  if (hard.length < LEAST_HARD || others.length < LEAST_OTHER || slower.length < MOST_SHARE * hard.length) return [];
  const under = 1 - median(hard.map(({ tempo }) => tempo)) / median(others.map(({ tempo }) => tempo));
  if (under < UNDER) return [];
  return slower.map(({ bar }): Finding => ({
    aspect: 'pulse', kind: 'slowerWhereHard', hand: null, topic: '',
    place: visitPlace(bar),
    measured: { value: Math.round(100 * under), unit: '%', threshold: 100 * UNDER }, severity: severityOf(under / UNDER), confidence: CONFIDENCE,
  }));
}
