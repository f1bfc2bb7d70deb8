/**
 * The pedal plan under a system, as a blue line: low while the foot is down, up where it is up, a peak at each change. Solid where the
 * score prints it or the teacher set it, dashed where it comes from the harmony. Stretches that ring on or stay dry are named.
 */
import type { PedalEntry } from '../../analysis/index.js';
import type { Lane } from '../compose.js';
import { fixed } from '../numbers.js';
import { textWidth } from '../textWidth.js';
import { escapeXml } from '../xmlTree.js';
import { planGrips, type PlanPlace } from './planGrips.js';
import type { TickPlaces } from './tickToX.js';

/** Heights of the line with the foot up and down, and of the lane, px. */
const UP_PX = 8;
const DOWN_PX = 18;
const HEIGHT_PX = 26;

/** Half the width of a change's peak, px. */
const PEAK_PX = 5;

/** The line leaves off so far before the next begins, px. */
const GAP_PX = 3;

/** Type size of the names, and room beside them, px. */
const NAME_PX = 15;
const BESIDE_NAME_PX = 6;

/** Base lines of the names: over the low line, level with the high one, and of the lane's own, px. */
const OVER_LINE_PX = 12;
const LEVEL_PX = 13;
const TITLE_PX = 16;

/** Names of stretches. */
const NAMES = { ring: 'let it ring', none: 'no pedal' } as const;

/** What the lane is called, in the room under the clefs from the page's left edge on; the first that fits. */
const TITLES = ['pedal plan', 'pedal'] as const;

/** One entry within the system. */
interface Piece {
  readonly entry: PedalEntry;
  readonly fromX: number;
  readonly toX: number;
  /** True where the entry begins in this system. */
  readonly begins: boolean;
  /** Whether the foot is down just before. */
  readonly wasDown: boolean;
  /** Whether the entry before in this system says the same. */
  readonly repeats: boolean;
}

/**
 * The lane of one system; without a plan it has no height.
 * @param grips where changes can be put; null for a plan that is only looked at
 */
export function pedalLane(entries: readonly PedalEntry[], places: TickPlaces, grips: readonly PlanPlace[] | null = null): Lane {
  const pieces = piecesOf(entries, places);
  const first = pieces[0];
  if (first === undefined) return { svg: '', heightPx: 0 };
  const title = TITLES.find((one) => textWidth(one, { size: NAME_PX, italic: true }) + BESIDE_NAME_PX + PEAK_PX <= first.fromX);
  return { svg: `<g class="lane-plan">${title === undefined ? '' : name(title, 0, TITLE_PX)}${pieces.map(pieceSvg).join('')}${grips === null ? '' : planGrips(entries, places, { grips, upPx: UP_PX })}</g>`, heightPx: HEIGHT_PX };
}

/** What of each entry lies in the system. */
function piecesOf(entries: readonly PedalEntry[], places: TickPlaces): readonly Piece[] {
  return entries.flatMap((entry, i): readonly Piece[] => {
    if (entry.fromTick >= places.toTick || entry.toTick <= places.fromTick) return [];
    const begins = entry.fromTick >= places.fromTick;
    const fromX = begins ? places.at(entry.fromTick) : places.startX - GAP_PX;
    const toX = Math.max(fromX, places.until(entry.toTick) - (entry.toTick >= places.toTick ? GAP_PX : 0));
    const before = entries[i - 1];
    return [{ entry, fromX, toX, begins, wasDown: before !== undefined && isDown(before), repeats: begins && before !== undefined && before.toTick > places.fromTick && before.kind === entry.kind }];
  });
}

/** Whether the foot is down through an entry. */
function isDown({ kind }: PedalEntry): boolean {
  return kind === 'down' || kind === 'change' || kind === 'ring';
}

/** One entry: how it begins, its level line, its name. */
function pieceSvg(piece: Piece): string {
  const { entry } = piece;
  const turn = turnPath(piece);
  const level = levelPath(piece);
  const parts = [
    turn === '' ? '' : `<path class="plan-turn" d="${turn}"/>`,
    level === '' ? '' : `<path class="plan-level ${entry.source}${entry.kind === 'none' ? ' dry' : ''}" d="${level}"/>`,
    nameOf(piece),
  ];
  return `<g class="plan-entry plan-${entry.kind}" data-bar="${entry.barIndex}" data-entry="${escapeXml(entry.id)}"><title>${escapeXml(entry.reason)}</title>${parts.join('')}</g>`;
}

/** The way from the state before: a peak where the foot changes, an upright where it goes down or up. */
function turnPath({ entry, fromX, begins, wasDown }: Piece): string {
  if (!begins) return '';
  const down = isDown(entry);
  if (down && wasDown) return `M${fixed(fromX - PEAK_PX)} ${DOWN_PX}L${fixed(fromX)} ${UP_PX}L${fixed(fromX + PEAK_PX)} ${DOWN_PX}`;
  if (down) return `M${fixed(fromX)} ${UP_PX}V${DOWN_PX}`;
  return wasDown ? `M${fixed(fromX)} ${DOWN_PX}V${UP_PX}` : '';
}

/** The level line; of a dry stretch it begins behind its name. */
function levelPath(piece: Piece): string {
  const { entry, fromX, toX, begins, wasDown } = piece;
  const down = isDown(entry);
  const from = down ? fromX + (begins && wasDown ? PEAK_PX : 0) : fromX + (isNamed(piece) ? nameWidth(piece) : 0);
  const to = toX - (down ? PEAK_PX : GAP_PX);
  return to > from ? `M${fixed(from)} ${down ? DOWN_PX : UP_PX}H${fixed(to)}` : '';
}

/** The name of a stretch that rings or stays dry, where there is room. */
function nameOf(piece: Piece): string {
  const { entry, fromX, begins, wasDown } = piece;
  if (!isNamed(piece)) return '';
  // clear of the ring that stands where it begins
  if (entry.kind === 'ring') return name(NAMES.ring, fromX + BESIDE_NAME_PX + GAP_PX, OVER_LINE_PX);
  return name(NAMES.none, fromX + (begins && wasDown ? BESIDE_NAME_PX : 0), LEVEL_PX);
}

/** Whether a piece has a name and room for it. */
function isNamed(piece: Piece): boolean {
  const { entry, fromX, toX, repeats } = piece;
  return !repeats && (entry.kind === 'ring' || entry.kind === 'none') && toX - fromX >= nameWidth(piece) + PEAK_PX;
}

/** Room of the name, what stands beside it included. */
function nameWidth({ entry }: Piece): number {
  const text = entry.kind === 'ring' ? NAMES.ring : NAMES.none;
  return textWidth(text, { size: NAME_PX, italic: true }) + 2 * BESIDE_NAME_PX;
}

/** A name in blue italics. */
function name(text: string, x: number, y: number): string {
  return `<text class="plan-name" x="${fixed(x)}" y="${fixed(y)}" font-size="${NAME_PX}" font-style="italic">${text}</text>`;
}
