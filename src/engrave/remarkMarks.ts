/**
 * Pencil marks for remarks: two slanted lines where the music stopped, arrows where notes came early or late, a ring around
 * one note, a wavy bracket over a stretch, a tick for what went well. Each carries the number of its remark.
 */
import type { Aspect, FoundPlace } from '../judge/index.js';
import type { Hand } from '../measure/index.js';
import { shownOf, type MarkMaterial } from './markMaterial.js';
import type { Mark } from './compose.js';
import { fixed } from './numbers.js';
import { ARROW_BELOW_PX, earlyArrow, lateArrow, ring, RING_REACH_PX, stop, stretch, tick, type MarkLabels } from './pencil.js';
import type { EngravedBar, EngravedNote, EngravedSystem, Engraving } from './types.js';

/** Something to be marked on the score. */
export interface MarkedRemark {
  /** From 1, written beside the mark; null for none. */
  readonly number: number | null;
  readonly aspect: Aspect;
  /** What it is, which tells the shape; "praise" for what went well. */
  readonly kind: string;
  readonly hand: Hand | null;
  readonly places: readonly FoundPlace[];
  /** What to read out. */
  readonly text: string;
}

/** The shapes of marks. */
type Shape = 'stop' | 'late' | 'early' | 'earlyShort' | 'ring' | 'stretch' | 'tick' | 'none';

/** Brackets and ticks stand so far over everything that is engraved, bar numbers and tempo words too, px. */
const ABOVE_PX = 11;

/** Height of a tick and of the hooks of a bracket, px. */
const TICK_PX = 16;

/** Height of a row of brackets, px. */
const ROW_PX = 18;

/** A stop stands so far before the first note of its bar, px. */
const BEFORE_PX = 13;

/** Half the height of a stop, px. */
const STOP_REACH_PX = 9;

/** A ring says "this note": more notes (>) than this in one place are a stretch. */
const MOST_RINGS = 1;

/** Pairs of a long and a short note that were played alike: the short one came early. Their notes stand in pairs. */
const EVEN_PAIRS: ReadonlySet<string> = new Set(['evenDots', 'evenLongShort']);

/** More notes (>) than this in one place get a bracket instead of an arrow each. */
const MOST_ARROWS = 8;

/** Type size of a number and its distance from its mark, px. */
const NUMBER_PX = 13;
const NUMBER_GAP_PX = 4;

/** Marks of every system, in the system's coordinates. */
export function remarkMarks(engraving: Engraving, material: MarkMaterial, remarks: readonly MarkedRemark[]): readonly (readonly Mark[])[] {
  return engraving.systems.map((system) => {
    const rows: Span[] = [];
    return remarks.flatMap((remark, i) => joined(remark, visibleParts(system, material, remark)).flatMap((part) => markOf({ ...part, system, remark, rows, seed: 31 * i + part.bars.reduce((sum, { barIndex }) => sum + barIndex, 0) })));
  });
}

/** A place of a remark as far as it stands in one system. */
interface Part {
  readonly place: FoundPlace;
  readonly bars: readonly EngravedBar[];
  readonly notes: readonly EngravedNote[];
}

/** Everything one mark is drawn from. */
interface Drawing extends Part {
  readonly system: EngravedSystem;
  readonly remark: MarkedRemark;
  /** Room taken above the system so far. */
  readonly rows: Span[];
  readonly seed: number;
}

/** A stretch of a row above the system. */
interface Span {
  readonly fromX: number;
  readonly toX: number;
  readonly y: number;
}

/** The places of a remark that this system shows, in the tries that are shown. */
function visibleParts(system: EngravedSystem, material: MarkMaterial, remark: MarkedRemark): readonly Part[] {
  const shown = shownOf(material);
  return remark.places.flatMap((place) => {
    const bars = system.bars.filter(({ barIndex }) => {
      const visit = shown.get(barIndex);
      return barIndex >= place.fromBar && barIndex <= place.toBar && visit?.pass === place.pass && visit.attempt === place.attempt;
    });
    if (bars.length === 0) return [];
    const ids = new Set(place.notes.map((index) => material.score.notes[index]?.id));
    return [{ place, bars, notes: system.notes.filter(({ id }) => ids.has(id)) }];
  });
}

/** Stretches that follow one another become one: one bracket, one number. Other shapes stay each at its own place. */
function joined(remark: MarkedRemark, parts: readonly Part[]): readonly Part[] {
  const out: Part[] = [];
  for (const part of parts) {
    const last = out.at(-1);
    const [before, next] = [last?.bars.at(-1), part.bars[0]];
    const follows = before !== undefined && next !== undefined && next.barIndex <= before.barIndex + 1 && next.barIndex >= before.barIndex;
    const long = (one: Part): boolean => ['stretch', 'tick'].includes(shapeOf(remark, one.notes));
    if (last !== undefined && follows && long(last) && long(part)) out[out.length - 1] = { place: last.place, bars: [...last.bars, ...part.bars], notes: [...last.notes, ...part.notes] };
    else out.push(part);
  }
  return out;
}

/** The shape that tells what happened. */
function shapeOf({ kind, aspect }: MarkedRemark, notes: readonly EngravedNote[]): Shape {
  if (kind === 'praise') return 'tick';
  // wrong notes have their own marks, and the pedal has its line
  if (aspect === 'notes' || aspect === 'pedal') return 'none';
  if (/^(stop|hesitation|goingBack)/.test(kind)) return 'stop';
  if (EVEN_PAIRS.has(kind) && notes.length > 0) return 'earlyShort';
  if (/late|behind/i.test(kind) && notes.length > 0 && notes.length <= MOST_ARROWS) return 'late';
  if (/early|ahead/i.test(kind) && notes.length > 0 && notes.length <= MOST_ARROWS) return 'early';
  return notes.length > 0 && notes.length <= MOST_RINGS ? 'ring' : 'stretch';
}

/** The mark of one part with its number. */
function markOf(drawing: Drawing): readonly Mark[] {
  const { notes } = drawing;
  switch (shapeOf(drawing.remark, notes)) {
    case 'none': return [];
    case 'stop': return [stopMark(drawing)];
    case 'late': return notes.map((note, i) => arrowMark(drawing, note, { late: true, numbered: i === 0 }));
    case 'early': return notes.map((note, i) => arrowMark(drawing, note, { late: false, numbered: i === 0 }));
    case 'earlyShort': return notes.filter((_, i) => i % 2 === 1).map((note, i) => arrowMark(drawing, note, { late: false, numbered: i === 0 }));
    case 'ring': return notes.map((note, i) => ringMark(drawing, note, i === 0));
    case 'tick': return [tickMark(drawing)];
    case 'stretch': return [stretchMark(drawing)];
  }
}

/** What script and readers need: the bar, the notes, and the sentence. */
function labelsOf({ remark, bars, place, notes, seed }: Drawing): MarkLabels {
  return {
    title: remark.text,
    data: { bar: bars[0]?.barIndex ?? place.fromBar, attempt: place.attempt, notes: notes.map(({ id }) => id).join(' '), ...(remark.number === null ? {} : { remark: remark.number }) },
    seed,
  };
}

/** Two slanted lines over the upper stave, before the first note of the bar. */
function stopMark(drawing: Drawing): Mark {
  const { system, bars: [bar] } = drawing;
  const inBar = bar === undefined ? [] : system.notes.filter(({ x }) => x >= bar.left && x <= bar.right);
  const first = inBar.reduce((least, { x }) => Math.min(least, x), bar?.right ?? 0);
  const centre = { x: Math.max(first - BEFORE_PX, bar?.left ?? 0), y: topOf(system) };
  return { svg: stop(centre, labelsOf(drawing)) + numberAt(drawing, centre.x + NUMBER_PX, centre.y - STOP_REACH_PX), top: centre.y - STOP_REACH_PX - NUMBER_PX, bottom: centre.y + STOP_REACH_PX };
}

/** An arrow under a note. */
function arrowMark(drawing: Drawing, note: EngravedNote, { late, numbered }: { readonly late: boolean; readonly numbered: boolean }): Mark {
  const tail = { x: note.x, y: note.y + ARROW_BELOW_PX };
  const svg = late ? lateArrow(tail, labelsOf(drawing)) : earlyArrow(tail, labelsOf(drawing));
  const side = late ? 1 : -1;
  return { svg: svg + (numbered ? numberAt(drawing, note.x - side * NUMBER_PX * 0.6, tail.y + NUMBER_PX * 0.4) : ''), top: note.y, bottom: tail.y + NUMBER_PX };
}

/** A ring around a note. */
function ringMark(drawing: Drawing, note: EngravedNote, numbered: boolean): Mark {
  const svg = ring(note, labelsOf(drawing)) + (numbered ? numberAt(drawing, note.x + RING_REACH_PX, note.y - RING_REACH_PX + NUMBER_GAP_PX) : '');
  return { svg, top: note.y - RING_REACH_PX - NUMBER_PX, bottom: note.y + RING_REACH_PX };
}

/** A tick over the middle of the bars. */
function tickMark(drawing: Drawing): Mark {
  const { fromX, toX } = extentOf(drawing);
  const middle = (fromX + toX) / 2;
  const y = freeAbove(drawing, { fromX: middle - NUMBER_PX, toX: middle + NUMBER_PX });
  return { svg: tick({ x: middle - NUMBER_GAP_PX, y }, labelsOf(drawing)), top: y - TICK_PX, bottom: y + TICK_PX / 2 };
}

/** A wavy bracket over the notes, or over the bars where no notes are named. */
function stretchMark(drawing: Drawing): Mark {
  const { fromX, toX } = extentOf(drawing);
  const y = freeAbove(drawing, { fromX: fromX - NUMBER_PX, toX });
  return { svg: stretch({ fromX, toX, y }, labelsOf(drawing)) + numberAt(drawing, fromX - NUMBER_GAP_PX, y + NUMBER_GAP_PX, 'end'), top: y - NUMBER_PX, bottom: y + TICK_PX / 2 };
}

/** From the first to the last note or bar edge. */
function extentOf({ notes, bars, system }: Drawing): { readonly fromX: number; readonly toX: number } {
  if (notes.length > 1) {
    const xs = notes.map(({ x }) => x);
    return { fromX: Math.min(...xs) - NUMBER_GAP_PX, toX: Math.max(...xs) + NUMBER_GAP_PX };
  }
  const left = bars[0]?.left ?? 0;
  const right = bars.at(-1)?.right ?? system.widthPx;
  const first = system.notes.filter(({ x }) => x > left && x < right).reduce((least, { x }) => Math.min(least, x), right);
  return { fromX: Math.min(first, right - NUMBER_PX) - NUMBER_GAP_PX, toX: right - NUMBER_GAP_PX };
}

/** A height over the engraving and over other brackets; taken from now on. */
function freeAbove({ rows }: Drawing, { fromX, toX }: { readonly fromX: number; readonly toX: number }): number {
  let y = -ABOVE_PX;
  while (rows.some((row) => row.fromX < toX && row.toX > fromX && Math.abs(row.y - y) < ROW_PX)) y -= ROW_PX;
  rows.push({ fromX, toX, y });
  return y;
}

/** Top line of the upper stave. */
function topOf({ staves }: EngravedSystem): number {
  return staves[0]?.top ?? 0;
}

/** The number of a remark beside its mark. */
function numberAt({ remark }: Drawing, x: number, y: number, anchor: 'start' | 'end' = 'start'): string {
  if (remark.number === null) return '';
  return `<text class="mark-number" x="${fixed(x)}" y="${fixed(y)}" font-size="${NUMBER_PX}" font-style="italic" text-anchor="${anchor}" aria-hidden="true">${remark.number}</text>`;
}
