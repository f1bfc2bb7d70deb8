/**
 * The time line drawn: written in blue, played in pencil under it, hands apart, no axis of pitch. Only a key
 * that the score does not have is named again, in a ring.
 */
import { drawing, element, escaped, path, pencilLine, px } from './svg.js';
import type { TimeGroup, TimeLine, TimeStroke } from './timeLine.js';

/**
 * Width of one time line, px: two stand beside each other on the music desk, one fills a phone.
 */
export const TIME_LINE_PX = 312;

const GUTTER_PX = 44;
const TOP_PX = 22;
/** Baseline of the beats' numbers. */
const NUMBER_Y_PX = 13;
/** One layer of a hand: names, written line, played line. */
const LAYER_PX = 40;
const HAND_GAP_PX = 10;
/** A ringed name. */
const ODD_PX = 20;
/** Names are left out where a note gets less room than this, px. */
const NAME_ROOM_PX = 7;

/** A group and the layer it stands in, so that notes that sound on do not cross later ones. */
interface Layered {
  readonly group: TimeGroup;
  readonly layer: number;
}

/** Draws written (blue) over played (pencil), hands apart, beats as upright lines. */
export function timeLineSvg(line: TimeLine): string {
  const right = layered(line.groups.filter((group) => group.hand === 'right'));
  const left = layered(line.groups.filter((group) => group.hand === 'left'));
  const leftTop = TOP_PX + layers(right) * LAYER_PX + oddRoom(line, 'right') + HAND_GAP_PX;
  const height = leftTop + layers(left) * LAYER_PX + oddRoom(line, 'left') + 4;
  const xOf = (tick: number): number => GUTTER_PX + (tick / Math.max(1, line.lengthTicks)) * (TIME_LINE_PX - GUTTER_PX - 2);
  const hands = handSvg('right', right, { line, top: TOP_PX, xOf }) + handSvg('left', left, { line, top: leftTop, xOf });
  return drawing({ widthPx: TIME_LINE_PX, heightPx: height }, { class: 'time-line', 'aria-hidden': 'true' }, beats(line, height, xOf) + hands);
}

/** Upright lines at the beats, numbered. */
function beats(line: TimeLine, height: number, xOf: (tick: number) => number): string {
  const count = Math.ceil(line.lengthTicks / line.beatTicks);
  const upright = (tick: number): string => path('grid-line', `M${px(xOf(tick))} ${TOP_PX - 4}V${px(height)}`);
  const numbered = Array.from({ length: count }, (_, i) => {
    const tick = i * line.beatTicks;
    return upright(tick) + element('text', { class: 'label', x: xOf(tick), y: NUMBER_Y_PX }, String(i + 1));
  });
  return numbered.join('') + upright(line.lengthTicks);
}

/** One hand: its label, its groups, and keys that do not belong. */
function handSvg(hand: 'right' | 'left', groups: readonly Layered[], at: { line: TimeLine; top: number; xOf: (tick: number) => number }): string {
  const label = element('text', { class: 'label', x: 0, y: at.top + 24 }, hand);
  const odd = at.line.odd.filter((note) => note.hand === hand).map((note) => oddSvg(note, at.top + layers(groups) * LAYER_PX + 9, at.xOf)).join('');
  return label + groups.map(({ group, layer }) => groupSvg(group, at.top + layer * LAYER_PX, at.xOf)).join('') + odd;
}

/** Name over the written line, the played line under it, each with an upright at its onset. */
function groupSvg(group: TimeGroup, top: number, xOf: (tick: number) => number): string {
  const { fromTick, toTick } = group.written;
  const [from, to] = [xOf(fromTick), xOf(toTick)];
  const fits = to - from >= NAME_ROOM_PX * group.names.length;
  const name = fits ? element('text', { class: 'written', x: from + 4, y: top + 13 }, escaped(group.names)) : '';
  const written = path('written-line', `M${px(from)} ${px(top + 13)}v5H${px(to - 3)}`);
  const missing = group.missing ? path('odd', `M${px(from + 2)} ${px(top + 36)}l5.5 -9.5l5.5 9.5`) : '';
  return name + written + missing + group.played.map((stroke, i) => playedSvg(stroke, { top, xOf, seed: fromTick + i })).join('');
}

/** A pencil line from key down to key up. */
function playedSvg(stroke: TimeStroke, at: { top: number; xOf: (tick: number) => number; seed: number }): string {
  const from = at.xOf(stroke.fromTick);
  const line = pencilLine(from, Math.max(at.xOf(stroke.toTick) - 2, from + 2), { y: at.top + 29, seed: at.seed });
  return path('played-line', `M${px(from)} ${px(at.top + 24)}v5`) + element('g', { class: 'played-line' }, line);
}

/** A key that does not belong: its name in a ring. */
function oddSvg(note: { stroke: TimeStroke; name: string }, y: number, xOf: (tick: number) => number): string {
  const half = note.name.length * 3.4 + 6;
  const x = Math.min(Math.max(xOf(note.stroke.fromTick) + half, GUTTER_PX + half), TIME_LINE_PX - half - 2);
  const ringed = element('ellipse', { class: 'odd', cx: x, cy: y, rx: half, ry: 9.5 });
  return ringed + element('text', { x, y: y + 5, 'text-anchor': 'middle' }, escaped(note.name));
}

/** Room for names of keys that do not belong. */
function oddRoom(line: TimeLine, hand: 'right' | 'left'): number {
  return line.odd.some((note) => note.hand === hand) ? ODD_PX : 0;
}

/** Puts each group in the first layer that is free when it begins. */
function layered(groups: readonly TimeGroup[]): readonly Layered[] {
  const ends: number[] = [];
  return [...groups].sort((a, b) => a.written.fromTick - b.written.fromTick).map((group) => {
    const free = ends.findIndex((end) => end <= group.written.fromTick);
    const layer = free === -1 ? ends.length : free;
    ends[layer] = group.written.toTick;
    return { group, layer };
  });
}

/** How many layers a hand takes, one at least. */
function layers(groups: readonly Layered[]): number {
  return Math.max(1, ...groups.map(({ layer }) => layer + 1));
}
