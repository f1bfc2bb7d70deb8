/**
 * The question: which chords does a hand not reach, or only just?
 * Conventions: semitones from the lowest to the highest note struck together by one hand.
 * Method: an octave (12) fits any hand in the end, a ninth (14) a grown one, a tenth (16) few; beyond that a chord is broken
 * (common practice). `helped` says that the other hand could take a note: it is free, or strikes near enough.
 * It does not look at notes that are held while others are struck: there the pedal helps.
 */
import { canHelp, spotOf, type HandContext } from './handContext.js';
import { BOTH_HANDS, type HandEvent } from './handLines.js';
import type { HandPlace } from './handTypes.js';

/** An octave, semitones. */
const OCTAVE = 12;

/** Widest chord that some hands strike at once: a tenth, semitones (inclusive). */
const TENTH = 16;

/** So many octaves in a row are a task of their own (inclusive). */
const LEAST_OCTAVES = 4;

/** Wide chords of either hand: one place a chord. */
export function wideChords(context: HandContext): readonly HandPlace[] {
  return BOTH_HANDS.flatMap((hand) => context.lines[hand].flatMap((event) => chordAt(context, event) ?? []));
}

/** Octaves in a row: one place a row. */
export function octaveRows(context: HandContext): readonly HandPlace[] {
  return BOTH_HANDS.flatMap((hand) => {
    const rows: HandEvent[][] = [];
    let open: HandEvent[] | null = null;
    for (const event of context.lines[hand]) {
      if (event.high - event.low !== OCTAVE || event.notes.length < 2) open = null;
      else if (open === null || event.broken) rows.push((open = [event]));
      else open.push(event);
    }
    return rows.flatMap((row) => octaveRow(context, row) ?? []);
  });
}

/** What one chord asks for, if anything. */
function chordAt(context: HandContext, event: HandEvent): HandPlace | null {
  const semitones = event.high - event.low;
  const helped = canHelp(context, event);
  const marked = event.notes.length > 1 && event.notes.some((one) => one.note.arpeggio !== null);
  if (semitones > TENTH || (marked && semitones > OCTAVE)) return { ...spotOf(event), kind: 'wideChord', semitones, marked, helped };
  if (semitones > context.span) return { ...spotOf(event), kind: 'stretch', semitones, helped };
  return semitones > OCTAVE ? { ...spotOf(event), kind: 'smallHandStretch', semitones, helped } : null;
}

/** The place of one row of octaves, if it is long enough. */
function octaveRow({ tempo }: HandContext, row: readonly HandEvent[]): HandPlace | null {
  const [first, second] = row;
  const last = row[row.length - 1];
  if (first === undefined || second === undefined || last === undefined || row.length < LEAST_OCTAVES) return null;
  const seconds = tempo.secondsBetween(first.onsetTick, last.onsetTick);
  return { ...spotOf(first, last), kind: 'octaves', count: row.length, perSecond: (row.length - 1) / seconds };
}
