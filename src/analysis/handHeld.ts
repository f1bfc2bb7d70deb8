/**
 * The question: where must one finger hold while others of the same hand move?
 * Conventions: one place a bar and hand, at the first note held; `above` where the held note lies above all that moves.
 * Method: a note counts as held where its hand strikes LEAST_MOVES times or more before it ends, all within the span. Out of
 * reach the pedal holds, not the finger. Our own rule.
 * It does not tell which of the voices is the tune.
 */
import { spotOf, type HandContext } from './handContext.js';
import { BOTH_HANDS, type HandEvent, type HandNote } from './handLines.js';
import type { HandPlace } from './handTypes.js';

/** Strikes under or over a held note from which holding it is a task (inclusive). */
const LEAST_MOVES = 2;

/** A note that is down, and what has moved meanwhile. */
interface Held {
  readonly note: HandNote;
  readonly event: HandEvent;
  readonly moves: number;
  readonly above: boolean;
  readonly reached: boolean;
}

/** Bars with held notes in either hand. */
export function heldVoices(context: HandContext): readonly HandPlace[] {
  return BOTH_HANDS.flatMap((hand) => {
    const bars = new Map<number, HandPlace>();
    let down: readonly Held[] = [];
    for (const event of context.lines[hand]) {
      const ended = down.filter(({ note }) => note.endTick <= event.onsetTick || event.broken);
      for (const held of ended) keep(bars, held);
      down = down
        .filter((held) => !ended.includes(held))
        .map((held) => moved(held, event, context.span))
        .concat(event.notes.map((note) => ({ note, event, moves: 0, above: true, reached: true })));
    }
    for (const held of down) keep(bars, held);
    return [...bars.values()];
  });
}

/** A held note after one more strike. */
function moved(held: Held, event: HandEvent, span: number): Held {
  const { midi } = held.note;
  return {
    ...held,
    moves: held.moves + 1,
    above: held.above && event.high < midi,
    reached: held.reached && Math.max(event.high, midi) - Math.min(event.low, midi) <= span,
  };
}

/** Takes the place of a held note that counts, the first of its bar. */
function keep(bars: Map<number, HandPlace>, { note, event, moves, above, reached }: Held): void {
  if (moves < LEAST_MOVES || !reached || bars.has(event.barIndex)) return;
  bars.set(event.barIndex, { ...spotOf(event), notes: [note.note.index], kind: 'heldVoice', moves, above });
}
