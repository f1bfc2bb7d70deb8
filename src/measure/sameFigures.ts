/*
 * The teacher's question: where does the same figure come again, in the other hand or later on?
 *
 * Conventions: a figure is `FIGURE_CHORDS` chords of one voice that follow one another without a rest, the first on a beat; each entry
 *   lists its chords in order, each by the occurrences it holds. Figures are alike where they have the same values and move by
 *   the same intervals, whatever the key: seconds, thirds and so on, told by semitones so that a score without spelling will do.
 * Method: every window of a voice that begins on a beat, named by its values and intervals; a chord belongs to one figure
 *   only, to the one that comes most often, of equals the earlier. What is no figure to the ear
 *   is left out: repeated notes, and plain scales in one value.
 * Source: our own rule.
 * What it does not tell: figures that are varied, turned over, or hidden inside chords.
 */
import { groupBy } from '../base/index.js';
import { beatTicks, type Occurrence, type Score } from '../score/index.js';
import { lineOf } from './touchAsked.js';

/** Chords of a figure: six leave five ways from one to the next, enough to hear a touch. */
export const FIGURE_CHORDS = 6;

/** Interval numbers by semitones within an octave, from 0 for the same note: a second is 1, a fourth (and a tritone) 3. */
const INTERVALS: readonly number[] = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];

/** One time that a figure is written in the playing order. */
export interface FigureAt {
  /** Stave and voice. */
  readonly line: string;
  /** Occurrences of each chord. */
  readonly chords: readonly (readonly number[])[];
}

/** Figures that come twice or more, each with every time it comes, voice by voice. */
export function sameFigures(score: Score): readonly (readonly FigureAt[])[] {
  const named = linesOf(score).flatMap(({ line, chords }) => windowsOf(score, line, chords));
  const groups = [...groupBy(named, ({ name }) => name).values()].filter(({ length }) => length >= 2);
  return apart(groups.sort((a, b) => b.length - a.length)).map((group) => group.map(({ line, chords }) => ({ line, chords: chords.map((chord) => chord.map(({ index }) => index)) })));
}

/** What sounds together in one voice. */
type Chord = readonly Occurrence[];

/** A window of a voice, by its name and its place. */
interface Window {
  readonly name: string;
  readonly line: string;
  readonly place: number;
  readonly chords: readonly Chord[];
}

/** Every voice as its chords in the playing order. */
function linesOf(score: Score): readonly { readonly line: string; readonly chords: readonly Chord[] }[] {
  const sounding = score.occurrences.filter(({ onsetTick, endTick }) => endTick > onsetTick);
  const byLine = groupBy(sounding, ({ noteIndex }) => { const note = score.notes[noteIndex]; return note === undefined ? '' : lineOf(note); });
  return [...byLine].map(([line, notes]) => ({ line, chords: [...groupBy(notes, ({ onsetTick }) => onsetTick)].sort((a, b) => a[0] - b[0]).map(([, chord]) => chord) }));
}

/** The windows of a voice that make a figure. */
function windowsOf(score: Score, line: string, chords: readonly Chord[]): readonly Window[] {
  return chords.flatMap((first, place): readonly Window[] => {
    const window = chords.slice(place, place + FIGURE_CHORDS);
    const name = onBeat(score, first[0]) ? nameOf(window) : null;
    return name === null ? [] : [{ name, line, place, chords: window }];
  });
}

/** True for what stands on a beat of its bar. */
function onBeat(score: Score, first: Occurrence | undefined): boolean {
  const visit = score.order[first?.visitIndex ?? -1];
  const bar = score.bars[first?.barIndex ?? -1];
  return first !== undefined && visit !== undefined && bar !== undefined && (first.onsetTick - visit.startTick) % beatTicks(score, bar) === 0;
}

/** Values and intervals of the top notes; null for what is too short, has rests or is no figure. */
function nameOf(chords: readonly Chord[]): string | null {
  if (chords.length < FIGURE_CHORDS) return null;
  const tops = chords.map((chord) => chord.reduce((a, b) => (b.midi > a.midi ? b : a)));
  const steps = tops.slice(1).map((top, i) => ({ ticks: top.onsetTick - (tops[i]?.onsetTick ?? 0), endTick: tops[i]?.endTick ?? 0, onsetTick: top.onsetTick, interval: intervalOf(top.midi - (tops[i]?.midi ?? 0)) }));
  if (steps.some(({ endTick, onsetTick }) => endTick < onsetTick)) return null;
  const intervals = new Set(steps.map(({ interval }) => interval));
  const oneValue = new Set(steps.map(({ ticks }) => ticks)).size === 1;
  if (intervals.size === 1 && (oneValue || intervals.has(0))) return null;
  return steps.map(({ ticks, interval }) => `${ticks}:${interval}`).join(' ');
}

/** Number of an interval, negative downwards. */
function intervalOf(semitones: number): number {
  const size = Math.abs(semitones);
  return Math.sign(semitones) * (7 * Math.floor(size / 12) + (INTERVALS[size % 12] ?? 0));
}

/** Groups in which no window shares a chord with another of its own or of an earlier group. */
function apart(groups: readonly (readonly Window[])[]): readonly (readonly Window[])[] {
  const taken = new Set<string>();
  return groups.flatMap((group) => {
    const own = new Set<string>();
    const kept = group.filter(({ line, place, chords }) => {
      const places = chords.map((_, chord) => `${line} ${place + chord}`);
      const free = places.every((one) => !taken.has(one) && !own.has(one));
      if (free) for (const one of places) own.add(one);
      return free;
    });
    if (kept.length < 2) return [];
    for (const one of own) taken.add(one);
    return [kept];
  });
}
