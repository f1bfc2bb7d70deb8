/**
 * The lane of early and late under a system: how far every played note stands from the local pulse, under its own
 * note-head. Late is up, early is down; 29 px are 200 ms in every system; the band is what no ear calls uneven.
 * Only as much room as its points need. What it does not tell: why; and nothing of notes whose pulse is not measured.
 */
import type { Lane } from './compose.js';
import { laneBars } from './laneBars.js';
import { LANE_LABEL_PX, laneLabel } from './laneLabel.js';
import { lanePoints, pointSvg, type LanePoint } from './lanePoints.js';
import { IN_TIME_MS, PX_PER_MS } from './laneScale.js';
import type { MarkMaterial } from './markMaterial.js';
import { fixed } from './numbers.js';
import { textWidth } from './textWidth.js';
import type { EngravedSystem } from './types.js';

/** Beyond this the lane opens to a rule at 200 ms on that side, ms. */
const RULE_FROM_MS = 110;
const RULE_MS = 200;

/** Room between the outermost point and the edge, and between system and lane, px. */
const EDGE_PX = 9;
const ABOVE_PX = 8;

/** Least room on each side of the zero line: half a line of the label's text, px. */
const LEAST_SIDE_PX = 14;

/** How far the zero line begins before the first point, px. */
const LEAD_PX = 8;

/** The lane of one system, in its x coordinates; y from 0 at the lane's top. Without any measured note it has no height. */
export function laneOnsets(system: EngravedSystem, material: MarkMaterial): Lane {
  const points = lanePoints(system, material);
  const last = system.bars.at(-1);
  if (points.length === 0 || !last) return { svg: '', heightPx: 0 };
  const room = roomFor(points.map(({ shownMs }) => shownMs));
  const zero = ABOVE_PX + room.latePx;
  const frame: Frame = {
    right: last.right,
    start: Math.min(...points.map(({ x }) => x)) - LEAD_PX,
    zero,
    top: ABOVE_PX / 2,
    bottom: zero + room.earlyPx,
  };
  const drawing = [band(frame), laneBars(system, frame), ...rules(room, frame), zeroLine(frame), ...byBar(points, zero)];
  return { svg: `<g class="lane lane-onsets" stroke="currentColor" stroke-width="1" stroke-linecap="round"><title>Early and late</title>${drawing.join('')}</g>`, heightPx: Math.ceil(frame.bottom + ABOVE_PX / 2) };
}

/** Edges of the lane and its zero line, px. */
interface Frame {
  readonly right: number;
  readonly start: number;
  readonly zero: number;
  readonly top: number;
  readonly bottom: number;
}

/** Room above and below the zero line, and whether it is enough for a rule. */
interface Room {
  readonly latePx: number;
  readonly earlyPx: number;
  readonly lateRule: boolean;
  readonly earlyRule: boolean;
}

/** Room by the outermost points of each side. */
function roomFor(deviations: readonly number[]): Room {
  const latest = Math.max(0, ...deviations);
  const earliest = Math.max(0, ...deviations.map((ms) => -ms));
  const side = (ms: number): number => Math.max(LEAST_SIDE_PX, ms * PX_PER_MS + EDGE_PX, ms > RULE_FROM_MS ? RULE_MS * PX_PER_MS + EDGE_PX : 0);
  return { latePx: side(latest), earlyPx: side(earliest), lateRule: latest > RULE_FROM_MS, earlyRule: earliest > RULE_FROM_MS };
}

/** The ground on which points count as in time. */
function band({ start, right, zero }: Frame): string {
  const half = IN_TIME_MS * PX_PER_MS;
  return `<rect class="lane-band" x="${fixed(start)}" y="${fixed(zero - half)}" width="${fixed(right - start)}" height="${fixed(2 * half)}" fill="currentColor" fill-opacity="0.12" stroke="none"/>`;
}

/** The local pulse itself. */
function zeroLine(frame: Frame): string {
  return `<path class="lane-zero" d="M${fixed(frame.start)} ${fixed(frame.zero)}H${fixed(frame.right)}"/>${laneLabel('in time', frame.zero)}`;
}

/** Lines at 0.2 s on the sides that reach so far. */
function rules(room: Room, frame: Frame): readonly string[] {
  const late = room.lateRule ? [rule('0.2 s late', frame, frame.zero - RULE_MS * PX_PER_MS)] : [];
  const early = room.earlyRule ? [rule('0.2 s early', frame, frame.zero + RULE_MS * PX_PER_MS)] : [];
  return [...late, ...early];
}

/** One line with its label. */
function rule(text: string, frame: Frame, y: number): string {
  const start = Math.max(frame.start, textWidth(text, { size: LANE_LABEL_PX, italic: true }) + LEAD_PX);
  return `<path class="lane-rule" stroke-opacity="0.3" d="M${fixed(start)} ${fixed(y)}H${fixed(frame.right)}"/>${laneLabel(text, y)}`;
}

/** Points of one visit stand in one group that names it. */
function byBar(points: readonly LanePoint[], zero: number): readonly string[] {
  const bars = [...new Set(points.map(({ visit }) => visit))];
  return bars.map((visit) => {
    const own = points.filter((point) => point.visit === visit).map((point) => pointSvg(point, zero));
    return `<g class="lane-points" data-bar="${visit.barIndex}" data-visit="${visit.visitIndex}" data-attempt="${visit.attempt}" data-stretch="${visit.stretch}">${own.join('')}</g>`;
  });
}
