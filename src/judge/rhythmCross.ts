/*
 * Cross-rhythms: three against two, four against three and the like, squared.
 *
 * What is a fault: a hand gives in to the other, so that its strokes fall together with strokes they should come between, in most of the
 * crossings of a bar or of the bars near it. Leaning is none, nor is rubato, which moves both hands. The hand that is less even in itself
 * is the one that gave in.
 */
import { groupBy } from '../base/index.js';
import type { CrossHand, CrossRhythm, CrossStroke } from '../measure/index.js';
import { findingOf, LEAST_OFF_MS, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** A stroke fell in with a neighbour of the other hand that it comes so near (<=), as a share of the way between two of them … */
const FELL_IN_SHARE = 0.2;

/** … and at most this part (<=) of the distance at which it is written: nearer to the neighbour than to its own place. */
const FELL_IN_PART = 0.5;

/** Strokes written closer (<) to their neighbour than this, seconds, are heard as together anyhow: half as much again as the 30 ms that are normal (Goebl 2001). */
const APART_S = 0.045;

/** Fewest crossings (>=) that gave in, and the part (>) of all alike in the bar or around it. */
const LEAST_CROSSINGS = 2;
const MOST_PART = 0.5;

/** Bars (<=) to either side that are heard with one that holds a single crossing. */
const BARS_NEAR = 1;

/** How sure we are. */
const CONFIDENCE = 0.75;

/** Findings of all cross-rhythms, by ratio and hand. */
export function crossFindings(ground: RhythmGround): readonly Finding[] {
  const alike = groupBy(ground.facts.crossings, ({ stretch, ratio }) => `${stretch} ${ratio.join(':')}`);
  return [...alike.values()].flatMap((crossings) => {
    const bars = groupBy(crossings, ({ visitIndex }) => visitIndex);
    return [...bars].flatMap(([visitIndex, own]) => {
      const near = Array.from({ length: 2 * BARS_NEAR + 1 }, (_, i) => bars.get(visitIndex - BARS_NEAR + i) ?? []).flat();
      return barFinding(ground, own, own.length >= LEAST_CROSSINGS ? own : near);
    });
  });
}

/** What the crossings of one bar show, heard with those around it. @param own at least one */
function barFinding(ground: RhythmGround, own: readonly CrossRhythm[], heard: readonly CrossRhythm[]): readonly Finding[] {
  const [squared, around] = [own.filter(isSquared), heard.filter(isSquared).length];
  const [first] = squared;
  const visit = first === undefined ? undefined : ground.visit(first.stretch, first.visitIndex);
  if (first === undefined || visit === undefined || around < LEAST_CROSSINGS || around <= MOST_PART * heard.length) return [];
  const hand = squared.filter((one) => unevenness(one.right) > unevenness(one.left)).length > squared.length / 2 ? 'right' : 'left';
  return findingOf(ground, {
    kind: 'squared', topic: first.ratio.join(':'), hand, visits: [visit], pairs: squared.flatMap((one) => one[hand].pairs), value: squared.length, unit: squared.length === 1 ? 'time' : 'times', threshold: 1,
    ratio: Math.max(1, around / LEAST_CROSSINGS), confidence: CONFIDENCE,
  });
}

/** True where one hand's strokes fall in with the other's. */
export function isSquared({ right, left }: CrossRhythm): boolean {
  return [...right.strokes, ...left.strokes].some(fellIn);
}

/** True for a stroke that comes together with a neighbour. */
function fellIn({ written, played, wayS }: CrossStroke): boolean {
  const near = (distance: number, asWritten: number): boolean => asWritten * wayS >= APART_S && distance <= Math.min(FELL_IN_SHARE, FELL_IN_PART * asWritten);
  return Math.abs(played - written) * wayS * 1000 >= LEAST_OFF_MS && (near(Math.abs(played), written) || near(Math.abs(1 - played), 1 - written));
}

/** How far a hand's strokes are off their even places, as a share of the whole. */
export function unevenness({ places }: CrossHand): number {
  return Math.max(...places.map((place, i) => Math.abs(place - i / places.length)));
}
