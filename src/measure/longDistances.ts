/*
 * The teacher's question: did the long notes and the rests get their beats?
 *
 * Conventions: from one onset of a hand to its next, where a beat or more lies between them on paper; beats as played are those of the tempo
 *   on both sides, what lies between left out. Ticks of the playing order.
 * Method: the time by the tempo before and after; and where the other hand keeps on, how far this hand's next onset stands from where
 *   the other hand has that tick, less how far the hands were apart at the onset before.
 * Source: our own rule.
 * What it does not tell: a beat that was waited from a beat that was miscounted, where both hands have it.
 */
import { beatTicks, type Score } from '../score/index.js';
import { HANDS, type Hand } from './hands.js';
import { firstAtOrAfter, type PulseLines, type PulsePoint } from './pulsePoints.js';
import type { LineMoment, LongDistance, VoiceLine } from './rhythmTypes.js';
import { expectedTempo, type TempoTeller } from './tempoAround.js';

/** Where the other hand counts, it strikes within this many beats (<=) of the moment on either side. */
const COUNTS_WITHIN_BEATS = 1;

/** What the distances of one stretch are read from. */
export interface DistanceGround {
  readonly score: Score;
  readonly lines: PulseLines;
  readonly tempo: TempoTeller;
  readonly voices: readonly VoiceLine[];
}

/** The long distances of both hands in one stretch. */
export function longDistances(ground: DistanceGround): readonly LongDistance[] {
  return HANDS.flatMap((hand) => {
    const moments = handMoments(ground.voices.filter((one) => one.hand === hand));
    const stretch = ground.voices[0]?.stretch ?? 0;
    return moments.slice(1).flatMap((to, i) => {
      const from = moments[i];
      const found = from === undefined ? null : distanceOf({ hand, stretch, from, to }, ground);
      return found === null ? [] : [found];
    });
  });
}

/** All written moments of one hand, its voices together; each ends with its longest note. */
function handMoments(voices: readonly VoiceLine[]): readonly LineMoment[] {
  const byTick = new Map<number, LineMoment>();
  for (const moment of voices.flatMap(({ moments }) => moments)) {
    const other = byTick.get(moment.tick);
    byTick.set(moment.tick, other === undefined ? moment : {
      ...moment, endTick: Math.max(moment.endTick, other.endTick), pairs: [...other.pairs, ...moment.pairs], onsetS: moment.onsetS ?? other.onsetS,
    });
  }
  return [...byTick.values()].sort((a, b) => a.tick - b.tick);
}

/** Two moments of a hand, one after the other. */
interface Way {
  readonly hand: Hand;
  readonly stretch: number;
  readonly from: LineMoment;
  readonly to: LineMoment;
}

/** One distance, if it is long and both ends were played. */
function distanceOf({ hand, stretch, from, to }: Way, { score, lines, tempo }: DistanceGround): LongDistance | null {
  const bar = score.bars[score.order[from.visitIndex]?.barIndex ?? -1];
  if (bar === undefined || from.onsetS === null || to.onsetS === null) return null;
  const beat = beatTicks(score, bar);
  const writtenBeats = (to.tick - from.tick) / beat;
  const around = tempo(from.tick, to.tick);
  const secondsATick = expectedTempo(around);
  if (writtenBeats < 1 || secondsATick === null) return null;
  const other = hand === 'right' ? lines.left : lines.right;
  const lateS = lateBy(to, from, { other, reach: COUNTS_WITHIN_BEATS * beat });
  const { before, after } = around;
  return {
    stretch, visitIndex: from.visitIndex, hand, fromTick: from.tick, toTick: to.tick, pairs: [...from.pairs, ...to.pairs], writtenBeats,
    playedBeats: (to.onsetS - from.onsetS) / (secondsATick * beat), lateBeats: lateS === null ? null : lateS / (secondsATick * beat),
    tempoTimes: before === null || after === null ? 1 : Math.max(before, after) / Math.min(before, after), rest: from.endTick < to.tick,
    filled: (other[firstAtOrAfter(other, from.tick + 1)]?.tick ?? Infinity) < to.tick,
  };
}

/** How much later the next moment comes by the other hand than the moment before it did, seconds; null where the other hand does not count. */
function lateBy(to: LineMoment, from: LineMoment, ground: { readonly other: readonly PulsePoint[]; readonly reach: number }): number | null {
  const [atFrom, atTo] = [counted(from.tick, ground), counted(to.tick, ground)];
  if (atFrom === null || atTo === null || from.onsetS === null || to.onsetS === null) return null;
  return to.onsetS - atTo - (from.onsetS - atFrom);
}

/** When the other hand has a tick: struck there, or evenly between its neighbours. */
function counted(tick: number, { other, reach }: { readonly other: readonly PulsePoint[]; readonly reach: number }): number | null {
  const place = firstAtOrAfter(other, tick);
  const [before, at] = [other[place - 1], other[place]];
  if (at?.tick === tick) return at.onsetS;
  if (before === undefined || at === undefined || tick - before.tick > reach || at.tick - tick > reach) return null;
  return before.onsetS + ((tick - before.tick) / (at.tick - before.tick)) * (at.onsetS - before.onsetS);
}
