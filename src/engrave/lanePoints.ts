import type { BarFacts } from '../measure/index.js';
import type { Point } from './box.js';
import { FARTHEST_MS, IN_TIME_MS, PX_PER_MS } from './laneScale.js';
import { headsOf, noteIdOf, onsetsNear, shownOf, type MarkMaterial } from './markMaterial.js';
import { fixed } from './numbers.js';
import type { EngravedSystem } from './types.js';
import { escapeXml } from './xmlTree.js';

/** One played note of the lane. */
export interface LanePoint {
  readonly visit: BarFacts;
  /** Id of the written note. */
  readonly noteId: string;
  readonly hand: 'right' | 'left';
  /** x of its moment: heads set off from their chord count as the chord's. */
  readonly x: number;
  /** Measured, late positive. */
  readonly deviationMs: number;
  /** The same, held within what the lane shows. */
  readonly shownMs: number;
}

/** Radii of the filled and the hollow point, px: they look the same size. */
const RIGHT_RADIUS_PX = 2.6;
const LEFT_RADIUS_PX = 2.3;

/** Half the width and the height of the arrow-head over a point that lies farther than the lane shows, px. */
const BEYOND_PX = 3;

/** The measured notes of the shown visits whose heads stand in this system, in the order they were played. */
export function lanePoints(system: EngravedSystem, material: MarkMaterial): readonly LanePoint[] {
  const shown = shownOf(material);
  const here = new Map(system.bars.map(({ barIndex }) => [barIndex, shown.get(barIndex)]));
  const heads = headsOf(system);
  const columns = columnsOf(heads, material);
  return onsetsNear(system, material).flatMap((onset): readonly LanePoint[] => {
    const pair = material.alignment.pairs[onset.pair];
    const occurrence = pair && material.score.occurrences[pair.occurrence];
    const visit = occurrence && here.get(occurrence.barIndex);
    if (!onset.deviationMs.measured || !visit || visit.stretch !== pair.stretch || visit.visitIndex !== occurrence.visitIndex) return [];
    const noteId = noteIdOf(material, pair.occurrence);
    const head = heads.get(noteId);
    const deviationMs = onset.deviationMs.value;
    const shownMs = Math.min(FARTHEST_MS, Math.max(-FARTHEST_MS, deviationMs));
    return head ? [{ visit, noteId, hand: occurrence.staff >= 2 ? 'left' : 'right', x: columns.get(columnKey(material, occurrence.noteIndex)) ?? head.x, deviationMs, shownMs }] : [];
  });
}

/**
 * One x for all heads that are written at one moment: a second, or another voice, is printed beside the chord it
 * belongs to, and would otherwise look later or earlier than it is. The middle head tells, of two the right one.
 */
function columnsOf(heads: ReadonlyMap<string, Point>, material: MarkMaterial): ReadonlyMap<string, number> {
  const columns = new Map<string, number[]>();
  material.score.notes.forEach((note, index) => {
    const head = heads.get(note.id);
    if (!head) return;
    const key = columnKey(material, index);
    columns.set(key, [...(columns.get(key) ?? []), head.x].sort((a, b) => a - b));
  });
  return new Map([...columns].map(([key, xs]) => [key, xs[Math.floor(xs.length / 2)] ?? 0]));
}

/** Names the moment of a note; a grace note is a moment of its own. */
function columnKey({ score }: MarkMaterial, noteIndex: number): string {
  const note = score.notes[noteIndex];
  return note === undefined || note.grace ? `grace ${noteIndex}` : `${note.barIndex} ${note.onsetTick}`;
}

/** A point on its stem; the right hand filled, the left open. Inside the band there is no stem. */
export function pointSvg(point: LanePoint, zero: number): string {
  const { x, hand, shownMs, deviationMs, noteId } = point;
  const y = zero - shownMs * PX_PER_MS;
  const stem = Math.abs(shownMs) > IN_TIME_MS ? `<path fill="none" d="M${fixed(x)} ${fixed(zero)}V${fixed(y)}"/>` : '';
  const dot = hand === 'right' ? `r="${RIGHT_RADIUS_PX}" fill="currentColor" stroke="none"` : `r="${LEFT_RADIUS_PX}" fill="none"`;
  const beyond = shownMs === deviationMs ? '' : arrowHead(x, y, Math.sign(shownMs));
  const data = `data-note="${escapeXml(noteId)}" data-ms="${Math.round(deviationMs)}"`;
  return `<g class="lane-point lane-${hand}" ${data}><title>${inWords(point)}</title>${stem}<circle cx="${fixed(x)}" cy="${fixed(y)}" ${dot}/>${beyond}</g>`;
}

/** For the pointer and for screen readers. */
function inWords({ hand, deviationMs }: LanePoint): string {
  const ms = Math.round(Math.abs(deviationMs));
  return `${hand} hand, ${ms === 0 ? 'in time' : `${ms} ms ${deviationMs > 0 ? 'late' : 'early'}`}`;
}

/** An open arrow-head pointing away from the zero line. */
function arrowHead(x: number, y: number, up: number): string {
  const tip = y - up * (RIGHT_RADIUS_PX + 2 + BEYOND_PX);
  const foot = fixed(tip + up * BEYOND_PX);
  return `<path fill="none" d="M${fixed(x - BEYOND_PX)} ${foot}L${fixed(x)} ${fixed(tip)}L${fixed(x + BEYOND_PX)} ${foot}"/>`;
}
