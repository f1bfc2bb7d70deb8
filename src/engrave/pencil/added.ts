import type { Point } from '../box.js';
import { fixed } from '../numbers.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Half axes of the hollow head and lean, px and degrees. */
const HEAD_RX_PX = 5.2;
const HEAD_RY_PX = 3.7;
const TILT_DEG = -20;

/** Width and height of the cross over it, px. */
const CROSS_WIDTH_PX = 16;
const CROSS_HEIGHT_PX = 13;

/** How far the mark reaches from its centre, px. */
export const ADDED_REACH_PX = CROSS_WIDTH_PX / 2 + 1;

/** Half the length of a ledger line, px. */
const LEDGER_PX = 8;

/** Where an added note stands. */
export interface AddedPlace extends Point {
  /** Heights of the ledger lines it needs. */
  readonly ledgers?: readonly number[];
}

/** A hollow head crossed out: played, but not written. @param centre when it came and how high it sounds */
export function added(centre: AddedPlace, labels: MarkLabels): string {
  const lines = (centre.ledgers ?? []).map((line) => `<path stroke-width="0.9" d="M${fixed(centre.x - LEDGER_PX)} ${fixed(line)}H${fixed(centre.x + LEDGER_PX)}"/>`);
  const [x, y] = [fixed(centre.x), fixed(centre.y)];
  const head = `<ellipse cx="${x}" cy="${y}" rx="${HEAD_RX_PX}" ry="${HEAD_RY_PX}" transform="rotate(${TILT_DEG} ${x} ${y})" stroke-width="1.2"/>`;
  const corner = (dx: 1 | -1, dy: 1 | -1): Point => ({ x: centre.x + (dx * CROSS_WIDTH_PX) / 2, y: centre.y + (dy * CROSS_HEIGHT_PX) / 2 });
  const falling = pencilStroke([corner(-1, -1), centre, corner(1, 1)], { seed: labels.seed });
  const rising = pencilStroke([corner(-1, 1), centre, corner(1, -1)], { seed: labels.seed + 1 });
  return markGroup('added', labels, lines.join('') + head + falling + rising);
}
