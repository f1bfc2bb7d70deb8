/** What the finders of hands share: lines, tempo, span, and who is free at a moment. */
import { firstIndex } from '../base/index.js';
import type { HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { handLines, type HandEvent, type HandLines, type HandNote, type OneHand } from './handLines.js';
import { handTempo, type HandTempo } from './handTempo.js';
import type { HandSpot } from './handTypes.js';

/** Everything that finders of hands look at. */
export interface HandContext {
  readonly score: Score;
  readonly lines: HandLines;
  readonly tempo: HandTempo;
  /** What a hand covers at once, semitones. */
  readonly span: number;
  /** Keys of the piece, where they are known. */
  readonly harmony: HarmonyAnalysis | null;
  /** Whether a hand neither strikes nor holds anything at a written tick. */
  readonly isFree: (hand: OneHand, tick: number) => boolean;
}

/** What a grown hand covers without strain: a ninth, semitones (common practice). */
export const GROWN_SPAN = 14;

/** Lays a score out once for all finders. */
export function handContext(
  score: Score,
  options: { readonly span?: number; readonly harmony?: HarmonyAnalysis; readonly lines?: HandLines } = {},
): HandContext {
  const lines = options.lines ?? handLines(score);
  const until = { right: soundingUntil(lines.right), left: soundingUntil(lines.left) };
  return {
    score,
    lines,
    tempo: handTempo(score),
    span: options.span ?? GROWN_SPAN,
    harmony: options.harmony ?? null,
    isFree: (hand, tick) => until[hand](tick) <= tick,
  };
}

/** The spot of events of one hand, first to last. */
export function spotOf(first: HandEvent, last: HandEvent = first): HandSpot {
  return {
    fromBar: first.barIndex,
    toBar: last.barIndex,
    fromTick: first.onsetTick,
    hand: first.hand,
    notes: first.notes.map((one) => one.note.index),
  };
}

/** Whether the other hand can take the nearest note of a strike: it is free, or has it within its span of what it strikes or holds then. */
export function canHelp(context: HandContext, event: HandEvent): boolean {
  const other = event.hand === 'right' ? 'left' : 'right';
  if (context.isFree(other, event.onsetTick)) return true;
  const down = downAt(context.lines[other], event.onsetTick);
  if (down.length === 0) return false;
  if (event.hand === 'right') return event.low - down.reduce((low, one) => Math.min(low, one.midi), Infinity) <= context.span;
  return down.reduce((high, one) => Math.max(high, one.midi), -Infinity) - event.high <= context.span;
}

/** A note struck more strikes ago than this is let go or caught by the pedal: no line of a hand runs so long under one held note. */
const LONGEST_HELD = 24;

/** The notes that a hand strikes or still holds at a tick. */
function downAt(line: readonly HandEvent[], tick: number): readonly HandNote[] {
  const next = firstIndex(line.length, (i) => (line[i]?.onsetTick ?? 0) > tick);
  return line.slice(Math.max(0, next - LONGEST_HELD), next).flatMap((event) => event.notes.filter((one) => event.onsetTick === tick || one.endTick > tick));
}

/** When the sound of everything struck up to a tick ends. Binary search over the latest ends so far. */
function soundingUntil(line: readonly HandEvent[]): (tick: number) => number {
  let latest = 0;
  const ends = line.map((event) => (latest = Math.max(latest, event.endTick)));
  return (tick) => {
    const next = firstIndex(line.length, (i) => (line[i]?.onsetTick ?? 0) > tick);
    // nothing struck yet: silent since before the beginning
    return ends[next - 1] ?? Number.NEGATIVE_INFINITY;
  };
}
