import type { Aspect, Observation, ObservedPlace } from '../judge/index.js';
import type { BarFacts, Hand } from '../measure/index.js';
import type { SoundInput } from './types.js';

/** One place of a remark, with what was remarked. */
export interface RemarkedPlace extends ObservedPlace {
  readonly kind: string;
  readonly hand: Hand | null;
}

/** Every place of one aspect's remarks, in order of time. */
export function placesOf(observations: readonly Observation[], aspect: Aspect): readonly RemarkedPlace[] {
  const own = observations.filter((one) => one.aspect === aspect);
  return own.flatMap(({ kind, hand, places }) => places.map((place) => ({ ...place, kind, hand }))).sort((a, b) => a.startS - b.startS);
}

/** The visit that a place begins in; undefined where the measures know of none. */
export function visitOf({ measures }: Pick<SoundInput, 'measures'>, { fromBar, pass, attempt }: Pick<ObservedPlace, 'fromBar' | 'pass' | 'attempt'>): BarFacts | undefined {
  return measures.bars.find((bar) => bar.barIndex === fromBar && bar.pass === pass && bar.attempt === attempt);
}
