/*
 * Question: what is in each bar, so that bars can be laid beside each other?
 * Conventions: one number a sound, `offset * 128 + MIDI number`, ascending, so that adding a shift to all of them transposes a
 *   bar; offsets are ticks from the start of the bar. Cue and grace notes and the later notes of a tie are left out.
 * Method: all sounds, the right hand's and the left hand's apart, the tune (highest note of the right hand at each onset),
 *   the onsets of both hands, and the root that holds at each beat.
 * Source: our own rule.
 * What it does not tell: how long notes are held, or how loud.
 */
import type { Harmony } from '../harmony/index.js';
import { beatTicks, type Bar, type Score, type ScoreNote } from '../score/index.js';

/** MIDI numbers lie below this, so that one number holds an offset and a pitch. */
const PITCHES = 128;

/** A bar's content for comparison. */
export interface BarContent {
  readonly lengthTicks: number;
  readonly sounds: readonly number[];
  readonly right: readonly number[];
  readonly left: readonly number[];
  readonly tune: readonly number[];
  /** `2 * offset`, plus 1 in the left hand. */
  readonly onsets: readonly number[];
  /** Pitch class of the root at each beat; null where none holds. */
  readonly roots: readonly (number | null)[];
}

/** The content of every bar, in order. */
export function barContents(score: Score, harmonies: readonly Harmony[]): readonly BarContent[] {
  const byBar = score.bars.map((): ScoreNote[] => []);
  for (const note of score.notes) if (!note.cue && note.grace === null && !note.tieStop) byBar[note.barIndex]?.push(note);
  const rootAt = rootFinder(harmonies);
  return score.bars.map((bar) => contentOf(bar, byBar[bar.index] ?? [], beatRoots(bar, beatTicks(score, bar), rootAt)));
}

/** One bar's content. */
function contentOf(bar: Bar, notes: readonly ScoreNote[], roots: readonly (number | null)[]): BarContent {
  const key = (note: ScoreNote): number => (note.onsetTick - bar.startTick) * PITCHES + note.pitch.midi;
  const right = ascending(notes.filter((note) => note.staff === 1).map(key));
  const left = ascending(notes.filter((note) => note.staff !== 1).map(key));
  const onset = (hand: number) => (sound: number): number => 2 * Math.floor(sound / PITCHES) + hand;
  return {
    lengthTicks: bar.lengthTicks,
    sounds: ascending([...right, ...left]),
    right,
    left,
    tune: right.filter((sound, i) => Math.floor((right[i + 1] ?? Infinity) / PITCHES) !== Math.floor(sound / PITCHES)),
    onsets: ascending([...new Set([...right.map(onset(0)), ...left.map(onset(1))])]),
    roots,
  };
}

/** The root at each beat of a bar. */
function beatRoots(bar: Bar, beat: number, rootAt: (tick: number) => number | null): readonly (number | null)[] {
  const beats = Math.max(1, Math.floor(bar.lengthTicks / beat));
  return Array.from({ length: beats }, (_, i) => rootAt(bar.startTick + i * beat));
}

/** Looks up the root that holds at a tick; harmonies are in order and asked for in order. */
function rootFinder(harmonies: readonly Harmony[]): (tick: number) => number | null {
  let at = 0;
  return (tick) => {
    while (at < harmonies.length && (harmonies[at]?.toTick ?? 0) <= tick) at += 1;
    const harmony = harmonies[at];
    return harmony !== undefined && harmony.fromTick <= tick ? harmony.root : null;
  };
}

/** A sorted copy. */
function ascending(values: readonly number[]): readonly number[] {
  return [...values].sort((a, b) => a - b);
}
