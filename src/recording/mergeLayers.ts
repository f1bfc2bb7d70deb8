import { LAYER_WINDOW_S } from './channels.js';
import type { KeyPress } from './pairNotes.js';

/** Presses with every key struck once at a moment, and how many were folded into another. */
export interface Merged {
  readonly presses: readonly KeyPress[];
  readonly folded: number;
}

/**
 * Folds presses of one key that begin together (within `LAYER_WINDOW_S`, <=) on different tracks or channels into one: a
 * layered sound sends each press twice, and two voices in unison are one key. The first stays, as loud and as long
 * as the louder and the longer. Presses of one key that begin apart stay apart, even where they overlap.
 * @param presses by onset
 */
export function mergeLayers(presses: readonly KeyPress[]): Merged {
  const kept: KeyPress[] = [];
  const latest = new Map<number, number>();
  for (const press of presses) {
    const place = latest.get(press.pitch);
    const before = place === undefined ? undefined : kept[place];
    if (place !== undefined && before !== undefined && sameStroke(before, press)) kept[place] = united(before, press);
    else latest.set(press.pitch, kept.push(press) - 1);
  }
  return { presses: kept, folded: presses.length - kept.length };
}

/** Within one track and channel two strokes are two, however close: there they were told apart already. */
function sameStroke(a: KeyPress, b: KeyPress): boolean {
  return (a.channel !== b.channel || a.track !== b.track) && b.onsetS - a.onsetS <= LAYER_WINDOW_S;
}

/** The first press with the louder velocity and the later release. */
function united(a: KeyPress, b: KeyPress): KeyPress {
  const longer = a.releaseS >= b.releaseS ? a : b;
  return { ...a, velocity: Math.max(a.velocity, b.velocity), releaseS: longer.releaseS, releaseVelocity: longer.releaseVelocity, hanging: longer.hanging, doubled: a.doubled || b.doubled };
}
