/*
 * The teacher's question: what did the foot do around this change, and when?
 *
 * Conventions: seconds after the new sound, before it negative; the foot is down or up as footCurve.ts says.
 * Method: of the lifts around the change the nearest one counts, from two thirds of the harmony before (at most `EARLY_S`) to half of the
 *   new one; the press is the first after it within the new harmony. Without a lift the press is looked for alone.
 * Source: up at the instant the new chord sounds and down again after it is the legato change (teaching literature).
 * What it does not tell: whether anything was heard of it.
 */
import type { ChangePoint } from './changePoints.js';
import { firstDownAfter, type FootDown } from './footCurve.js';
import type { FootMove } from './pedalTypes.js';

/** A lift longer (>) before the chord belongs to what was before, seconds. Our own rule: about a slow beat. */
const EARLY_S = 1.2;

/** … nor one in the first part of the harmony before: this share of it. */
const EARLY_SHARE = 2 / 3;

/** A lift longer (>) after the chord is no part of the change, seconds: beyond any lag that is heard as one. Our own rule. */
const LATE_S = 1.5;

/** The foot around a change. */
export interface FootAround {
  readonly foot: FootMove;
  readonly liftS: number | null;
  readonly pressS: number | null;
}

/** What the foot did around a change. */
export function footAround(downs: readonly FootDown[], { soundS, untilS, beforeS }: ChangePoint): FootAround {
  const fromS = soundS - Math.min(EARLY_S, EARLY_SHARE * (soundS - beforeS));
  const lateS = soundS + Math.min(LATE_S, Math.max(0, untilS - soundS) / 2);
  const first = firstDownAfter(downs, fromS);
  const near = downs.slice(first).filter((down, i) => i < 1 || down.fromS < untilS);
  const lift = nearest(near, { fromS, lateS, soundS });
  if (lift !== null) {
    const next = near.find((down) => down.fromS >= lift);
    const pressed = next !== undefined && next.fromS < untilS;
    return { foot: pressed ? 'changed' : 'lifted', liftS: lift - soundS, pressS: pressed ? next.fromS - soundS : null };
  }
  const down = near[0];
  if (down === undefined || down.fromS >= untilS) return { foot: 'up', liftS: null, pressS: null };
  return down.fromS < fromS ? { foot: 'held', liftS: null, pressS: null } : { foot: 'pressed', liftS: null, pressS: down.fromS - soundS };
}

/** The lift nearest to the new sound; of a foot that was down before. */
function nearest(near: readonly FootDown[], { fromS, lateS, soundS }: { readonly fromS: number; readonly lateS: number; readonly soundS: number }): number | null {
  const lifts = near.filter(({ fromS: pressS, toS }) => pressS < soundS && toS >= fromS && toS < lateS).map(({ toS }) => toS);
  return lifts.reduce<number | null>((best, toS) => (best === null || Math.abs(toS - soundS) < Math.abs(best - soundS) ? toS : best), null);
}
