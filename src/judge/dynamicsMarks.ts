/*
 * Marks of level: changes, hairpins, accents.
 *
 * What is a fault: a contrast of two steps or more that stays under what is heard, or under a good part of what the player makes of such
 * marks elsewhere; a smaller one, or a subito, only where the level goes the other way. One that was led up to from the mark before is made;
 * with una corda it only has to be heard. A long hairpin over which nothing grows (or fades); a short one only where half of them are like that, for within a bar or two the metre and the
 * phrase have their own say. A sforzando softer than its neighbours, or no louder where that is the habit.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { HANDS, type AccentPlayed, type HairpinPlayed, type LevelChange } from '../measure/index.js';
import { HEARD_UNITS, levelFinding, type LevelGround } from './levelGround.js';
import type { Finding } from './types.js';
import { severityOf } from './weight.js';

/** What a step of the marks makes where the player shows no habit, velocity units: p to f, three steps, 15. Common practice, no source. */
const STEP_UNITS = 5;

/** Between these the player's own habit is believed, velocity units a step. Our own rule. */
const STEP_BOUNDS = [3, 8] as const;

/** Fewest wide contrasts (>=) that make a habit. */
const HABIT_CHANGES = 3;

/** Contrasts from so many steps (>=) on must be heard; narrower ones must only not go the other way. */
const WIDE_STEPS = 2;

/** Under this share (<) of the usual contrast it is not made, but no more is asked for than this, velocity units. Our own rule. */
const MADE_SHARE = 0.3;
const MOST_ASKED = 5;

/** A contrast that was led up to is one from so many times (>=) the least on. */
const LED_UP_TIMES = 2;

/** Shortest stretch (>=) on each side of a mark, bars: what changes faster is an accent. */
const LEAST_BARS = 1;

/** Less is known of a contrast than this (>), velocity units, and nothing is said. */
const MOST_ERROR = 7;


/** How sure we are of a contrast that the soft pedal may have made by colour. */
const COLOUR_CONFIDENCE = 0.7;

/** Shortest hairpin (>=) that must be heard to grow wherever it is, bars; and shortest that is spoken of at all. */
const LONG_HAIRPIN_BARS = 2;
const LEAST_HAIRPIN_BARS = 1;

/** Share of all hairpins, or sforzandos of a hand, (>=) that makes not following them a habit, and fewest that tell. */
const HABIT_SHARE = 0.5;
const HABIT_MARKS = 2;

/** What a flat hairpin falls short by for twice the threshold, velocity units. Our own rule: two steps of the marks. */
const HAIRPIN_UNITS = 10;


/** Where a mark was not followed. */
export function markFindings(ground: LevelGround): readonly Finding[] {
  const { changes, hairpins, accents } = ground.facts;
  const usual = usualStep(changes);
  const long = hairpins.filter((pin) => barsLong(ground, pin) >= LEAST_HAIRPIN_BARS);
  const shortest = isHabit(byMark(long).map((tries) => tries.every(flat))) ? LEAST_HAIRPIN_BARS : LONG_HAIRPIN_BARS;
  const sforzati = accents.filter(({ kind }) => kind === 'sforzando');
  return [
    ...changes.flatMap((change) => changeNotMade(ground, change, usual)),
    ...long.filter((pin) => flat(pin) && barsLong(ground, pin) >= shortest).flatMap((pin) => hairpinNotMade(ground, pin)),
    ...HANDS.flatMap((hand) => {
      const own = sforzati.filter((one) => one.hand === hand);
      const least = isHabit(own.map(({ over }) => over < HEARD_UNITS)) ? HEARD_UNITS : -HEARD_UNITS;
      return own.filter(({ over }) => over < least).flatMap((accent) => accentNotHeard(ground, accent));
    }),
  ];
}

/** True where a fault is the rule. */
function isHabit(faults: readonly boolean[]): boolean {
  return faults.length >= HABIT_MARKS && faults.filter((fault) => fault).length >= HABIT_SHARE * faults.length;
}

/** Hairpins as written, each with every time it was played: one place played flat twice is one. */
function byMark(hairpins: readonly HairpinPlayed[]): readonly (readonly HairpinPlayed[])[] {
  return [...groupBy(hairpins, ({ tick, hand }) => `${tick} ${hand ?? ''}`).values()];
}

/** True for a hairpin over which nothing is heard to happen. */
function flat({ made, errorUnits }: HairpinPlayed): boolean {
  return made + errorUnits / 2 < HEARD_UNITS;
}

/** Length of a hairpin in bars. */
function barsLong({ input: { score } }: LevelGround, { visitIndex, tick, untilTick }: HairpinPlayed): number {
  return (untilTick - tick) / (score.bars[score.order[visitIndex]?.barIndex ?? -1]?.nominalTicks ?? Infinity);
}

/** What the player makes of a step of the marks, velocity units: the median of the wide contrasts that were made. */
export function usualStep(changes: readonly LevelChange[]): number {
  const made = changes.filter((change) => change.steps >= WIDE_STEPS && change.made >= HEARD_UNITS && judged(change)).map((change) => change.made / change.steps);
  return made.length < HABIT_CHANGES ? STEP_UNITS : Math.min(STEP_BOUNDS[1], Math.max(STEP_BOUNDS[0], median(made)));
}

/** How much of a change must be made at least, and would be usually, velocity units. */
export function askedOf({ steps, kind, unaCorda, louder }: LevelChange, usual: number): { readonly least: number; readonly expected: number } {
  const expected = usual * steps;
  if (unaCorda && !louder && steps >= WIDE_STEPS && kind !== 'subito') return { expected, least: HEARD_UNITS };
  return { expected, least: steps < WIDE_STEPS || kind === 'subito' ? 0 : Math.min(MOST_ASKED, Math.max(HEARD_UNITS, MADE_SHARE * expected)) };
}

/** True where enough stands on both sides of a mark, and enough is known of it. A single step by way of a hairpin is judged as a hairpin. */
export function judged({ barsCompared: [before, after], errorUnits, kind, steps }: LevelChange): boolean {
  if (kind === 'reached' && steps < WIDE_STEPS) return false;
  return before >= LEAST_BARS && after >= LEAST_BARS && errorUnits <= MOST_ERROR;
}

/** A written change of level that is not there. */
function changeNotMade(ground: LevelGround, change: LevelChange, usual: number): readonly Finding[] {
  const { made, madeSinceMark, errorUnits, steps, hand, stretch, visitIndex, startS } = change;
  const { least, expected } = askedOf(change, usual);
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined || !judged(change) || made >= least || madeSinceMark >= Math.max(LED_UP_TIMES * HEARD_UNITS, LED_UP_TIMES * least)) return [];
  return levelFinding(ground, {
    aspect: 'dynamics', kind: 'changeNotMade', hand, topic: '', visits: [visit], notes: [], startS,
    measured: { value: Math.round(made), unit: 'velocity units', threshold: Math.round(least) },
    severity: severityOf((Math.sqrt(steps) * (expected - made)) / (expected - least)),
    confidence: Math.min(1, 0.6 + (0.4 * (least - made)) / (2 * errorUnits)) * (change.unaCorda ? COLOUR_CONFIDENCE : 1),
  });
}

/** A hairpin over which nothing happens, or the contrary. */
function hairpinNotMade(ground: LevelGround, { kind, hand, stretch, visitIndex, untilVisit, made, startS }: HairpinPlayed): readonly Finding[] {
  const [first, last] = [ground.visit(stretch, visitIndex), ground.visit(stretch, untilVisit)];
  if (first === undefined || last === undefined) return [];
  return levelFinding(ground, {
    aspect: 'dynamics', kind: 'hairpinNotMade', hand, topic: kind, visits: [first, last], notes: [], startS,
    measured: { value: Math.round(made), unit: 'velocity units', threshold: HEARD_UNITS },
    severity: severityOf(1 + (HEARD_UNITS - made) / HAIRPIN_UNITS), confidence: 0.8,
  });
}

/** A sforzando that is not one. */
function accentNotHeard(ground: LevelGround, { kind, hand, stretch, visitIndex, notes, over, startS }: AccentPlayed): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined) return [];
  return levelFinding(ground, {
    aspect: 'dynamics', kind: 'accentNotHeard', hand, topic: kind, visits: [visit], notes, startS,
    measured: { value: Math.round(over), unit: 'velocity units', threshold: HEARD_UNITS },
    severity: severityOf(1 + (HEARD_UNITS - over) / HAIRPIN_UNITS), confidence: 0.7,
  });
}
