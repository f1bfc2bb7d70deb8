/*
 * Question: does the page itself mark phrases by long slurs, and where do these end?
 * Conventions: written ticks; a slur's end is the onset of its last note.
 * Method: slurs of the upper stave, start and stop paired by number. Where slurs of a bar or more cover most of the tune they are taken for phrase
 *   marks: an end of a phrase found from the harmony moves to the nearest slur's end within a bar.
 * Source: slurs as phrase marks are common practice from about 1800; the limits are our own rule.
 * What it does not tell: short slurs, which say how to touch the keys.
 */
import type { Harmony } from '../harmony/index.js';
import { barAtTick, type Score, type ScoreNote } from '../score/index.js';

/** A slur of the tune. */
interface Slur {
  readonly fromTick: number;
  /** Onset of its last note. */
  readonly toTick: number;
  /** End of its last note. */
  readonly endTick: number;
}

/** Slurs of at least so many bars are phrase marks; `>=`. */
const LONG_BARS = 1.2;

/** They are taken for phrase marks where they cover this share of the piece; `>=`. */
const COVERED = 0.5;

/** The end of a phrase. */
export interface PhraseClose {
  /** Onset of the last harmony. */
  readonly tick: number;
  /** Onset of the last note of the tune where a slur tells it, else the same tick: the next phrase begins after it. */
  readonly lastNote: number;
}

/** Ends of phrases, corrected by the slurs; as they were where the page has no phrase marks. */
export function endsBySlurs(score: Score, harmonies: readonly Harmony[], ends: readonly number[]): readonly PhraseClose[] {
  const slurs = phraseMarks(score);
  if (slurs.length === 0) return ends.map((tick) => ({ tick, lastNote: tick }));
  const lastEnd = ends[ends.length - 1];
  const snapped = ends.map((end) => (end === lastEnd ? { tick: end, lastNote: end } : nearestEnd(score, { slurs, harmonies, end })));
  return inOrder(snapped);
}

/** In order, one of each last note. */
function inOrder(ends: readonly PhraseClose[]): readonly PhraseClose[] {
  return [...new Map(ends.map((end) => [end.lastNote, end])).values()].sort((a, b) => a.lastNote - b.lastNote);
}

/** The long slurs of the tune; none where they are not the rule of the page. */
function phraseMarks(score: Score): readonly Slur[] {
  const slurs = slursOf(score.notes.filter((note) => note.staff === 1).toSorted((a, b) => a.onsetTick - b.onsetTick));
  const long = slurs.filter((slur) => slur.endTick - slur.fromTick >= LONG_BARS * barTicks(score, slur.fromTick));
  const last = score.bars[score.bars.length - 1];
  const covered = long.reduce((sum, slur) => sum + slur.endTick - slur.fromTick, 0);
  return last !== undefined && covered >= COVERED * (last.startTick + last.lengthTicks) ? long : [];
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

/** What a correction is made from. */
interface Correction {
  readonly slurs: readonly Slur[];
  readonly harmonies: readonly Harmony[];
}

/** The nearest slur's end within a bar, or the end itself. */
function nearestEnd(score: Score, { slurs, harmonies, end }: Correction & { readonly end: number }): PhraseClose {
  const reach = barTicks(score, end);
  const until = harmonies.find((harmony) => harmony.fromTick <= end && end < harmony.toTick)?.toTick ?? end;
  const distance = (slur: Slur): number => (slur.toTick >= end && slur.toTick < until ? 0 : Math.abs(slur.toTick - end));
  const near = slurs.filter((slur) => Math.abs(slur.toTick - end) <= reach).sort((a, b) => distance(a) - distance(b) || a.toTick - b.toTick)[0];
  return near === undefined ? { tick: end, lastNote: end } : closeAt(harmonies, near);
}

/** The end of a phrase under a slur's end. */
function closeAt(harmonies: readonly Harmony[], { toTick }: Slur): PhraseClose {
  return { tick: harmonies.findLast((harmony) => harmony.fromTick <= toTick)?.fromTick ?? toTick, lastNote: toTick };
}
