/**
 * What a hand takes hold of on the pedal plan: a ring at every place where the foot moves, and the line itself. The places where a change
 * can be put come with it, so that a page needs no score to drag: written tick, x, and how a person calls the place.
 */
import type { PedalEntry } from '../../analysis/index.js';
import { fixed } from '../numbers.js';
import { escapeXml } from '../xmlTree.js';
import type { TickPlaces } from './tickToX.js';

/** A place where a change can be put. */
export interface PlanPlace {
  readonly tick: number;
  /** "bar 5, on 3". */
  readonly name: string;
}

/** How the grips are drawn. */
interface GripLook {
  readonly grips: readonly PlanPlace[];
  /** Height of the line with the foot up, px. */
  readonly upPx: number;
}

/** Radius of a ring, px. */
const RING_PX = 4;

/** A finger needs so much (WCAG 2.2, 2.5.5), px; where changes stand closer, half the way to the next. */
const TOUCH_PX = 44;

/** The touched ground reaches so far over and under the lane, px. */
const AROUND_PX = 9;
const GROUND_PX = 44;

/** Rings, ground and places of one system. */
export function planGrips(entries: readonly PedalEntry[], places: TickPlaces, { grips, upPx }: GripLook): string {
  const own = grips.filter(({ tick }) => tick >= places.fromTick && tick < places.toTick);
  const moving = entries.flatMap((entry, i) => {
    const inside = entry.fromTick >= places.fromTick && entry.fromTick < places.toTick;
    return inside ? [{ entry, x: places.at(entry.fromTick), after: entries[i - 1]?.fromTick ?? null, before: entry.toTick }] : [];
  });
  const rings = moving.map(({ entry, x, after, before }, i) => {
    const left = halfWay(x - (moving[i - 1]?.x ?? -Infinity));
    const right = halfWay((moving[i + 1]?.x ?? Infinity) - x);
    // the plan begins with the piece: what stands there can be changed and not moved
    const limits = after === null ? 'data-fixed=""' : `data-after="${after}" data-before="${before}"`;
    return `<g class="plan-grip" data-tick="${entry.fromTick}" data-bar="${entry.barIndex}" ${limits}>`
      + `<rect class="plan-touch" x="${fixed(x - left)}" y="${-AROUND_PX}" width="${fixed(left + right)}" height="${GROUND_PX}"/>`
      + `<circle class="plan-ring" cx="${fixed(x)}" cy="${upPx}" r="${RING_PX}"/></g>`;
  });
  const data = own.map(({ tick, name }) => `${tick}|${fixed(places.at(tick))}|${name.replace(/[|;]/g, ' ')}`).join(';');
  const ground = `<rect class="plan-ground" x="${fixed(places.startX)}" y="${-AROUND_PX}" width="${fixed(Math.max(0, places.endX - places.startX))}" height="${GROUND_PX}" data-places="${escapeXml(data)}"/>`;
  return `<g class="plan-hold">${ground}${rings.join('')}</g>`;
}

/** Half a finger, or half the way to the next ring. */
function halfWay(distance: number): number {
  return Math.max(RING_PX, Math.min(TOUCH_PX / 2, distance / 2));
}
