import { InputError } from '../base/index.js';
import type { Bar } from '../score/index.js';
import { nearestLine, type BarLineX } from './barLines.js';
import { barNumbers } from './barNumbers.js';
import { unionOf, type Box } from './box.js';
import { cleanSvg, type CleanContext } from './clean.js';
import { readColumn, type RawMeasure, type RawSystem } from './column.js';
import { glyphDefs, type Glyphs } from './glyphs.js';
import { fixed } from './numbers.js';
import { openSvg } from './openSvg.js';
import { ENGRAVER_ID, repairForEngraving } from './repair.js';
import { createToolkit, PX_PER_UNIT, STAVE_SPACE_UNITS, type Toolkit } from './toolkit.js';
import type { EngravedBar, EngravedStave, EngravedSystem, Engraving } from './types.js';

/** What to engrave and how wide. */
export interface EngraveOptions {
  /** Width of the column in CSS px, 100 to 4000. */
  readonly widthPx: number;
  /** `Score.bars`, for the printed numbers. */
  readonly bars: readonly Bar[];
  /** Part to engrave; the first where it is left out. */
  readonly part?: string;
  /** First and last bar to engrave, places in `bars`; all where left out. */
  readonly only?: readonly [first: number, last: number];
  /** A loaded engraver to go on with; a fresh one where it is left out. */
  readonly toolkit?: Toolkit;
}

/** Room above and below the ink of a system, px: half a pencil ring reaches out so far. */
const PADDING_PX = 6;

/**
 * Share of the notes that may be missing from the picture before it is held to be blank or partial. A few odd notes
 * (more voices than can be drawn) only go without a mark; a damaged picture loses far more.
 */
const MISSING_SHARE = 0.01;

/** What every system of one engraving shares. */
interface Page {
  readonly options: EngraveOptions;
  readonly glyphs: Glyphs;
  readonly noteIds: readonly string[];
  readonly barOf: ReadonlyMap<RawMeasure, number>;
}

/**
 * Engraves a score as one SVG a system, all at one scale, with the place of every note-head.
 * @param xml `Score.xml`
 * @throws InputError `unsupported` where the engraver fails or leaves bars or notes out, `not-well-formed` for damaged XML
 * @throws RangeError for a width that no page has
 */
export async function engraveScore(xml: string, options: EngraveOptions): Promise<Engraving> {
  const { widthPx, bars, toolkit = createToolkit(), part, only } = options;
  const [first, last] = only ?? [0, bars.length - 1];
  checkWidth(widthPx);
  const repaired = repairForEngraving(xml, part === undefined ? {} : { part });
  const { glyphs, systems } = readColumn(await toolkit.column(repaired.xml, { widthPx: Math.floor(widthPx), only }), PX_PER_UNIT);
  const measures = systems.flatMap((system) => system.measures);
  const wanted = last - first + 1;
  if (measures.length !== wanted) throw new InputError('unsupported', `The engraver drew ${measures.length} of ${wanted} bars.`);
  const page: Page = { options, glyphs, noteIds: repaired.noteIds, barOf: new Map(measures.map((measure, index) => [measure, first + index])) };
  const engraved = systems.map((system, index) => standalone(system, index, page));
  if (only === undefined) checkNotes(repaired.noteIds, engraved);
  return { widthPx, staveSpacePx: STAVE_SPACE_UNITS * PX_PER_UNIT, defs: glyphDefs(glyphs.values()), systems: engraved, fallback: null };
}

/** Guards against widths that no page has. @throws RangeError */
export function checkWidth(widthPx: number): void {
  if (!(widthPx >= 100 && widthPx <= 4000)) throw new RangeError(`a column is 100 to 4000 px wide, not ${widthPx}`);
}

/** Compares the notes of the picture with those of the score. */
function checkNotes(wanted: readonly string[], systems: readonly EngravedSystem[]): void {
  const placed = new Set(systems.flatMap(({ notes }) => notes.map(({ id }) => id)));
  const missing = wanted.filter((id) => !placed.has(id)).length;
  if (missing > MISSING_SHARE * wanted.length) throw new InputError('unsupported', `The engraver left out ${missing} of ${wanted.length} notes.`);
}

/** Cuts one system out: origin at its own top left corner, as high as its ink. */
function standalone(system: RawSystem, index: number, page: Page): EngravedSystem {
  const staves = stavesOf(system.measures);
  const bars = system.measures.map((measure) => edgesOf(measure, page.barOf.get(measure) ?? 0, system.barLines));
  const numbers = barNumbers(bars.map(({ barIndex, left }) => ({ bar: page.options.bars[barIndex], left })), staves[0]?.top ?? 0, system.ink);
  const extent = extentOf([...system.ink, ...numbers.ink, ...staves.map(staveBox)]);
  const lift = extent.top - PADDING_PX;
  const heightPx = Math.ceil(extent.bottom - lift + PADDING_PX);
  const { widthPx } = page.options;
  return {
    index,
    widthPx,
    heightPx,
    svg: svgOf(system, { page, numbers: numbers.svg, lift, heightPx }),
    staves: staves.map((stave) => ({ ...stave, top: stave.top - lift, bottom: stave.bottom - lift })),
    bars,
    notes: [...system.heads].flatMap(([id, { x, y }]) => {
      const own = noteId(page.noteIds, id);
      return own === undefined ? [] : [{ id: own, x, y: y - lift }];
    }),
  };
}

/** What goes into the text of one system. */
interface SystemDrawing {
  readonly page: Page;
  readonly numbers: string;
  /** Height of the system's top in the column, px. */
  readonly lift: number;
  readonly heightPx: number;
}

/** The system’s drawing, shifted to its own origin, with the numbers over it. */
function svgOf(system: RawSystem, { page, numbers, lift, heightPx }: SystemDrawing): string {
  const { toPx } = system;
  const indices = new Map([...page.barOf].map(([measure, index]) => [measure.element, index]));
  const context: CleanContext = { glyphs: page.glyphs, noteId: (id) => noteId(page.noteIds, id), barIndex: (measure) => indices.get(measure) };
  const matrix = `matrix(${toPx.a} 0 0 ${toPx.d} ${fixed(toPx.e)} ${fixed(toPx.f - lift)})`;
  const drawing = `<g class="engraved" fill="currentColor" stroke="currentColor" transform="${matrix}">${cleanSvg(system.element, context)}</g>`;
  const raised = numbers === '' ? '' : `<g class="bar-numbers" transform="translate(0 ${fixed(-lift)})">${numbers}</g>`;
  return openSvg(page.options.widthPx, heightPx) + drawing + raised + '</svg>';
}

/** The score’s id for the engraver’s own; undefined for anything that is no note. */
function noteId(noteIds: readonly string[], engraverId: string): string | undefined {
  return engraverId.startsWith(ENGRAVER_ID) ? noteIds[Number(engraverId.slice(ENGRAVER_ID.length))] : undefined;
}

/** Left and right edge of a bar by its first stave’s lines, and the line that is drawn at its end. */
function edgesOf({ staves }: RawMeasure, barIndex: number, barLines: readonly BarLineX[]): EngravedBar {
  const { left, right } = staves[0]?.box ?? { left: 0, right: 0 };
  const lineX = nearestLine(barLines, right);
  return { barIndex, left, right, ...(lineX === null ? {} : { lineX }) };
}

/** The staves of a system by its first measure that shows them; they stay level to its end. */
function stavesOf(measures: readonly RawMeasure[]): readonly EngravedStave[] {
  const first = measures.find(({ staves }) => staves.length > 0)?.staves ?? [];
  return first.map(({ staff, box }) => ({ staff, top: box.top, bottom: box.bottom }));
}

/** A stave as ink: an empty one still needs its room. */
function staveBox({ top, bottom }: EngravedStave): Box {
  return { left: 0, right: 0, top, bottom };
}

/** From the highest to the lowest ink. */
function extentOf(boxes: readonly Box[]): Box {
  return unionOf(boxes) ?? { left: 0, right: 0, top: 0, bottom: 0 };
}
