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
/** A ringed name, and the room between two in a row. */
const ODD_PX = 21;
const ODD_GAP_PX = 3;
/** Width of a letter of a name, px: a little more than the type's mean, so that none is cut. */
const LETTER_PX = 6.8;
/** A name may begin so far left of its own upright where the right side is too narrow, px. */
const NAME_BACK_PX = 4;

/** A group and the layer it stands in, so that notes that sound on do not cross later ones. */
interface Layered {
  readonly group: TimeGroup;
  readonly layer: number;
}

/** Draws written (blue) over played (pencil), hands apart, beats as upright lines. */
export function timeLineSvg(line: TimeLine): string {
  const right = layered(line.groups.filter((group) => group.hand === 'right'));
  const left = layered(line.groups.filter((group) => group.hand === 'left'));
  const xOf = (tick: number): number => GUTTER_PX + (tick / Math.max(1, line.lengthTicks)) * (TIME_LINE_PX - GUTTER_PX - 2);
  const [oddRight, oddLeft] = [oddPlaces(line, 'right', xOf), oddPlaces(line, 'left', xOf)];
  const leftTop = TOP_PX + layers(right) * LAYER_PX + oddRoom(oddRight) + HAND_GAP_PX;
  const height = leftTop + layers(left) * LAYER_PX + oddRoom(oddLeft) + 4;
  const hands = handSvg('right', right, { odd: oddRight, top: TOP_PX, xOf }) + handSvg('left', left, { odd: oddLeft, top: leftTop, xOf });
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
function handSvg(hand: 'right' | 'left', groups: readonly Layered[], at: { odd: readonly OddPlace[]; top: number; xOf: (tick: number) => number }): string {
  const label = element('text', { class: 'label', x: 0, y: at.top + 24 }, hand);
  const below = at.top + layers(groups) * LAYER_PX + 9;
  const played = groups.map((one, i) => {
    const next = groups.slice(i + 1).find(({ layer }) => layer === one.layer);
    const room = next === undefined ? TIME_LINE_PX : at.xOf(next.group.written.fromTick);
    return groupSvg(one.group, { top: at.top + one.layer * LAYER_PX, xOf: at.xOf, untilX: room });
  });
  return label + played.join('') + at.odd.map((odd) => oddSvg(odd, below)).join('');
}

/** Name over the written line, the played line under it, each with an upright at its onset; `untilX` ends the name's room. */
function groupSvg(group: TimeGroup, { top, xOf, untilX }: { top: number; xOf: (tick: number) => number; untilX: number }): string {
  const { fromTick, toTick } = group.written;
  const [from, to] = [xOf(fromTick), xOf(toTick)];
  const free = untilX - from - LETTER_PX * group.names.length;
  const name = free >= -NAME_BACK_PX ? element('text', { class: 'written', x: from + Math.min(4, free), y: top + 13 }, escaped(group.names)) : '';
  const written = path('written-line', `M${px(from)} ${px(top + 13)}v5H${px(to - 3)}`);
  const missing = group.missing ? path('odd', `M${px(from - 5.5)} ${px(top + 41)}l5.5 -8.5l5.5 8.5`) : '';
  return name + written + missing + group.played.map((stroke, i) => playedSvg(stroke, { top, xOf, seed: fromTick + i })).join('');
}

/** A pencil line from key down to key up. */
function playedSvg(stroke: TimeStroke, at: { top: number; xOf: (tick: number) => number; seed: number }): string {
  const from = at.xOf(stroke.fromTick);
  const line = pencilLine(from, Math.max(at.xOf(stroke.toTick) - 2, from + 2), { y: at.top + 29, seed: at.seed });
  return path('played-line', `M${px(from)} ${px(at.top + 24)}v5`) + element('g', { class: 'played-line' }, line);
}

/** Where the ringed name of a key that does not belong stands: names that would cross go into a row below. */
interface OddPlace {
  readonly name: string;
  readonly x: number;
  readonly half: number;
  readonly row: number;
}

/** Places of one hand's ringed names, from left to right. */
function oddPlaces(line: TimeLine, hand: 'right' | 'left', xOf: (tick: number) => number): readonly OddPlace[] {
  const ends: number[] = [];
  const own = line.odd.filter((note) => note.hand === hand).sort((a, b) => a.stroke.fromTick - b.stroke.fromTick);
  return own.map(({ name, stroke }) => {
    const half = (name.length * LETTER_PX) / 2 + 8;
    const x = Math.min(Math.max(xOf(stroke.fromTick) + half, GUTTER_PX + half), TIME_LINE_PX - half - 2);
    const free = ends.findIndex((end) => end + ODD_GAP_PX <= x - half);
    const row = free === -1 ? ends.length : free;
    ends[row] = x + half;
    return { name, x, half, row };
  });
}

/** A key that does not belong: its name in a ring. */
function oddSvg({ name, x, half, row }: OddPlace, top: number): string {
  const y = top + row * ODD_PX;
  const ringed = element('ellipse', { class: 'odd', cx: x, cy: y, rx: half, ry: 9.5 });
  return ringed + element('text', { x, y: y + 5, 'text-anchor': 'middle' }, escaped(name));
}

/** Room for names of keys that do not belong. */
function oddRoom(places: readonly OddPlace[]): number {
  return places.length === 0 ? 0 : (Math.max(...places.map(({ row }) => row)) + 1) * ODD_PX;
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
