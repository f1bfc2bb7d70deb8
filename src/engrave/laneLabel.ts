import { fixed } from './numbers.js';
import { TEXT_DROP, TEXT_RISE } from './textWidth.js';
import { escapeXml } from './xmlTree.js';

/** Type size of the labels of lanes, px. */
export const LANE_LABEL_PX = 15;

/** A lane's label: at the left edge of the page in every system, its middle at the height it names. @param y px from the lane's top */
export function laneLabel(text: string, y: number): string {
  const baseline = y + (LANE_LABEL_PX * (TEXT_RISE - TEXT_DROP)) / 2;
  return `<text class="lane-label" x="0" y="${fixed(baseline)}" font-size="${LANE_LABEL_PX}" font-style="italic" fill="currentColor" stroke="none">${escapeXml(text)}</text>`;
}
