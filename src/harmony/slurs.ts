/*
 * Question: where do the long slurs of the tune end, and are they the page's phrase marks?
 * Conventions: written ticks; the end of a slur is the onset of the last note under it.
 * Method: slurs of the topmost stave, a start paired with the next stop of its number; those over a bar or more are long. Where long slurs
 *   cover most of the piece they are taken for phrase marks: a phrase's end moves to the nearest slur's end within a bar.
 * Source: a slur over a bar or more is a phrase mark (common practice from about 1800); the limits are our own rule.
 * What it does not tell: phrases that the composer did not slur; short slurs, which say how to touch the keys.
 */
import { barAtTick, type Score, type ScoreNote } from '../score/index.js';
import type { Harmony } from './types.js';

/** A slur of the tune. */
export interface Slur {
  readonly fromTick: number;
  /** Onset of its last note. */
  readonly toTick: number;
  /** End of its last note. */
  readonly endTick: number;
}

/** Long slurs are taken for phrase marks where they cover this share of the piece; `>=`. */
const COVERED = 0.5;

/** Slurs of the tune that last at least a bar up to their last note, in order of their ends. */
export function longSlurs(score: Score): readonly Slur[] {
  const top = score.notes.reduce((least, note) => Math.min(least, note.staff), Infinity);
  const marked = score.notes.filter((note) => note.staff === top && note.slurs.length > 0).toSorted((a, b) => a.onsetTick - b.onsetTick);
  return slursOf(marked).filter((slur) => slur.toTick - slur.fromTick >= barTicks(score, slur.fromTick));
}

/** Pairs of start and stop. */
function slursOf(notes: readonly ScoreNote[]): readonly Slur[] {
  const open = new Map<number, number>();
  const slurs: Slur[] = [];
  for (const note of notes) {
    for (const end of note.slurs.filter((slur) => slur.kind === 'stop')) {
      const fromTick = open.get(end.number);
      if (fromTick !== undefined) slurs.push({ fromTick, toTick: note.onsetTick, endTick: note.onsetTick + note.lengthTicks });
      open.delete(end.number);
    }
    for (const start of note.slurs.filter((slur) => slur.kind === 'start')) open.set(start.number, note.onsetTick);
  }
  return slurs;
}

/** Nominal length of the bar at a tick. */
function barTicks(score: Score, tick: number): number {
  return score.bars[barAtTick(score, tick).barIndex]?.nominalTicks ?? 1;
}

/** The end of a phrase: its last harmony by number, and the onset of the tune's last note where a slur tells it, else that of the harmony. */
export interface PhraseClose {
  readonly harmony: number;
  readonly lastNoteTick: number;
}

/** Ends of phrases (harmonies by number), moved to the page's phrase marks where it has any. The last one stays. */
export function closesBySlurs(score: Score, harmonies: readonly Harmony[], ends: readonly number[]): readonly PhraseClose[] {
  const slurs = phraseMarks(score);
  const closes = ends.map((end, i) => (i === ends.length - 1 ? asFound(harmonies, end) : nearestClose(score, { slurs, harmonies, end })));
  return [...new Map(closes.map((close) => [close.lastNoteTick, close])).values()].sort((a, b) => a.lastNoteTick - b.lastNoteTick);
}

/** The long slurs where they are the rule of the page, otherwise none. */
function phraseMarks(score: Score): readonly Slur[] {
  const long = longSlurs(score);
  const last = score.bars[score.bars.length - 1];
  const covered = long.reduce((sum, slur) => sum + slur.endTick - slur.fromTick, 0);
  return last !== undefined && covered >= COVERED * (last.startTick + last.lengthTicks) ? long : [];
}

/** Where the root of a harmony was reached: a seventh that joins it later makes no new arrival, a six-four is none yet. */
function arrival(harmonies: readonly Harmony[], at: number): number {
  let first = at;
  while (first > 0 && harmonies[first - 1]?.root === harmonies[at]?.root && harmonies[first - 1]?.quality !== 'cadentialSixFour') first -= 1;
  return harmonies[at]?.root === null ? at : first;
}

/** An end that no slur moves. */
function asFound(harmonies: readonly Harmony[], end: number): PhraseClose {
  return { harmony: arrival(harmonies, end), lastNoteTick: harmonies[end]?.fromTick ?? 0 };
}

/** The nearest slur's end within a bar, or the end itself. */
function nearestClose(score: Score, { slurs, harmonies, end }: { readonly slurs: readonly Slur[]; readonly harmonies: readonly Harmony[]; readonly end: number }): PhraseClose {
  const { fromTick, toTick } = harmonies[end] ?? { fromTick: 0, toTick: 0 };
  const distance = (slur: Slur): number => (slur.toTick >= fromTick && slur.toTick < toTick ? 0 : Math.abs(slur.toTick - fromTick));
  const reach = barTicks(score, fromTick);
  const near = slurs.filter((slur) => Math.abs(slur.toTick - fromTick) <= reach).sort((a, b) => distance(a) - distance(b) || a.toTick - b.toTick)[0];
  if (near === undefined) return asFound(harmonies, end);
  const last = harmonies.findLastIndex((harmony) => harmony.fromTick <= near.toTick);
  return last < 0 ? asFound(harmonies, end) : { harmony: arrival(harmonies, last), lastNoteTick: near.toTick };
}
