/** The plain picture for scores that cannot be engraved: bars of equal width, staves, heads by time and pitch. */
import type { Bar, Score, ScoreNote } from '../score/index.js';
import { barNumbers } from './barNumbers.js';
import { unionOf, type Box } from './box.js';
import { gridStaves, stepY, type GridStave } from './gridStaves.js';
import { fixed } from './numbers.js';
import { openSvg } from './openSvg.js';
import { PX_PER_UNIT, STAVE_SPACE_UNITS } from './toolkit.js';
import type { EngravedBar, EngravedNote, EngravedSystem, Engraving } from './types.js';

/** Least width of a bar, px: four bars in a column of 656 px, two in 358 px, as in engraved pages. */
const LEAST_BAR_PX = 158;

/** Room left of the first bar, px, as an engraved brace takes. */
const LEFT_PX = 12.6;

/** Share of a bar's width kept free at both ends, so that heads do not stand on bar lines. */
const INSET_SHARE = 0.09;

/** Distance of two stave lines, px: that of the engraved pages. */
const SPACE_PX = PX_PER_UNIT * STAVE_SPACE_UNITS;

/** Room above and below the ink of a system, px. */
const PADDING_PX = 10;

/** How wide, and why it is no engraving. */
export interface BarGridOptions {
  readonly widthPx: number;
  /** One clause for the teacher: why the score is not engraved. */
  readonly reason: string;
}

/** Draws every score that was read, notes standing by time and pitch, so that marks and lanes still have their place. */
export function barGrid(score: Score, { widthPx, reason }: BarGridOptions): Engraving {
  const across = Math.max(1, Math.floor((widthPx - LEFT_PX) / LEAST_BAR_PX));
  const rows = Array.from({ length: Math.ceil(score.bars.length / across) }, (_, i) => score.bars.slice(i * across, (i + 1) * across));
  const barPx = (widthPx - LEFT_PX - 1) / across;
  const byBar = notesByBar(score);
  const systems = rows.map((bars, index) => gridSystem(bars, index, { score, widthPx, barPx, notes: bars.flatMap((bar) => byBar.get(bar.index) ?? []) }));
  return { widthPx, staveSpacePx: SPACE_PX, defs: '', systems, fallback: reason };
}

/** What all bars of one row share. */
interface Row {
  readonly score: Score;
  readonly widthPx: number;
  readonly barPx: number;
  readonly notes: readonly ScoreNote[];
}

/** One row as a system: heads placed first, then as much height as they need. */
function gridSystem(bars: readonly Bar[], index: number, row: Row): EngravedSystem {
  const { score, widthPx, barPx, notes } = row;
  const edges = bars.map((bar, i) => ({ barIndex: bar.index, left: LEFT_PX + i * barPx, right: LEFT_PX + (i + 1) * barPx }));
  const staves = gridStaves(score, notes, SPACE_PX);
  const heads = notes.flatMap((note) => placed(note, { edges, staves, score }));
  const ink: readonly Box[] = [...heads.map(({ x, y }) => ({ left: x - 5, right: x + 5, top: y - 4, bottom: y + 4 })), ...staves.map(({ top, bottom }) => ({ left: LEFT_PX, right: widthPx, top, bottom }))];
  const top = staves[0]?.top ?? 0;
  const numbers = barNumbers(edges.map(({ barIndex, left }) => ({ bar: score.bars[barIndex], left })), top, ink);
  const extent = unionOf([...ink, ...numbers.ink]) ?? { left: 0, right: 0, top: 0, bottom: 0 };
  const lift = extent.top - PADDING_PX;
  const heightPx = Math.ceil(extent.bottom - lift + PADDING_PX);
  const drawing = staves.map((stave) => staveLines(stave, edges)).join('') + barLines(edges, staves) + heads.map((head) => headSvg(head, staves)).join('');
  const svg = `${openSvg(widthPx, heightPx)}<g transform="translate(0 ${fixed(-lift)})"><g class="grid" stroke="currentColor" fill="currentColor" stroke-width="0.5">${drawing}</g>${numbers.svg}</g></svg>`;
  return {
    index, widthPx, heightPx, svg,
    staves: staves.map((stave) => ({ staff: stave.staff, top: stave.top - lift, bottom: stave.bottom - lift })),
    bars: edges,
    notes: heads.map(({ id, x, y }) => ({ id, x, y: y - lift })),
  };
}

/** A head with what its drawing needs. */
interface Head extends EngravedNote {
  readonly staff: number;
  readonly hollow: boolean;
}

/** A note by its share of the bar; grace notes step back in front of their main note; hidden notes have no place. */
function placed(note: ScoreNote, { edges, staves, score }: { readonly edges: readonly EngravedBar[]; readonly staves: readonly GridStave[]; readonly score: Score }): readonly Head[] {
  const edge = edges.find(({ barIndex }) => barIndex === note.barIndex);
  const bar = score.bars[note.barIndex];
  const stave = staves.find(({ staff }) => staff === note.staff) ?? staves[0];
  if (!edge || !bar || !stave || note.hidden) return [];
  const share = (note.onsetTick - bar.startTick) / Math.max(1, bar.lengthTicks);
  const early = note.grace ? 9 * note.grace.before : 0;
  const width = edge.right - edge.left;
  const x = edge.left + width * (INSET_SHARE + (1 - 2 * INSET_SHARE) * Math.min(1, Math.max(0, share))) - early;
  return [{ id: note.id, x, y: stepY(note.pitch, stave, SPACE_PX), staff: stave.staff, hollow: note.lengthTicks >= 2 * score.ticksPerQuarter }];
}

/** A head with its ledger lines: hollow from a minim upwards. */
function headSvg({ x, y, staff, hollow }: Head, staves: readonly GridStave[]): string {
  const stave = staves.find((candidate) => candidate.staff === staff);
  const look = hollow ? 'fill="none" stroke-width="1.2"' : 'stroke="none"';
  return ledgers(x, y, stave) + `<ellipse cx="${fixed(x)}" cy="${fixed(y)}" rx="4.6" ry="3.4" transform="rotate(-20 ${fixed(x)} ${fixed(y)})" ${look}/>`;
}

/** Short lines between the stave and a head outside it. */
function ledgers(x: number, y: number, stave: GridStave | undefined): string {
  if (!stave) return '';
  const above = Array.from({ length: Math.max(0, Math.floor((stave.top - y) / SPACE_PX + 0.01)) }, (_, i) => stave.top - (i + 1) * SPACE_PX);
  const below = Array.from({ length: Math.max(0, Math.floor((y - stave.bottom) / SPACE_PX + 0.01)) }, (_, i) => stave.bottom + (i + 1) * SPACE_PX);
  return [...above, ...below].map((line) => `<path d="M${fixed(x - 7.5)} ${fixed(line)} H${fixed(x + 7.5)}"/>`).join('');
}

/** Five lines over the whole row. */
function staveLines({ top }: GridStave, edges: readonly EngravedBar[]): string {
  const [left, right] = [edges[0]?.left ?? 0, edges.at(-1)?.right ?? 0];
  return Array.from({ length: 5 }, (_, i) => `<path d="M${fixed(left)} ${fixed(top + i * SPACE_PX)} H${fixed(right)}"/>`).join('');
}

/** Lines at every bar’s edge, through all staves. */
function barLines(edges: readonly EngravedBar[], staves: readonly GridStave[]): string {
  const [top, bottom] = [staves[0]?.top ?? 0, staves.at(-1)?.bottom ?? 0];
  const xs = [edges[0]?.left ?? 0, ...edges.map(({ right }) => right)];
  return xs.map((x) => `<path stroke-width="1.1" d="M${fixed(x)} ${fixed(top)} V${fixed(bottom)}"/>`).join('');
}

/** Notes sorted by bar once, not once a row. */
function notesByBar(score: Score): ReadonlyMap<number, readonly ScoreNote[]> {
  const byBar = new Map<number, ScoreNote[]>();
  for (const note of score.notes) byBar.set(note.barIndex, [...(byBar.get(note.barIndex) ?? []), note]);
  return byBar;
}
