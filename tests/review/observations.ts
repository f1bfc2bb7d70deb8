/** Made-up observations for tests of the review. */
import type { Observation, ObservedPlace } from '../../src/judge/index.js';

export const place = (fromBar: number, toBar = fromBar, more: Partial<ObservedPlace> = {}): ObservedPlace => ({ fromBar, toBar, pass: 1, attempt: 1, notes: [], startS: fromBar, weight: 0.5, ...more });

/** An uneven rhythm of the right hand in bar 1, unless said otherwise. */
export function observation(more: Partial<Observation> = {}): Observation {
  return {
    aspect: 'rhythm', kind: 'uneven', hand: 'right', topic: '', places: [place(0)], measured: { value: 2, unit: 'times', threshold: 1 }, weight: 0.5, confidence: 1,
    text: 'Made up.', advice: '', ...more,
  };
}
