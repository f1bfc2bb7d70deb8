/*
 * The teacher's question: what did lifting the foot take away?
 *
 * Conventions: seconds; one entry a lift that cut something, in order of time.
 * Method: notes whose fingers were gone and which only the pedal kept, heard until the lift and `CUT_DB` softer by the next press, or by the
 *   time that the slowest damper needs.
 * Source: our own rule.
 * What it does not tell: whether it should have rung on; marks and plan say that.
 */
import { clearingS, UNDAMPED_FROM } from './decay.js';
import type { FootDown } from './footCurve.js';
import type { PedalCut } from './pedalTypes.js';
import { levelAt, silentFrom, type Ring } from './ringing.js';

/** A note is cut where it loses so much (>=), dB: nine tenths of its amplitude. */
const CUT_DB = 20;

/** Notes softer (<=) than this were gone already, dB under the hardest stroke. Our own rule: softer than the softest stroke. */
const FAINT_DB = -45;

/** Longest that the dampers are given, seconds: a little more than the lowest string needs. */
const LONGEST_CLEARING_S = 1.2 * clearingS(0);

/** How far back notes may have been struck that still ring at a lift, seconds. */
const BACK_S = 12;

/** Every lift that cut something. `rings` are in order of onset. */
export function pedalCuts(rings: readonly Ring[], downs: readonly FootDown[]): readonly PedalCut[] {
  let from = 0;
  return downs.flatMap(({ toS }, i): readonly PedalCut[] => {
    const pressS = downs[i + 1]?.fromS ?? Infinity;
    while ((rings[from]?.onsetS ?? Infinity) < toS - BACK_S) from += 1;
    const notes: number[] = [];
    for (let k = from; k < rings.length; k += 1) {
      const ring = rings[k];
      if (ring === undefined || ring.onsetS >= toS) break;
      if (isCut(ring, toS, Math.min(pressS, toS + LONGEST_CLEARING_S))) notes.push(ring.note);
    }
    return notes.length > 0 ? [{ liftS: toS, pressS: Number.isFinite(pressS) ? pressS : null, notes }] : [];
  });
}

/** Whether a lift took a note away. */
function isCut(ring: Ring, liftS: number, untilS: number): boolean {
  const kept = ring.pitch < UNDAMPED_FROM && ring.letGoS < liftS && silentFrom(ring) > liftS && ring.againS > untilS;
  const level = kept ? levelAt(ring, liftS) : -Infinity;
  return level > FAINT_DB && levelAt(ring, untilS) <= level - CUT_DB;
}
