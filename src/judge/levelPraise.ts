/*
 * What went well in loud and soft, and more than might be expected: marked contrasts made in full, a tune that sings.
 *
 * Praised is only what is free of remarks of its kind.
 */
import { HANDS, type Hand } from '../measure/index.js';
import type { BalancedBar } from './balancedBars.js';
import { judged } from './dynamicsMarks.js';
import { levelFinding, type LevelGround } from './levelGround.js';
import { whereInWords } from './placeWords.js';
import type { Observation, Praise } from './types.js';

/** Contrasts of so many steps (>=) are praised, from so many velocity units a step on (>=): what is expected of one where the player has no habit. */
const PRAISED_STEPS = 2;
const PRAISED_STEP_UNITS = 5;

/** So many contrasts (>=) made in full, and none left out. */
const PRAISED_CHANGES = 2;

/** A tune sings where it stands so far (>=) over its accompaniment, velocity units: the middle of 10 to 20 (trade texts), for so many bars on end (>=). */
const SINGING_UNITS = 15;
const SINGING_BARS = 4;

/** What such praise weighs. Our own rule. */
const CONTRAST_WEIGHT = 0.5;
const SINGING_WEIGHT = 0.4;

/** Praise for contrasts: at their marks, where every one of them was made in full. */
export function contrastPraise(ground: LevelGround, observations: readonly Observation[]): readonly Praise[] {
  const wide = ground.facts.changes.filter((change) => change.steps >= PRAISED_STEPS && change.kind !== 'subito' && judged(change));
  const bad = observations.some(({ kind }) => kind === 'changeNotMade' || kind === 'oneLevel' || kind === 'hairpinNotMade');
  if (bad || wide.length < PRAISED_CHANGES || wide.some(({ made, steps }) => made < PRAISED_STEP_UNITS * steps)) return [];
  const places = wide.flatMap(({ stretch, visitIndex, startS }) => {
    const visit = ground.visit(stretch, visitIndex);
    return visit === undefined ? [] : praisedPlaces(ground, [visit], startS);
  });
  return places.length === 0 ? [] : [{ aspect: 'dynamics', hand: null, places, weight: CONTRAST_WEIGHT, text: `${whereInWords(ground.input, null, places)}: the marked contrasts are plain to hear.` }];
}

/** Praise for the longest stretch in which the tune sings, a hand at a time; `bars` in order of time. */
export function singingPraise(ground: LevelGround, bars: readonly BalancedBar[], observations: readonly Observation[]): readonly Praise[] {
  if (observations.length > 0 || ground.facts.balance.counterpoint) return [];
  return HANDS.flatMap((hand) => {
    const run = longestRun(bars, hand);
    const [first] = run;
    if (first === undefined || run.length < SINGING_BARS) return [];
    const places = praisedPlaces(ground, run.map(({ visit }) => visit), first.visit.startS);
    return [{ aspect: 'balance', hand, places, weight: SINGING_WEIGHT, text: `${whereInWords(ground.input, null, places)}: the tune sings over its accompaniment.` }];
  });
}

/** The longest run of bars that follow one another, with the tune of this hand well over the rest. */
function longestRun(bars: readonly BalancedBar[], hand: Hand): readonly BalancedBar[] {
  let [best, run]: [readonly BalancedBar[], readonly BalancedBar[]] = [[], []];
  for (const bar of bars) {
    const before = run.at(-1);
    const follows = before !== undefined && before.visit.stretch === bar.visit.stretch && before.visit.barIndex + 1 === bar.visit.barIndex;
    if (bar.hand !== hand || bar.over < SINGING_UNITS) run = [];
    else run = follows ? [...run, bar] : [bar];
    if (run.length > best.length) best = run;
  }
  return best;
}

/** The place of some visits, in order of time, as praise names it; nothing of none. */
export function praisedPlaces(ground: LevelGround, visits: Parameters<typeof levelFinding>[1]['visits'], startS: number): Praise['places'] {
  return levelFinding(ground, { aspect: 'dynamics', kind: 'praise', hand: null, topic: '', visits, notes: [], startS, severity: 0, confidence: 1, measured: { value: 0, unit: '', threshold: 0 } }).map(({ place }) => place);
}
