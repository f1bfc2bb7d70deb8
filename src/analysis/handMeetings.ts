/**
 * The question: where do the hands get in each other's way?
 * Conventions: what is down counts by written lengths, ties merged; depth in semitones from the right hand's lowest note to the
 * left hand's highest.
 * Method: one walk through the strikes of both hands together. A crossing is a strike beyond a key that the other hand has
 * down, laid to the hand that is farther from its usual place; a shared key is one that both have to strike, or that one strikes while the other should hold it.
 * It does not tell which hand is better on top.
 */
import { spotOf, type HandContext } from './handContext.js';
import { type HandEvent, type HandNote, type OneHand } from './handLines.js';
import type { HandPlace } from './handTypes.js';

/** What is down in each hand. */
type Down = Record<OneHand, readonly HandNote[]>;

/** Crossings and shared keys: one place of each kind a moment. */
export function meetings(context: HandContext): readonly HandPlace[] {
  const merged = [...context.lines.right, ...context.lines.left].sort((a, b) => a.onsetTick - b.onsetTick);
  const down: Down = { right: [], left: [] };
  const homes = { right: middleOf(context.lines.right), left: middleOf(context.lines.left) };
  return merged.flatMap((event, i) => {
    const tick = event.onsetTick;
    down.right = down.right.filter((one) => one.endTick > tick);
    down.left = down.left.filter((one) => one.endTick > tick);
    down[event.hand] = [...down[event.hand], ...event.notes];
    // of two strikes at one moment the second is looked at, when both are down
    const next = merged[i + 1];
    if (next?.onsetTick === tick) return [];
    const before = merged[i - 1];
    const struck = before?.onsetTick === tick ? [before, event] : [event];
    return [...crossing(down, struck, homes), ...sharedKey(down, struck)];
  });
}

/** The crossing at a moment. */
function crossing(down: Down, struck: readonly HandEvent[], homes: Readonly<Record<OneHand, number>>): readonly HandPlace[] {
  const lowestRight = down.right.reduce((low, one) => Math.min(low, one.midi), Infinity);
  const highestLeft = down.left.reduce((high, one) => Math.max(high, one.midi), -Infinity);
  const semitones = highestLeft - lowestRight;
  const beyond = struck.find((event) => (event.hand === 'left' ? event.high > lowestRight : event.low < highestLeft));
  if (beyond === undefined || !Number.isFinite(semitones) || semitones <= 0) return [];
  // the hand that is farther from where it usually is has come over to the other
  const mover = Math.abs(highestLeft - homes.left) >= Math.abs(lowestRight - homes.right) ? 'left' : 'right';
  return [{ ...spotOf(beyond), hand: mover, kind: 'crossing', crossing: mover, semitones }];
}

/** Where a hand usually is: the mean of what it strikes, MIDI number. */
function middleOf(line: readonly HandEvent[]): number {
  return line.reduce((sum, event) => sum + (event.low + event.high) / 2, 0) / Math.max(1, line.length);
}

/** The key that both hands need at a moment: the highest. */
function sharedKey(down: Down, struck: readonly HandEvent[]): readonly HandPlace[] {
  const left = new Set(down.left.map((one) => one.midi));
  const shared = down.right.filter((one) => left.has(one.midi)).sort((a, b) => b.midi - a.midi);
  return struck.flatMap((event): readonly HandPlace[] => {
    const note = event.notes.find((one) => shared[0]?.midi === one.midi);
    if (note === undefined) return [];
    const together = struck.length === 2 && struck.every((each) => each.notes.some((one) => one.midi === note.midi));
    if (together && event !== struck[0]) return [];
    return [{ ...spotOf(event), hand: 'both', notes: [note.note.index], kind: 'sharedKey', how: together ? 'together' : 'held' }];
  });
}
