/*
 * The tempo creeps up or down over the whole: no single bar runs away, and yet the end is another tempo than the beginning.
 *
 * What is a fault: of all bars under one mark, the last third goes in another tempo than the first, and the middle lies between. Within a tenth is as marked (common practice); it also has
 * to be more than the bars of a third differ among themselves.
 */
import { median } from 'simple-statistics';
import type { BendReason } from '../measure/index.js';
import type { Finding, JudgeInput } from './types.js';
import { severityOf } from './weight.js';

/** From so much (>=) on the end is another tempo than the beginning: beyond the tenth that passes as the same. Logarithm of a ratio. */
const CREPT = Math.log(1.12);

/** Fewest bars (>=) that can be told in thirds. */
const LEAST_BARS = 12;

/** So much (>=) of the last third must have left the tempo of the first. */
const MOST_SHARE = 0.9;

/** A piece may be meant to press on. */
const CONFIDENCE = 0.8;

/** Reasons for which a bar does not count. */
const NOT_COUNTED: ReadonlySet<BendReason> = new Set(['free', 'fermata', 'close', 'bendWord']);

/** One finding for each span of one written tempo over which the tempo crept. */
export function driftFindings({ measures }: JudgeInput): readonly Finding[] {
  let next = 0;
  return measures.pulse.spans.flatMap(({ stretch, fromVisit, toVisit }) => {
    // spans follow each other through the list of bars
    const start = next;
    next += toVisit - fromVisit + 1;
    const told = measures.bars.slice(start, next).flatMap((bar, i) => {
      const { tempo, bends = [] } = measures.pulse.bars[start + i] ?? {};
      const counts = tempo?.measured === true && tempo.value > 0 && !bends.some((reason) => NOT_COUNTED.has(reason));
      return counts ? [{ bar, tempo: Math.log(tempo.value) }] : [];
    });
    const by = creptBy(told.map(({ tempo }) => tempo));
    const first = told[0]?.bar;
    const last = told.at(-1)?.bar;
    if (Math.abs(by) < CREPT || first === undefined || last === undefined) return [];
    return [{
      aspect: 'pulse' as const, kind: by > 0 ? 'creepsUp' : 'creepsDown', hand: null, topic: `${stretch}:${fromVisit}`,
      place: { fromBar: Math.min(first.barIndex, last.barIndex), toBar: Math.max(first.barIndex, last.barIndex), pass: first.pass, attempt: first.attempt, notes: [], startS: first.startS },
      measured: { value: Math.round(100 * Math.expm1(by)), unit: '%', threshold: Math.round(100 * Math.expm1(CREPT)) },
      severity: severityOf(Math.abs(by) / CREPT), confidence: CONFIDENCE,
    }];
  });
}

/** By how much the last third left the tempo of the first, logarithm; 0 where it did not, or not by and by. */
function creptBy(tempos: readonly number[]): number {
  if (tempos.length < LEAST_BARS) return 0;
  const third = Math.floor(tempos.length / 3);
  const [early, middle, late] = [tempos.slice(0, third), tempos.slice(third, -third), tempos.slice(-third)];
  const [from, through, to] = [median(early), median(middle), median(late)];
  const by = to - from;
  const between = (through - from) * (to - through) > 0;
  const left = late.filter((tempo) => (tempo - from) * Math.sign(by) > Math.abs(by) / 2).length;
  const stayed = early.filter((tempo) => (tempo - from) * Math.sign(by) < Math.abs(by) / 2).length;
  return between && left >= MOST_SHARE * late.length && stayed >= MOST_SHARE * early.length ? by : 0;
}
