import type { Point } from './box.js';
import type { Mark } from './compose.js';
import type { SystemMaterial } from './markMaterial.js';
import { missing, missingBeside, MISSING_BESIDE_PX, MISSING_REACH_PX, type MarkLabels } from './pencil.js';

/** A written note that was not played, with its head in this system. */
export interface MissingNote {
  readonly id: string;
  readonly head: Point;
  readonly staff: number;
  readonly labels: MarkLabels;
}

/** Heads of one chord stand within this of one another, px: a second is set off by a head's width. */
const CHORD_PX = 10;

/** A caret under a head needs this much free below it, px. */
const FREE_BELOW_PX = MISSING_REACH_PX + 3;

/**
 * Carets for the missing notes of one bar. A chord missing altogether gets one, under its lowest head; a single note
 * of a chord gets its own: below where there is room, else from the right.
 */
export function missingMarks(parts: SystemMaterial, notes: readonly MissingNote[]): readonly Mark[] {
  const neighbours = (missed: MissingNote): readonly (readonly [string, Point])[] =>
    parts.headed.filter(({ note, head }) => note.staff === missed.staff && Math.abs(head.x - missed.head.x) < CHORD_PX).map(({ note, head }) => [note.id, head] as const);
  const gone = new Set(notes.map(({ id }) => id));
  return notes.flatMap((note) => {
    const chord = neighbours(note);
    if (chord.every(([id]) => gone.has(id))) return lowest(chord) === note.id ? [below(note, wholeChord(note, notes, chord))] : [];
    const blocked = chord.some(([id, { y }]) => id !== note.id && y > note.head.y && y < note.head.y + FREE_BELOW_PX);
    return [blocked ? beside(note) : below(note, note.labels)];
  });
}

/** Id of the lowest head. */
function lowest(chord: readonly (readonly [string, Point])[]): string | undefined {
  return [...chord].sort(([, a], [, b]) => b.y - a.y)[0]?.[0];
}

/** One title and one list of note ids for all notes of a missing chord. */
function wholeChord(note: MissingNote, notes: readonly MissingNote[], chord: readonly (readonly [string, Point])[]): MarkLabels {
  const ids = chord.map(([id]) => id);
  const others = notes.filter(({ id }) => id !== note.id && ids.includes(id));
  const titles = [note, ...others].map(({ labels }) => labels.title);
  return { ...note.labels, title: titles.join('; '), data: { ...note.labels.data, notes: ids.join(' ') } };
}

/** A caret under a head, with the room it takes. */
function below({ head }: MissingNote, labels: MarkLabels): Mark {
  return { svg: missing(head, labels), top: head.y, bottom: head.y + MISSING_REACH_PX };
}

/** A caret at the right of a head, with the room it takes. */
function beside({ head, labels }: MissingNote): Mark {
  return { svg: missingBeside(head, labels), top: head.y - MISSING_BESIDE_PX, bottom: head.y + MISSING_BESIDE_PX };
}
