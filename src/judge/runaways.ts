/*
 * Rushing and dragging: the tempo leaves where it was over several bars.
 *
 * What is a fault: bar after bar quicker (or slower), well away from the tempo around, where nothing is written that asks for it. A phrase that moves on in its middle and
 * eases at its end is expression: it stays within what the player does elsewhere in the piece. References: a change of tempo is heard from 3 to 6 %
 * on (Drake and Botte 1993); within a tenth is as marked (common practice).
 */
import { mean, median, quantile } from 'simple-statistics';
import type { BarFacts, BendReason } from '../measure/index.js';
import type { Finding, JudgeInput } from './types.js';
import { severityOf } from './weight.js';

/** Fewest bars (>=) in which a tempo runs away: in two it may be a gesture. */
const LEAST_BARS = 3;

/** A tempo sinks in no fewer than these (>=): three slow bars are a broad place. */
const LEAST_SINKING = 4;

/** Of fewer bars than these (<) a run must get farther: by the root of what is missing, as for any mean of fewer values. */
const FULL_BARS = 4;

/** How many bars on either side tell the tempo around. */
const BARS_AROUND = 8;

/** Fewest of them (>=). */
const LEAST_AROUND = 4;

/** At first, before it is known which bars ran away, this quantile of the bars around stands for their tempo: where two bars in five run away, about the middle of the others. */
const FIRST_QUANTILE = 0.4;

/** From so much (>=) off the tempo around on a bar belongs to a run: just heard. Logarithm of a ratio. */
const HEARD = Math.log(1.05);

/** From so much (>=) on it is another tempo: beyond the tenth that passes as the same. Logarithm of a ratio. */
const AWAY = Math.log(1.12);

/** It is also so many times (>=) as far as all but a fifth of the player's other bars in the same direction, and as far as those in both. */
const TIMES_USUAL = 1.5;

/** The share of the other bars that the usual takes in. */
const USUAL_SHARE = 0.8;

/** How many of its bars tell how far it got. */
const FARTHEST_BARS = 2;

/** A tempo that is another at once and stays so is rushing too, where it is in the middle of things; but it may be meant, and counts for this share. */
const AT_ONCE_SHARE = 0.7;

/** A run ends with the last bar that is nearly as far (>=, share) as its farthest. */
const NEARLY = 0.7;

/** Reasons for which a bar is expected to leave its tempo. */
const MAY_LEAVE: ReadonlySet<BendReason> = new Set(['free', 'fermata', 'bendWord', 'close']);

/** A change of tempo over several bars may still be meant. */
const CONFIDENCE = 0.9;

/** The two directions. */
type RunKind = 'rushing' | 'dragging';

/** One visit and its tempo. */
interface Visit {
  readonly bar: BarFacts;
  /** Logarithm; null where it has none, or may leave it. */
  readonly tempo: number | null;
  /** Bars with another key are under another mark, in another metre or in another stretch. */
  readonly ground: string;
  /** True where a phrase or section ends in it. */
  readonly ends: boolean;
}

/** A run of visits that runs away, by places in the list. */
interface Run {
  readonly from: number;
  /** Inclusive. */
  readonly to: number;
  /** How far it got away, logarithm. */
  readonly by: number;
}

/** Findings of both kinds. */
export function runawayFindings(input: JudgeInput): readonly Finding[] {
  const visits = visitsOf(input);
  return (['rushing', 'dragging'] as const).flatMap((kind) => {
    const sign = kind === 'rushing' ? 1 : -1;
    const first = runsIn(visits, awayFrom(visits, { sign, quantile: FIRST_QUANTILE, except: [] })).filter(({ by }) => by >= AWAY);
    const away = awayFrom(visits, { sign, quantile: 0.5, except: first });
    const others = away.filter((off, i) => off !== null && !first.some(({ from, to }) => i >= from && i <= to)).flatMap((off) => off ?? []);
    const threshold = Math.max(AWAY, TIMES_USUAL * usual(others), usual(others.map(Math.abs)));
    const again = runsIn(visits, away).filter((run) => !first.some((other) => overlap(run, other)));
    const runs = [...first.map((run) => ({ ...run, by: gotAway(away, run) })), ...again];
    return runs.filter((run) => run.by * weightOf(run) >= threshold && !eases(kind, visits, run)).map((run) => findingOf(visits, run, { kind, threshold }));
  });
}

/** How far most of the player's other bars are off; both ways with distances given. */
function usual(others: readonly number[]): number {
  return others.length === 0 ? 0 : quantileOf(others, USUAL_SHARE);
}

/** What a run of few bars counts. */
function weightOf({ from, to }: Run): number {
  return Math.sqrt(Math.min(1, (to - from + 1) / FULL_BARS));
}

/** True where two runs share a bar. */
function overlap(a: Run, b: Run): boolean {
  return a.from <= b.to && b.from <= a.to;
}

/** True for a slowing that is short, or leads into the end of a phrase or section: that is how phrases end. */
function eases(kind: RunKind, visits: readonly Visit[], { from, to }: Run): boolean {
  return kind === 'dragging' && (to - from + 1 < LEAST_SINKING || [visits[to], visits[to + 1]].some((visit) => visit === undefined || visit.ends));
}

/** Every visit with its tempo. */
function visitsOf({ measures, score }: JudgeInput): readonly Visit[] {
  const { spans, bars: pulses } = measures.pulse;
  let span = 0;
  return measures.bars.map((bar, i) => {
    const { tempo, bends = [] } = pulses[i] ?? {};
    while (span < spans.length - 1 && !((spans[span]?.stretch ?? 0) === bar.stretch && bar.visitIndex <= (spans[span]?.toVisit ?? 0))) span += 1;
    const counts = tempo?.measured === true && tempo.value > 0 && !bends.some((reason) => MAY_LEAVE.has(reason));
    return { bar, tempo: counts ? Math.log(tempo.value) : null, ground: `${span}:${score.bars[bar.barIndex]?.nominalTicks ?? 0}`, ends: bends.some((reason) => reason === 'phraseEnd' || reason === 'sectionStart') };
  });
}

/** What a tempo is held against. */
interface Against {
  readonly sign: 1 | -1;
  readonly quantile: number;
  /** Runs that are left out of the tempo around. */
  readonly except: readonly Run[];
}

/** How far every visit is off the tempo around it, in one direction; null where nothing tells. */
function awayFrom(visits: readonly Visit[], { sign, quantile, except }: Against): readonly (number | null)[] {
  const left = new Set(except.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i)));
  return visits.map(({ tempo, ground }, i) => {
    const around: number[] = [];
    for (let j = Math.max(0, i - BARS_AROUND); j <= i + BARS_AROUND; j += 1) {
      const other = visits[j];
      if (j !== i && other !== undefined && other.tempo !== null && other.ground === ground && !left.has(j)) around.push(sign * other.tempo);
    }
    return tempo === null || around.length < LEAST_AROUND ? null : sign * tempo - quantileOf(around, quantile);
  });
}

/** Runs of bars that are off by what is heard, and go farther and farther. */
function runsIn(visits: readonly Visit[], away: readonly (number | null)[]): readonly Run[] {
  const out: Run[] = [];
  for (let from = 0; from < away.length; from += 1) {
    let to = from;
    while ((away[to] ?? -Infinity) >= HEARD && visits[to]?.bar.stretch === visits[from]?.bar.stretch) to += 1;
    const values = away.slice(from, to).flatMap((off) => off ?? []);
    const farthest = Math.max(...values);
    const run = values.slice(0, Math.max(values.findLastIndex((off) => off >= NEARLY * farthest) + 1, LEAST_BARS));
    if (run.length >= LEAST_BARS) out.push({ from, to: from + run.length - 1, by: gotAway(away, { from, to: from + run.length - 1 }) });
    from = Math.max(from, to - 1);
  }
  return out;
}

/** How far a run got away: in its farthest bars, and no more than it went within itself from the bar before it on; one that went at once counts for less. */
function gotAway(away: readonly (number | null)[], { from, to }: Pick<Run, 'from' | 'to'>): number {
  const values = away.slice(from, to + 1).flatMap((off) => off ?? []);
  const farthest = [...values].sort((a, b) => b - a).slice(0, FARTHEST_BARS);
  const peak = values.indexOf(Math.max(...values));
  const before = away[from - 1] ?? 0;
  return values.length === 0 ? 0 : Math.max(mean(farthest) * AT_ONCE_SHARE, Math.min(mean(farthest), climb([Math.max(0, before), ...values.slice(0, Math.max(peak + 1, LEAST_BARS))])));
}

/** How far bars went from the first to the last: the middle of all slopes between them, over all of them. */
function climb(values: readonly number[]): number {
  return median(values.flatMap((early, i) => values.slice(i + 1).map((late, k) => (late - early) / (k + 1)))) * (values.length - 1);
}

/** Quantile of values in any order. */
function quantileOf(values: readonly number[], share: number): number {
  return quantile([...values], share);
}

/** The last bar of a run on paper: one that goes on past a repeat sign is named up to the sign. */
function lastOnPaper(visits: readonly Visit[], { from, to }: Run): BarFacts | undefined {
  const back = visits.slice(from + 1, to + 1).findIndex(({ bar }, i) => bar.barIndex < (visits[from + i]?.bar.barIndex ?? 0));
  return visits[back < 0 ? to : from + back]?.bar;
}

/** The finding of one run. */
function findingOf(visits: readonly Visit[], { from, to, by }: Run, { kind, threshold }: { readonly kind: RunKind; readonly threshold: number }): Finding {
  const first = visits[from]?.bar;
  const last = lastOnPaper(visits, { from, to, by });
  return {
    aspect: 'pulse', kind, hand: null, topic: '',
    place: { fromBar: first?.barIndex ?? 0, toBar: last?.barIndex ?? 0, pass: first?.pass ?? 1, attempt: first?.attempt ?? 1, notes: [], startS: first?.startS ?? 0 },
    measured: { value: Math.round(100 * (Math.exp(by) - 1)), unit: '%', threshold: Math.round(100 * (Math.exp(threshold) - 1)) },
    severity: severityOf((by * weightOf({ from, to, by })) / threshold), confidence: CONFIDENCE,
  };
}
