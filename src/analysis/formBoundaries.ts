/*
 * Question: with which bars do sections begin?
 * Conventions: places in `Score.bars`, ascending, the first bar that counts always among them.
 * Method: to the weight of the printed and harmonic signs comes the weight of a return that begins here: half a point a bar up to eight,
 *   less where it is transposed or soon after its source. The strongest bars above the threshold are taken first, none nearer to
 *   one already taken than four bars (two at a repeat or double bar). Done twice: a section that was found can return.
 * Source: our own rule; threshold and weights set by reading thirty scores.
 * What it does not tell: sections shorter than four bars inside a piece without double bars.
 */
import type { Score } from '../score/index.js';
import type { BarContent } from './formBars.js';
import { boundaryWeights, hardBoundaries, type FormMaterial } from './formEvidence.js';
import { common } from './formLikeness.js';
import type { Return } from './formReturns.js';

/** A section begins at bars that weigh at least this; `>=`. */
const THRESHOLD = 4;

/** Bars between two beginnings, at least (to the end of the piece, at a double bar, two); nearer than the usual eight, a beginning needs more to speak for it. */
const LEAST_APART = 4;
const USUAL_BARS = 8;
const SHORT_CHARGE = 1.5;
const LEAST_AT_END = 2;

/** A return shorter than this (bars) is no evidence of a section. */
const LEAST_RETURN = 3;

/** Returns count up to this many bars, and fully from this lag on: an eight-bar period is one thing. */
const FULL_RETURN = 8;

/** What a bar of return weighs; transposed, it weighs less. */
const RETURN_BAR_WEIGHT = 0.5;
const TRANSPOSED = 0.75;

/** A return this much like its source, `>=`, weighs so much more: nobody writes the same three bars twice by chance. */
const NEARLY_EXACT = 0.9;
const EXACT_WEIGHT = 1;

/** A return says to the bar where a section begins; this share of what speaks for the bar before or after is taken over. */
const NEAR_SHARE = 0.7;

/** Where a return of at least so many bars ends, something else begins. */
const RETURN_END_WEIGHT = 1;
const LEAST_ENDING = 6;

/** Regular lengths from the last double bar: eight bars, four bars. */
const EIGHT_BARS = 1;
const FOUR_BARS = 0.5;

/** First bars of all sections. */
export function sectionStarts(material: FormMaterial, returns: readonly Return[]): readonly number[] {
  const { score } = material;
  const first = firstCountedBar(score);
  const lines = hardBoundaries(score);
  const base = boundaryWeights(material).map((weight, i) => weight + regularity(score, i, { first, lines }));
  const long = returns.filter((one) => one.length >= LEAST_RETURN);
  const entry = tuneEntry(material, first);
  const given = [first, ...(entry === null ? [] : [entry])];
  const once = choose(base, { given, lines, returns: long, sources: new Set([...given, ...lines]) });
  const twice = writtenTwice(long, new Set(once));
  const lifted = base.map((weight, bar) => (twice.has(bar) ? weight + THRESHOLD : weight));
  const starts = choose(lifted, { given, lines, returns: long, sources: new Set(once) });
  const comesBack = long.some((one) => one.source !== one.target && starts.includes(one.source) && starts.includes(one.target));
  return comesBack || lines.size > 0 ? splitLong(starts, withReturns(base, long, new Set(once))) : starts;
}

/** The likeness of two passages may begin so many bars early: closes are alike before what follows them is. */
const MOST_EARLY = 2;

/** First bars of passages of eight bars and more whose note-for-note repetition directly after them begins a section: they begin one, too. */
function writtenTwice(returns: readonly Return[], starts: ReadonlySet<number>): ReadonlySet<number> {
  const repeated = returns.filter((one) => one.length >= FULL_RETURN && one.target - one.source === one.length && one.share >= NEARLY_EXACT);
  const early = Array.from({ length: MOST_EARLY + 1 }, (_, i) => i);
  return new Set(repeated.flatMap((one) => early.filter((i) => starts.has(one.target + i)).map((i) => one.source + i)));
}

/** The first bar, or the second where the first is an upbeat, however it is numbered. */
export function firstCountedBar(score: Score): number {
  const bar = score.bars[0];
  const upbeat = bar !== undefined && score.bars.length > 1 && bar.lengthTicks < bar.nominalTicks;
  return upbeat ? 1 : 0;
}

/** What the choice is made from. */
interface Choice {
  readonly given: readonly number[];
  readonly lines: ReadonlySet<number>;
  readonly returns: readonly Return[];
  /** Bars whose returns count. */
  readonly sources: ReadonlySet<number>;
}

/** The strongest bars, far enough apart. */
function choose(base: readonly number[], { given, lines, returns, sources }: Choice): readonly number[] {
  const weights = withReturns(base, returns, sources);
  const order = weights.map((weight, bar) => ({ weight, bar })).filter(({ weight }) => weight >= THRESHOLD);
  order.sort((a, b) => Number(lines.has(b.bar)) - Number(lines.has(a.bar)) || b.weight - a.weight || a.bar - b.bar);
  const taken = [...given];
  for (const { bar, weight } of order) {
    const nearest = taken.reduce((least, other) => Math.min(least, Math.abs(other - bar)), Infinity);
    const left = base.length - bar;
    const usual = Math.min(nearest, left) >= USUAL_BARS || weight >= THRESHOLD + SHORT_CHARGE;
    const enough = nearest >= LEAST_APART && (lines.has(bar) ? left >= LEAST_AT_END : left >= LEAST_APART && usual);
    if (enough && given.some((other) => bar > other)) taken.push(bar);
  }
  return taken.sort((a, b) => a - b);
}

/** In a piece where something returns, or with double bars: sections longer than so many bars, and than so much of the piece, are cut at their strongest bar though it is weaker than the rest. */
const LONG_BARS = 32;
const LONG_SHARE = 0.2;
const WEAK_THRESHOLD = 3;

/** Cuts long sections, each part again. */
function splitLong(starts: readonly number[], weights: readonly number[]): readonly number[] {
  const all = starts.flatMap((start, i) => {
    const end = starts[i + 1] ?? weights.length;
    if (end - start <= Math.max(LONG_BARS, LONG_SHARE * weights.length)) return [start];
    const inside = weights.map((weight, bar) => ({ weight, bar })).filter(({ weight, bar }) => weight >= WEAK_THRESHOLD && bar - start >= USUAL_BARS && end - bar >= USUAL_BARS);
    const cut = inside.sort((a, b) => b.weight - a.weight || a.bar - b.bar)[0];
    return cut === undefined ? [start] : [start, cut.bar];
  });
  return all.length === starts.length ? all : splitLong(all, weights);
}

/** The weights with what returns add: the strongest that begins at each bar, and a little where long ones end. */
function withReturns(base: readonly number[], returns: readonly Return[], sources: ReadonlySet<number>): readonly number[] {
  const begins = base.map(() => 0);
  const ends = base.map(() => 0);
  for (const one of returns.flatMap((each) => fromSources(each, sources))) {
    const beside = NEAR_SHARE * Math.max(base[one.target - 1] ?? 0, base[one.target + 1] ?? 0);
    begins[one.target] = Math.max(begins[one.target] ?? 0, returnWeight(one) + Math.max(0, beside - (base[one.target] ?? 0)));
    if (one.length < LEAST_ENDING || one.target - one.source < FULL_RETURN) continue;
    for (const end of [one.source, one.target].map((from) => from + one.length)) ends[(base[end + 1] ?? 0) > (base[end] ?? 0) ? end + 1 : end] = RETURN_END_WEIGHT;
  }
  return base.map((weight, i) => weight + (begins[i] ?? 0) + (ends[i] ?? 0));
}

/** The parts of a return that begin with the source of a section: a return of a close and the repeat after it are one run of likeness. */
function fromSources(one: Return, sources: ReadonlySet<number>): readonly Return[] {
  const ats = Array.from({ length: Math.max(0, one.length - LEAST_RETURN + 1) }, (_, i) => i).filter((i) => sources.has(one.source + i));
  return ats.map((i) => ({ ...one, source: one.source + i, target: one.target + i, length: one.length - i }));
}

/** What one return weighs where it begins. */
function returnWeight({ source, target, length, share, shift }: Return): number {
  const bars = Math.min(length, FULL_RETURN) * Math.min(1, (target - source) / FULL_RETURN);
  const exact = share >= NEARLY_EXACT && bars >= LEAST_RETURN ? EXACT_WEIGHT : 0;
  return (bars * RETURN_BAR_WEIGHT * share + exact) * (shift % 12 === 0 ? 1 : TRANSPOSED);
}

/** Eight or four bars after the last double bar (or the beginning), or multiples. */
function regularity(score: Score, bar: number, { first, lines }: { readonly first: number; readonly lines: ReadonlySet<number> }): number {
  const last = [...lines].reduce((latest, line) => (line < bar ? Math.max(latest, line) : latest), first);
  const distance = score.bars.slice(last, bar).filter((each) => !each.implicit).length;
  if (bar <= last || distance === 0) return 0;
  if (distance % 8 === 0) return EIGHT_BARS;
  return distance % 4 === 0 ? FOUR_BARS : 0;
}

/** An introduction of accompaniment alone, in bars. */
const SHORTEST_VAMP = 2;
const LONGEST_VAMP = 8;

/** The accompaniment goes on as it began where its onsets, and where its notes, agree by these shares; `>=`. A fugue's first voice does not. */
const GOES_ON = 0.8;
const SAME_NOTES = 0.3;

/** The bar in which the right hand first enters over an accompaniment that began alone and goes on; null without one. */
function tuneEntry({ bars }: FormMaterial, first: number): number | null {
  const entry = bars.findIndex((bar) => bar.right.length > 0);
  const [alone, under] = [bars[entry - 1], bars[entry]];
  if (alone === undefined || under === undefined || entry - first < SHORTEST_VAMP || entry - first > LONGEST_VAMP || bars.length < 4 * (entry - first)) return null;
  const left = (bar: BarContent): readonly number[] => bar.onsets.filter((onset) => onset % 2 === 1);
  return alone.left.length > 0 && common(left(alone), left(under), 0) >= GOES_ON && common(alone.left, under.left, 0) >= SAME_NOTES ? entry : null;
}
