/**
 * The question: where do notes come quickly, one after the other or on one key?
 * Conventions: notes a second at the score's tempo (see handTempo.ts), one place a run.
 * Method: single notes at one even distance, LEAST_RUN and more, at FAST and quicker; the same key or chord struck
 * LEAST_REPEATS times and more. A run is stepwise where most of its steps are seconds. Our own rules.
 * It does not tell whether a pupil can do it: that is what practice is for.
 */
import { spotOf, type HandContext } from './handContext.js';
import { BOTH_HANDS, type HandEvent } from './handLines.js';
import type { HandPlace } from './handTypes.js';

/** Fewest notes of a run (inclusive): two groups of four semiquavers. */
const LEAST_RUN = 8;

/** Notes a second from which a run is fast (inclusive): semiquavers at crotchet = 80. */
const FAST = 16 / 3;

/** Fewest strikes of one key (inclusive). */
const LEAST_REPEATS = 4;

/** Strikes a second of one key from which it is a task of its own (inclusive): quavers at crotchet = 120. */
const FAST_REPEATS = 4;

/** A second, semitones (inclusive). */
const SECOND = 2;

/** Fast runs and fast repeated notes of either hand. */
export function runsAndRepeats(context: HandContext): readonly HandPlace[] {
  return BOTH_HANDS.flatMap((hand) => {
    const line = context.lines[hand];
    const runs = rows(line, (a, b) => a.notes.length === 1 && b.notes.length === 1 && a.low !== b.low);
    const repeats = rows(line, (a, b) => a.notes.length === b.notes.length && a.notes.every((one, i) => one.midi === b.notes[i]?.midi));
    return [...runs.flatMap((row) => fastRun(context, row) ?? []), ...repeats.flatMap((row) => repeated(context, row) ?? [])];
  });
}

/** Rows of events at one distance in time whose neighbours all belong together. */
function rows(line: readonly HandEvent[], together: (a: HandEvent, b: HandEvent) => boolean): readonly (readonly HandEvent[])[] {
  const all: HandEvent[][] = [];
  let row: HandEvent[] = [];
  for (const event of line) {
    const [last, oneBefore] = [row[row.length - 1], row[row.length - 2]];
    const fits = last !== undefined && !event.broken && together(last, event);
    const even = oneBefore === undefined || last === undefined || last.onsetTick - oneBefore.onsetTick === event.onsetTick - last.onsetTick;
    if (fits && even) row.push(event);
    // a note at another distance may still begin the next row together with the one before it
    else all.push((row = fits ? [last, event] : [event]));
  }
  return all;
}

/** A row as a fast run. */
function fastRun({ tempo }: HandContext, row: readonly HandEvent[]): HandPlace | null {
  const [first, second] = row;
  const last = row[row.length - 1];
  if (first === undefined || second === undefined || last === undefined || row.length < LEAST_RUN) return null;
  const ticks = second.onsetTick - first.onsetTick;
  const perSecond = 1 / tempo.secondsBetween(first.onsetTick, second.onsetTick);
  if (perSecond < FAST) return null;
  const steps = row.filter((event, i) => i > 0 && Math.abs(event.low - (row[i - 1]?.low ?? 0)) <= SECOND).length;
  // the note that a run lands on in the next bar is not run any more
  const ends = row[row.length - 2] ?? last;
  return { ...spotOf(first, ends.barIndex < last.barIndex ? ends : last), kind: 'fastRun', count: row.length, perSecond, ticks, stepwise: steps * 2 > row.length };
}

/** A row as repeated notes. */
function repeated({ tempo }: HandContext, row: readonly HandEvent[]): HandPlace | null {
  const [first, second] = row;
  const last = row[row.length - 1];
  if (first === undefined || second === undefined || last === undefined || row.length < LEAST_REPEATS) return null;
  const perSecond = 1 / tempo.secondsBetween(first.onsetTick, second.onsetTick);
  if (perSecond < FAST_REPEATS) return null;
  return { ...spotOf(first, last), kind: 'repeatedNotes', count: row.length, perSecond, chord: first.notes.length > 1 };
}
