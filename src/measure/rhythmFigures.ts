/*
 * The teacher's question: are the dots dotted, the triplets even, the quavers straight?
 *
 * Conventions: a figure is two or three notes that follow one another in a voice, up to the onset after them; `shares` are what part
 *   of that time each note but the last took. Seconds; ticks of the playing order.
 * Method: the written distances from onset to onset tell the figure, rests counted with the note before them. The time is taken
 *   within the figure alone: a slower or quicker beat leaves the shares as they are. Where the voice rests after the
 *   figure, the hand's next onset, else the other hand's, ends it, if it stands just there.
 * Source: notation (a dot adds half, a double dot three quarters, a triplet note is two thirds of its value): common practice.
 * What it does not tell: whether the figure as a whole was long or short (`spanTimes` says so, to tell a wait after it from a
 *   figure shared out amiss), nor anything of figures in which a note was missed, ornamented or rolled.
 */
import { firstIndex } from '../base/index.js';
import { beatTicks, type Score } from '../score/index.js';
import type { Hand } from './hands.js';
import { firstAtOrAfter, type PulseLines } from './pulsePoints.js';
import type { FigureKind, LineMoment, RhythmFigure, VoiceLine } from './rhythmTypes.js';
import { expectedTempo, type TempoTeller } from './tempoAround.js';

/** What figures of one stretch are read from. */
export interface FigureGround {
  readonly score: Score;
  readonly lines: PulseLines;
  readonly tempo: TempoTeller;
  /** All written onsets of the stretch, of every voice, by tick. */
  readonly written: readonly { readonly tick: number; readonly line: VoiceLine }[];
}

/** A figure on paper. */
interface Shape {
  readonly kind: FigureKind;
  readonly moments: readonly LineMoment[];
  readonly toTick: number;
  /** What its voice strikes at that tick, if anything. */
  readonly end: LineMoment | null;
}

/** Long note by short note, for each figure of two. */
const RATIOS: readonly (readonly [FigureKind, number, number])[] = [['dotted', 3, 1], ['doubleDotted', 7, 1], ['snap', 1, 3]];

/** All figures of one voice that were played whole. */
export function figuresOf(line: VoiceLine, ground: FigureGround): readonly RhythmFigure[] {
  return line.moments.flatMap((_, place) => {
    const shape = shapeAt(line, place, ground.score);
    const figure = shape === null ? null : playedFigure(shape, line, ground);
    return figure === null ? [] : [figure];
  });
}

/** The figure that begins at a place of the line; null where none does. */
function shapeAt({ moments }: VoiceLine, place: number, score: Score): Shape | null {
  const [first, second, third, fourth] = moments.slice(place, place + 4);
  if (first === undefined || second === undefined) return null;
  const one = second.tick - first.tick;
  const grid = gridAt(score, first);
  if (third !== undefined && third.tick - second.tick === one && isThree(one, grid)) {
    const toTick = third.tick + one;
    if (fourth?.tick === toTick || third.endTick === toTick) return { kind: 'three', moments: [first, second, third], toTick, end: fourth?.tick === toTick ? fourth : null };
  }
  for (const toTick of new Set([third?.tick ?? second.endTick, second.endTick])) {
    const kind = pairKind(one, toTick - second.tick, grid);
    if (kind !== null) return { kind, moments: [first, second], toTick, end: third?.tick === toTick ? third : null };
  }
  return null;
}

/** Where a moment stands in its bar and how long its beat is, ticks. */
interface Grid {
  readonly offset: number;
  readonly beat: number;
  readonly compound: boolean;
}

/** The grid of the bar that a moment stands in; an upbeat is counted from its end. */
function gridAt(score: Score, { tick, visitIndex }: LineMoment): Grid {
  const visit = score.order[visitIndex];
  const bar = visit === undefined ? undefined : score.bars[visit.barIndex];
  if (visit === undefined || bar === undefined) throw new RangeError(`the score has no visit ${visitIndex}`);
  const lead = bar.index === 0 ? Math.max(0, bar.nominalTicks - bar.lengthTicks) : 0;
  const beat = beatTicks(score, bar);
  return { offset: tick - visit.startTick + lead, beat, compound: beat * bar.time.beatType > 4 * score.ticksPerQuarter };
}

/** Three alike fill two beats, one beat, half of one, or a part of a compound beat. */
function isThree(one: number, { offset, beat }: Grid): boolean {
  const span = 3 * one;
  return offset % span === 0 && [2 * beat, beat, beat / 2].includes(span);
}

/** What two distances make; equal ones count where they fill a part of the bar from its beginning. */
function pairKind(one: number, two: number, { offset, beat, compound }: Grid): FigureKind | null {
  const span = one + two;
  const parts = compound ? [beat / 3, beat / 6] : [2 * beat, beat, beat / 2, beat / 4];
  if (one === two) return offset % span === 0 && parts.includes(span) ? 'even' : null;
  if (one === 2 * two) return offset % span === 0 && [beat, beat / 2].includes(span) ? 'longShort' : null;
  // from one half of its length to the next: the short note of one pair and the long one of the next are no pair
  return offset % (span / 2) === 0 ? (RATIOS.find(([, long, short]) => one * short === two * long)?.[0] ?? null) : null;
}

/** The figure as it was played; null where a note or its end is missing. */
function playedFigure({ kind, moments, toTick, end }: Shape, line: VoiceLine, ground: FigureGround): RhythmFigure | null {
  const [first] = moments;
  if (first === undefined) return null;
  const onsets = moments.map(({ onsetS }) => onsetS);
  const endS = end?.onsetS ?? handAt(line.hand, toTick, ground.lines);
  const [startS] = onsets;
  if (endS === null || startS === null || startS === undefined || endS <= startS) return null;
  const shares = onsets.slice(1).map((onsetS, i) => onsetS === null ? null : (onsetS - (onsets[i] ?? startS)) / (endS - startS));
  if (shares.some((share) => share === null)) return null;
  const tempo = expectedTempo(ground.tempo(first.tick, toTick));
  return {
    kind, stretch: line.stretch, visitIndex: first.visitIndex, hand: line.hand, fromTick: first.tick, toTick,
    pairs: moments.flatMap(({ pairs }) => pairs), shares: shares.filter((share) => share !== null), spanS: endS - startS,
    spanTimes: tempo === null ? null : (endS - startS) / (tempo * (toTick - first.tick)), against: dividedBy(line, { fromTick: first.tick, toTick }, ground),
  };
}

/** When a hand struck at a tick, else the other hand; null where neither did. */
function handAt(hand: Hand, tick: number, lines: PulseLines): number | null {
  const hands: readonly Hand[] = hand === 'right' ? ['right', 'left'] : ['left', 'right'];
  for (const points of hands.map((one) => lines[one])) {
    const point = points[firstAtOrAfter(points, tick)];
    if (point?.tick === tick) return point.onsetS;
  }
  return null;
}

/** How the other voices divide the same time. */
function dividedBy(line: VoiceLine, { fromTick, toTick }: { readonly fromTick: number; readonly toTick: number }, { written }: FigureGround): RhythmFigure['against'] {
  const parts = new Set<number>();
  for (let i = firstIndex(written.length, (at) => (written[at]?.tick ?? Infinity) > fromTick); i < written.length; i += 1) {
    const one = written[i];
    if (one === undefined || one.tick >= toTick) break;
    if (one.line !== line) parts.add((12 * (one.tick - fromTick)) / (toTick - fromTick));
  }
  const all = [...parts];
  if (all.length === 0) return 0;
  if (all.every((part) => part === 4 || part === 8)) return 3;
  if (all.every((part) => part === 6)) return 2;
  return all.every((part) => part % 3 === 0) ? 4 : 0;
}
