/**
 * Where a written moment stands across a system. Onsets that have a note-head stand under it; others (a change over a rest, the
 * end of a pedal mark) lie between the heads beside them, always within their own bar.
 */
import type { Score } from '../../score/index.js';
import type { EngravedBar, EngravedSystem } from '../types.js';

/** Written tick to x, px in the system's coordinates. Ticks before or after the system fall on its first and last place. */
export interface TickPlaces {
  /** Where something begins that stands at this tick. */
  readonly at: (tick: number) => number;
  /** Where something ends at this tick, exclusive: under the next onset, or at the system's end. */
  readonly until: (tick: number) => number;
  /** Written ticks of the system, end exclusive. */
  readonly fromTick: number;
  readonly toTick: number;
  /** First onset of the system. */
  readonly startX: number;
  /** Right edge of its last bar. */
  readonly endX: number;
}

/** A moment and its x. */
interface Anchor {
  readonly tick: number;
  readonly x: number;
}

/** A bar with its moments, in order; the first is the bar's start, the last its end. */
interface PlacedBar {
  readonly startTick: number;
  readonly anchors: readonly Anchor[];
}

/** How far into a bar its first beat stands where nothing is struck there, px: about where print puts a rest. */
const FIRST_BEAT_PX = 12;

/** The same for the first bar of a system, after clef and signatures, where no head tells it, px. */
const AFTER_CLEF_PX = 84;

/** Room that a clef takes at least, px: no beat stands over it. */
const CLEF_PX = 36;

/** Places of one system. */
export function tickPlaces(system: EngravedSystem, score: Pick<Score, 'bars' | 'notes'>, headTicks: ReadonlyMap<string, number>): TickPlaces {
  const heads = headAnchors(system, headTicks);
  const bars = system.bars.flatMap((bar, i) => {
    const written = score.bars[bar.barIndex];
    return written === undefined ? [] : [placedBar(bar, { ...written, isFirst: i === 0 }, heads)];
  });
  const endX = system.bars.at(-1)?.right ?? 0;
  const fromTick = bars[0]?.startTick ?? 0;
  const toTick = bars.at(-1)?.anchors.at(-1)?.tick ?? fromTick;
  const startX = bars[0]?.anchors[0]?.x ?? 0;
  const at = (tick: number): number => within(bars.findLast((bar) => bar.startTick <= tick) ?? bars[0], tick);
  return { at, until: (tick) => (tick >= toTick ? endX : at(tick)), fromTick, toTick, startX, endX };
}

/** Onset ticks of all notes that stand in time, by id: grace notes stand before their moment and tell nothing of it. */
export function headTicks({ notes }: Pick<Score, 'notes'>): ReadonlyMap<string, number> {
  return new Map(notes.filter((note) => note.grace === null && !note.hidden).map((note) => [note.id, note.onsetTick]));
}

/** One x for each moment with heads: the middling one, since a second or another voice stands beside its chord. */
function headAnchors(system: EngravedSystem, ticks: ReadonlyMap<string, number>): readonly Anchor[] {
  const byTick = new Map<number, number[]>();
  for (const { id, x } of system.notes) {
    const tick = ticks.get(id);
    if (tick !== undefined) byTick.set(tick, [...(byTick.get(tick) ?? []), x]);
  }
  return [...byTick].map(([tick, xs]) => ({ tick, x: middling(xs) })).sort((a, b) => a.tick - b.tick);
}

/** The lower of the two middle values, or the middle one. */
function middling(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
}

/** A bar's own moments between its start and its end. */
function placedBar(bar: EngravedBar, written: { readonly startTick: number; readonly lengthTicks: number; readonly isFirst: boolean }, heads: readonly Anchor[]): PlacedBar {
  const { startTick, lengthTicks, isFirst } = written;
  const endTick = startTick + lengthTicks;
  const own = heads.filter(({ tick, x }) => tick >= startTick && tick < endTick && x >= bar.left && x <= bar.right);
  const end = { tick: endTick, x: bar.right };
  const first = own[0];
  if (first?.tick === startTick) return { startTick, anchors: [...own, end] };
  const x = isFirst ? startAfterClef(bar, first, written) : Math.min(bar.left + FIRST_BEAT_PX, first?.x ?? bar.right);
  return { startTick, anchors: [{ tick: startTick, x }, ...own, end] };
}

/** The first beat of a system whose first bar begins with a rest: as far before its first head as the later beats stand apart. */
function startAfterClef(bar: EngravedBar, first: Anchor | undefined, { startTick, lengthTicks }: { readonly startTick: number; readonly lengthTicks: number }): number {
  if (first === undefined) return Math.min(bar.left + AFTER_CLEF_PX, (bar.left + bar.right) / 2);
  const perTick = (bar.right - first.x) / Math.max(1, startTick + lengthTicks - first.tick);
  return Math.max(Math.min(bar.left + CLEF_PX, first.x), first.x - (first.tick - startTick) * perTick);
}

/** Between the moments beside it. */
function within(bar: PlacedBar | undefined, tick: number): number {
  if (bar === undefined) return 0;
  const before = bar.anchors.findLast((anchor) => anchor.tick <= tick) ?? bar.anchors[0];
  const after = bar.anchors.find((anchor) => anchor.tick > tick);
  if (before === undefined || after === undefined || after.tick <= before.tick) return before?.x ?? 0;
  return before.x + (Math.max(0, tick - before.tick) * (after.x - before.x)) / (after.tick - before.tick);
}
