/*
 * The teacher's question: what is better than last time, what is worse?
 *
 * Conventions: like with like: the same bar in the same pass, the last complete try of each recording. A fault that is in one
 *   recording and at most slight in the other is a change, but only where what was measured there has really moved.
 * Method: faults of one aspect, kind and hand are matched where their bars overlap, wrong notes by the note; then the measured
 *   values are compared (moved.ts). A bar that only one of the two recordings holds is left out.
 * Source: our own rule for the matching; scatter.ts for what is more than scatter.
 * What it does not tell: why. "No evidence of a change" is a result, not a failure.
 */
import { listInWords, sentenceCase } from '../base/index.js';
import { ASPECTS, neighbouring, weightOf, type Aspect, type FoundPlace, type JudgeInput, type Observation, type ObservedPlace } from '../judge/index.js';
import { explains } from '../review/index.js';
import { barNames } from '../score/index.js';
import { changeInWords } from './changeWords.js';
import { hasMoved } from './moved.js';
import { keyOf, pairedValues, sideOf, type Side, type Spot } from './sides.js';
import type { Change, Comparison, Direction } from './types.js';

/** A fault counts from this weight on (>=): it was worth a look. */
const WORTH_A_LOOK = 0.25;

/** It has changed where at most (<=) this share of its weight is left. */
const LEFT_SHARE = 0.6;

/** What broke off is never the last try at a bar. */
const GOING_BACK = 'goingBack';

/** Faults this many bars apart (<=) are the same fault: where a hesitation falls shifts by a bar from one playing to the next. */
const NEAR_BARS = 1;

/** Compares two recordings against one score. */
export function compareRecordings(earlier: JudgeInput, later: JudgeInput): Comparison {
  const [before, after] = [sideOf(earlier), sideOf(later)];
  const common = new Set([...before.tries.keys()].filter((key) => after.tries.has(key)));
  const changes = [...saidOnce(changed(before, after, { common, direction: 'better' })), ...saidOnce(changed(after, before, { common, direction: 'worse' }))].sort((a, b) => b.weight - a.weight);
  const both = ASPECTS.filter((aspect) => isMeasured(before, aspect) && isMeasured(after, aspect));
  return {
    changes,
    unchanged: both.filter((aspect) => !changes.some((change) => change.aspect === aspect)),
    notCompared: notCompared(before, after, common),
    bars: [...new Set([...common].map((key) => Number(key.split(':')[0])))].sort((a, b) => a - b),
  };
}

/** Without what another change is the reason of: a wait that is gone takes the overlong note before it along. */
function saidOnce(changes: readonly Change[]): readonly Change[] {
  return changes.filter((change) => !changes.some((other) => other !== change && explains(other, change)));
}

/** Faults of one recording that are gone or slight in the other. */
function changed(clear: Side, other: Side, { common, direction }: { readonly common: ReadonlySet<string>; readonly direction: Direction }): readonly Change[] {
  const values = pairedValues(clear, other);
  return clear.judgement.observations.flatMap((observation) => {
    if (!isMeasured(other, observation.aspect)) return [];
    const ofTry = observation.kind !== GOING_BACK;
    const places = observation.places.filter((place) => counts(clear, { ...place, ofTry }, common) && isChange({ clear, other, observation, place, values }));
    return places.length === 0 ? [] : [changeOf(observation, places, { input: clear.input, direction })];
  });
}

/** True where a fault is there, hardly anything of it is in the other recording, and what it was made of has moved. */
function isChange(spot: Spot): boolean {
  const { place } = spot;
  return place.weight >= WORTH_A_LOOK && remains(spot) <= LEFT_SHARE * place.weight && hasMoved(spot);
}

/** True for a place in bars that both recordings hold, in the last tries of them where it belongs to a try. */
function counts({ tries }: Side, { fromBar, toBar, pass, attempt, ofTry }: FoundPlace & { readonly ofTry: boolean }, common: ReadonlySet<string>): boolean {
  const keys = Array.from({ length: toBar - fromBar + 1 }, (_, i) => keyOf({ barIndex: fromBar + i, pass }));
  return keys.every((key) => common.has(key)) && (!ofTry || keys.some((key) => tries.get(key) === attempt));
}

/** What of a fault is in the other recording: the weight of the like places at its notes or bars, 0 for none. */
function remains({ other: { judgement }, observation: one, place }: Spot): number {
  const like = judgement.observations.filter(({ aspect, kind, hand }) => aspect === one.aspect && (kind === one.kind || one.aspect === 'notes') && (hand === one.hand || hand === null || one.hand === null));
  const near = like.flatMap(({ places }) => places).filter((against) => against.pass === place.pass && isSame(one.aspect, place, against));
  return near.reduce((most, { weight }) => Math.max(most, weight), 0);
}

/** True where two places of one kind of fault are the same fault: wrong notes by the note, all else by the bar. */
function isSame(aspect: Aspect, place: ObservedPlace, { fromBar, toBar, notes }: ObservedPlace): boolean {
  if (aspect === 'notes' && place.notes.length > 0) return place.notes.every((note) => notes.includes(note));
  return fromBar <= place.toBar + NEAR_BARS && toBar >= place.fromBar - NEAR_BARS;
}

/** One change with its sentence. */
function changeOf(observation: Observation, places: readonly ObservedPlace[], { input, direction }: { readonly input: JudgeInput; readonly direction: Direction }): Change {
  const { aspect, kind, hand } = observation;
  const weight = weightOf(places.map((place) => ({ severity: place.weight, confidence: 1 })));
  return { aspect, kind, direction, hand, places, weight, text: changeInWords(input, { observation, places, direction }) };
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
  const ranges = neighbouring(missing.map((bar) => ({ fromBar: bar, toBar: bar })));
  return ranges.length === 0 ? aspects : [...aspects, `Only one of the two holds ${listInWords(ranges.map(({ fromBar, toBar }) => names.range(fromBar, toBar)))}.`];
}
