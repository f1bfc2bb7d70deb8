/*
 * Question: how long does an ear keep a bass that the left hand leaves for the figure above it?
 * Conventions: written ticks; a value not before the note's own end.
 * Method: a bass stands alone on a beat at the bottom of its stave, and what follows in the stave within the beat is a chord above it or lies
 *   out of the hand's reach. It is heard on until the stave comes down again to a note nearer to the bass than to the figure, at the longest to
 *   the bar line. Pedal and finger pedalling keep such basses in sound as a rule.
 * Source: common practice (bass and after-beat are one harmony); the limits are our own rule.
 * What it does not tell: whether the bass clashes with what comes above it.
 */
import { beatTicks, type Bar, type Score } from '../score/index.js';
import { levelAt, type Level } from './grid.js';
import type { SoundingNote } from './notes.js';

/** A single note so many semitones above the bass, inclusive, cannot be reached while the bass is held: more than a ninth. */
const APART = 15;

/** Places weaker than a beat carry no bass. */
const WEAKEST: Level = 2;

/** Notes of one stave that begin together. */
interface Stroke {
  readonly onset: number;
  readonly end: number;
  readonly low: SoundingNote;
  readonly single: boolean;
}

/** The notes with the basses that are left heard on. */
export function withHeardBasses(score: Score, notes: readonly SoundingNote[]): readonly SoundingNote[] {
  const heard = heardBasses(score, notes);
  return notes.map((note) => ({ ...note, heardUntil: heard.get(note) ?? note.end }));
}

/** For every bass that is heard beyond its end, the tick up to which it is. */
function heardBasses(score: Score, notes: readonly SoundingNote[]): ReadonlyMap<SoundingNote, number> {
  const lowest = notes.reduce((most, note) => Math.max(most, note.staff), 0);
  const strokes = strokesOf(notes.filter((note) => !note.grace && note.staff === lowest));
  const heard = new Map<SoundingNote, number>();
  let barAt = 0;
  strokes.forEach((stroke, i) => {
    while ((score.bars[barAt + 1]?.startTick ?? Infinity) <= stroke.onset) barAt += 1;
    const bar = score.bars[barAt];
    const level = bar === undefined ? null : levelAt(score, bar, stroke.onset);
    if (bar === undefined || level === null || level > WEAKEST || !isLeft(strokes, i, beatTicks(score, bar))) return;
    const until = heardUntil(strokes, i, bar);
    if (until > stroke.low.end) heard.set(stroke.low, until);
  });
  return heard;
}

/** The strokes of a stave in order. */
function strokesOf(notes: readonly SoundingNote[]): readonly Stroke[] {
  const strokes: Stroke[] = [];
  for (const note of notes) {
    const last = strokes.at(-1);
    if (last?.onset !== note.onset) strokes.push({ onset: note.onset, end: note.end, low: note, single: true });
    else strokes[strokes.length - 1] = { ...last, end: Math.max(last.end, note.end), single: last.single && note.pc === last.low.pc };
  }
  return strokes;
}

/** Whether a lone low note (doubled in octaves or not) is left for a figure above it. */
function isLeft(strokes: readonly Stroke[], i: number, beat: number): boolean {
  const [bass, next] = [strokes[i], strokes[i + 1]];
  if (bass === undefined || next === undefined || !bass.single) return false;
  if (next.onset < bass.low.end || next.onset - bass.low.end >= beat) return false;
  return next.low.midi >= bass.low.midi + APART || (!next.single && next.low.midi > bass.low.midi);
}

/** Where the stave comes down again, or the bar ends. */
function heardUntil(strokes: readonly Stroke[], i: number, bar: Bar): number {
  const bass = strokes[i];
  const figure = strokes[i + 1];
  const barEnd = bar.startTick + bar.lengthTicks;
  if (bass === undefined || figure === undefined || figure.onset >= barEnd) return 0;
  const middle = (bass.low.midi + figure.low.midi) / 2;
  let at = i + 2;
  while ((strokes[at]?.onset ?? Infinity) < barEnd && (strokes[at]?.low.midi ?? 0) > middle) at += 1;
  return Math.min(barEnd, strokes[at]?.onset ?? Infinity, figureEnd(strokes, i + 1, at));
}

/** Where the last stroke of the figure ends. */
function figureEnd(strokes: readonly Stroke[], from: number, to: number): number {
  return strokes.slice(from, to).reduce((latest, stroke) => Math.max(latest, stroke.end), 0);
}
