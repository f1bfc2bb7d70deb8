/*
 * The teacher's question: what is better than last time, what is worse?
 *
 * Conventions: like with like: the same bar in the same pass, the last complete try of each recording. A fault that is clear
 *   in one recording and at most slight in the other is a change; one that is slight in both, or clear in both, is none.
 * Method: faults of one aspect, kind and hand are matched where their bars overlap. A bar that only one of
 *   the two recordings holds is left out.
 * Source: our own rule. The gap between "clear" and "slight" stands for the player's own scatter: what moves by less from
 *   one playing to the next, with nobody practising, is no change.
 * What it does not tell: why. "No evidence of a change" is a result, not a failure.
 */
import { groupBy, listInWords, sentenceCase } from '../base/index.js';
import { ASPECTS, judgeAll, weightOf, type Aspect, type FoundPlace, type Judgement, type JudgeInput, type Observation, type ObservedPlace } from '../judge/index.js';
import type { BarFacts } from '../measure/index.js';
import { barNames } from '../score/index.js';
import type { Change, Comparison, Direction } from './types.js';

/** A fault is clear from this weight on (>=): well beyond what is only worth a look (0.3). */
const CLEAR = 0.45;

/** A wrong note and a going-back happen or do not; no scatter makes one of nothing. They count from this weight on (>=). */
const CLEAR_EVENT = 0.25;

/** Aspects whose faults are events. */
const EVENTS: readonly Aspect[] = ['notes', 'route'];

/** It has changed where at most (<=) this share of its weight is left. */
const LEFT_SHARE = 0.6;

/** Faults this many bars apart (<=) are the same fault: where a hesitation falls shifts by a bar from one playing to the next. */
const NEAR_BARS = 1;

/** One recording with its judgement, as far as it is compared. */
interface Side {
  readonly input: JudgeInput;
  readonly judgement: Judgement;
  /** Last complete tries, "bar:pass" to attempt. */
  readonly tries: ReadonlyMap<string, number>;
}

/** Compares two recordings against one score. */
export function compareRecordings(earlier: JudgeInput, later: JudgeInput): Comparison {
  const [before, after] = [sideOf(earlier), sideOf(later)];
  const common = new Set([...before.tries.keys()].filter((key) => after.tries.has(key)));
  const changes = [...changed(before, after, { common, direction: 'better' }), ...changed(after, before, { common, direction: 'worse' })].sort((a, b) => b.weight - a.weight);
  const both = ASPECTS.filter((aspect) => isMeasured(before, aspect) && isMeasured(after, aspect));
  return {
    changes,
    unchanged: both.filter((aspect) => !changes.some((change) => change.aspect === aspect)),
    notCompared: notCompared(before, after, common),
    bars: [...new Set([...common].map((key) => Number(key.split(':')[0])))].sort((a, b) => a - b),
  };
}

/** Judges one recording and finds its last tries. */
function sideOf(input: JudgeInput): Side {
  return { input, judgement: judgeAll(input), tries: lastTries(input.measures.bars) };
}

/** For every bar and pass the last try that played most of it; of none that did, the last. */
function lastTries(bars: readonly BarFacts[]): ReadonlyMap<string, number> {
  return new Map([...groupBy(bars, keyOf)].map(([key, tries]) => {
    const complete = tries.filter(({ played, missed }) => played > missed);
    return [key, (complete.at(-1) ?? tries.at(-1))?.attempt ?? 1];
  }));
}

/** A bar in one pass. */
function keyOf({ barIndex, pass }: Pick<BarFacts, 'barIndex' | 'pass'>): string {
  return `${barIndex}:${pass}`;
}

/** Faults that are clear in one recording and gone or slight in the other. */
function changed(clear: Side, other: Side, { common, direction }: { readonly common: ReadonlySet<string>; readonly direction: Direction }): readonly Change[] {
  return clear.judgement.observations.flatMap((one) => {
    if (!isMeasured(other, one.aspect)) return [];
    const places = one.places.filter((place) => counts(clear, place, common) && place.weight >= (EVENTS.includes(one.aspect) ? CLEAR_EVENT : CLEAR) && remains(other, one, place) <= LEFT_SHARE * place.weight);
    return places.length === 0 ? [] : [changeOf(one, places, direction)];
  });
}

/** True for a place in the last tries of bars that both recordings hold. */
function counts({ tries }: Side, { fromBar, toBar, pass, attempt }: FoundPlace, common: ReadonlySet<string>): boolean {
  const keys = Array.from({ length: toBar - fromBar + 1 }, (_, i) => `${fromBar + i}:${pass}`);
  return keys.every((key) => common.has(key)) && keys.some((key) => tries.get(key) === attempt);
}

/** What of a fault is in the other recording: the weight of the like places at its bars, 0 for none. */
function remains({ judgement }: Side, one: Observation, place: ObservedPlace): number {
  const like = judgement.observations.filter(({ aspect, kind, hand }) => aspect === one.aspect && (kind === one.kind || one.aspect === 'notes') && (hand === one.hand || hand === null || one.hand === null));
  const near = like.flatMap(({ places }) => places).filter(({ fromBar, toBar, pass }) => pass === place.pass && fromBar <= place.toBar + NEAR_BARS && toBar >= place.fromBar - NEAR_BARS);
  return near.reduce((most, { weight }) => Math.max(most, weight), 0);
}

/** One change with its sentence. */
function changeOf({ aspect, kind, hand, text }: Observation, places: readonly ObservedPlace[], direction: Direction): Change {
  const weight = weightOf(places.map((place) => ({ severity: place.weight, confidence: 1 })));
  const said = direction === 'better' ? `No longer so: ${text}` : `New this time: ${text}`;
  return { aspect, kind, direction, hand, places, weight, text: said };
}

/** True where an aspect has a value. */
function isMeasured({ judgement }: Side, aspect: Aspect): boolean {
  return judgement.aspects.some((one) => one.aspect === aspect && one.concern.measured);
}

/** Bars and aspects that only one of the two recordings has. */
function notCompared(before: Side, after: Side, common: ReadonlySet<string>): readonly string[] {
  const single = ASPECTS.filter((aspect) => isMeasured(before, aspect) !== isMeasured(after, aspect));
  const aspects = single.length === 0 ? [] : [`${sentenceCase(listInWords(single))} could be measured in one of the two only.`];
  const names = barNames(before.input.score, before.input.language);
  const missing = [...new Set([...before.tries.keys(), ...after.tries.keys()])].filter((key) => !common.has(key)).map((key) => Number(key.split(':')[0]));
  const ranges = rangesOf([...new Set(missing)]);
  return ranges.length === 0 ? aspects : [...aspects, `Only one of the two holds ${listInWords(ranges.map(([from, to]) => names.range(from, to)))}.`];
}

/** Neighbouring bars as ranges. */
function rangesOf(bars: readonly number[]): readonly (readonly [number, number])[] {
  const out: [number, number][] = [];
  for (const bar of [...bars].sort((a, b) => a - b)) {
    const last = out.at(-1);
    if (last !== undefined && bar === last[1] + 1) last[1] = bar;
    else out.push([bar, bar]);
  }
  return out;
}
