/** From observations to remarks: what one thing explains is said once. */
import type { Aspect, FoundPlace, JudgeInput, Observation } from '../judge/index.js';
import { listInWords, sentenceCase, word } from '../base/index.js';
import { barNames } from '../score/index.js';

/** Observations that are one thing to say, the heaviest first. */
export interface Bundle {
  readonly observations: readonly Observation[];
  /** The bar that is not learned, as a place in `Score.bars`; null for a bundle about something else. */
  readonly unlearnedBar: number | null;
}

/** Faults that one unlearned bar shows in. */
const UNLEARNED_ASPECTS: readonly Aspect[] = ['notes', 'route', 'pulse', 'rhythm', 'touch', 'lengths'];

/** In so many aspects (>=) at once a bar shows that it is not learned. */
const UNLEARNED_LEAST = 3;

/** A stop explains what is uneven in its own bar and so many after it: the pulse has to be found again. */
const BARS_AFTER_STOP = 2;

/** The wait lengthens what was struck before it, so that it explains what is too long, or let go too soon, in the bar before. */
const BARS_BEFORE_STOP = 1;

/** Aspects that show where a stop has torn the time. */
const TORN: readonly Aspect[] = ['rhythm', 'pulse', 'lengths'];

/** Kinds of the pulse that tear it. */
const STOPS: ReadonlySet<string> = new Set(['stop', 'hesitation']);

/** What explains the slip in the bar where it broke off, and the wait there. */
const GOING_BACK = 'goingBack';

/** Aspects that a going-back explains. */
const BROKE_OFF: readonly Aspect[] = ['notes', 'pulse', 'rhythm'];

/** Puts together what is one thing. Every observation ends up in exactly one bundle. */
export function bundles(observations: readonly Observation[]): readonly Bundle[] {
  const left = new Set(observations);
  const out: Bundle[] = [];
  for (const bar of unlearnedBars(observations)) {
    const own = [...left].filter((one) => UNLEARNED_ASPECTS.includes(one.aspect) && one.places.every((place) => within(place, bar)));
    if (new Set(own.map(({ aspect }) => aspect)).size < UNLEARNED_LEAST) continue;
    for (const one of own) left.delete(one);
    out.push({ observations: own, unlearnedBar: bar });
  }
  for (const one of observations) {
    if (!left.delete(one)) continue;
    const explained = [...left].filter((other) => explains(one, other));
    for (const other of explained) left.delete(other);
    out.push({ observations: [one, ...explained], unlearnedBar: null });
  }
  return out;
}

/** What a thing found is told by. */
type Found = Pick<Observation, 'aspect' | 'kind' | 'weight'> & { readonly places: readonly FoundPlace[] };

/** True where a stop, or a going-back, is the reason of the other. */
export function explains(one: Found, other: Found): boolean {
  return (STOPS.has(one.kind) && explainedBy(one, other)) || (one.kind === GOING_BACK && brokeOffAt(one, other));
}

/** Bars with single-bar observations in several aspects, most aspects first. */
function unlearnedBars(observations: readonly Observation[]): readonly number[] {
  const aspects = new Map<number, Set<Aspect>>();
  for (const { aspect, places } of observations) {
    if (!UNLEARNED_ASPECTS.includes(aspect)) continue;
    for (const { fromBar, toBar } of places) {
      for (let bar = fromBar; bar <= Math.min(toBar, fromBar + 1); bar++) aspects.set(bar, (aspects.get(bar) ?? new Set()).add(aspect));
    }
  }
  return [...aspects].filter(([, of]) => of.size >= UNLEARNED_LEAST).sort((a, b) => b[1].size - a[1].size || a[0] - b[0]).map(([bar]) => bar);
}

/** True where a place is that bar, or that bar with one neighbour: a fault at its door. */
function within({ fromBar, toBar }: FoundPlace, bar: number): boolean {
  return fromBar >= bar - 1 && toBar <= bar + 1 && fromBar <= bar && toBar >= bar;
}

/** True for something uneven that happened all of it at a stop. */
function explainedBy(stop: Found, other: Found): boolean {
  if (!TORN.includes(other.aspect)) return false;
  if (other.weight > stop.weight) return false;
  return other.places.every((place) => stop.places.some((at) => place.pass === at.pass && place.attempt === at.attempt && place.fromBar >= at.fromBar - BARS_BEFORE_STOP && place.toBar <= at.toBar + BARS_AFTER_STOP));
}

/** True for what happened all of it in the bars where the playing broke off, in the tries that broke off. */
function brokeOffAt(back: Found, other: Found): boolean {
  if (!BROKE_OFF.includes(other.aspect) || other.weight > back.weight) return false;
  return other.places.every((place) => back.places.some((at) => place.pass === at.pass && place.attempt === at.attempt && place.fromBar >= at.fromBar && place.toBar <= at.toBar));
}

/** How each aspect shows in a bar that is not learned. */
const SHOWS: Readonly<Partial<Record<Aspect, string>>> = {
  notes: 'wrong notes', route: 'going back', pulse: 'a wait', rhythm: 'uneven rhythm', touch: 'an unsure touch', lengths: 'notes let go early',
};

/** The sentences on a bar that is not learned. */
export function tellUnlearned({ score, language }: JudgeInput, bar: number, observations: readonly Observation[]): { readonly text: string; readonly advice: string } {
  const name = barNames(score, language).long(bar);
  const signs = UNLEARNED_ASPECTS.filter((aspect) => observations.some((one) => one.aspect === aspect)).flatMap((aspect) => SHOWS[aspect] ?? []);
  return {
    text: `${sentenceCase(name)} is not learned yet: ${listInWords(signs)}.`,
    advice: `${sentenceCase(word('handsSeparately', language))}, slowly, from the ${word('bar', language)} before; then together at the same speed.`,
  };
}
