/**
 * The question: where must a hand travel, and how long has it got?
 * Conventions: semitones that the nearest finger travels, from one strike to the next; time from onset to onset, since the hand
 * may leave a note as soon as the pedal or a short touch allows.
 * Method: a jump is wider than an octave and faster than SLOW_SPEED. From a single note to a chord the nearest note of the
 * chord counts; from chord to chord the lesser of the ways of its outer notes. What the open hand covers is no jump.
 * Our own rule.
 * It does not tell jumps over a break of the playing order.
 */
import { canHelp, spotOf, type HandContext } from './handContext.js';
import { BOTH_HANDS, type HandEvent } from './handLines.js';
import type { HandPlace } from './handTypes.js';

/** Wider than this is a jump (exclusive), semitones: an octave is in the hand. */
const OCTAVE = 12;

/** Slower than this (exclusive) there is time to look, semitones a second: an octave and a half in two seconds. */
const SLOW_SPEED = 9;

/** A hand is called still where it covers an octave at a time, semitones. */
const POSITION = 12;

/** So many moves in one bar are worth a word (inclusive). */
const LEAST_MOVES = 3;

/** Jumps of either hand, at the note that is jumped to. */
export function jumps(context: HandContext): readonly HandPlace[] {
  return BOTH_HANDS.flatMap((hand) => {
    const line = context.lines[hand];
    return line.flatMap((event, i) => {
      const before = line[i - 1];
      return before === undefined || event.broken ? [] : (jumpTo(context, before, event) ?? []);
    });
  });
}

/** Bars in which a hand keeps moving. */
export function positionChanges(context: HandContext): readonly HandPlace[] {
  return BOTH_HANDS.flatMap((hand) => {
    const moves = new Map<number, { first: HandEvent; moves: number }>();
    let [low, high] = [Infinity, -Infinity];
    for (const event of context.lines[hand]) {
      const [newLow, newHigh] = [Math.min(low, event.low), Math.max(high, event.high)];
      const stays = newHigh - newLow <= POSITION;
      [low, high] = stays ? [newLow, newHigh] : [event.low, event.high];
      if (stays) continue;
      const soFar = moves.get(event.barIndex);
      moves.set(event.barIndex, { first: soFar?.first ?? event, moves: (soFar?.moves ?? 0) + 1 });
    }
    return [...moves.values()].flatMap((bar): readonly HandPlace[] =>
      bar.moves < LEAST_MOVES ? [] : [{ ...spotOf(bar.first), kind: 'positionChange', moves: bar.moves }],
    );
  });
}

/** The jump between two strikes, if there is one. */
function jumpTo(context: HandContext, from: HandEvent, to: HandEvent): HandPlace | null {
  const { tempo, span, score } = context;
  const way = wayBetween(from, to);
  const semitones = Math.abs(way);
  const ticks = to.onsetTick - from.onsetTick;
  const seconds = tempo.secondsBetween(from.onsetTick, to.onsetTick);
  const covered = Math.max(from.high, to.high) - Math.min(from.low, to.low) <= span;
  // a first note that is to be held out of reach: another voice, which the other hand can take
  const shared = from.endTick > to.onsetTick && canHelp(context, to);
  if (semitones <= OCTAVE || covered || shared || semitones < SLOW_SPEED * seconds) return null;
  const rest = to.onsetTick - from.endTick >= score.ticksPerQuarter / 2;
  return { ...spotOf(to), notes: [from, to].flatMap((event) => event.notes.map((one) => one.note.index)), kind: 'jump', semitones, up: way > 0, ticks, seconds, rest };
}

/** Signed way of the nearest finger. */
function wayBetween(from: HandEvent, to: HandEvent): number {
  const [low, high] = [to.low - from.low, to.high - from.high];
  if (from.notes.length > 1 && to.notes.length > 1) return Math.abs(low) < Math.abs(high) ? low : high;
  if (to.low > from.high) return to.low - from.high;
  return to.high < from.low ? to.high - from.low : 0;
}
