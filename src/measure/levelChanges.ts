/*
 * The teacher's question: was a written change of level made?
 *
 * Conventions: velocity units with the register's trend taken off; `made` is positive where the level went the way it was asked.
 *   `before` and `after` are windows in unfolded ticks, ends exclusive, at most four bars long, each inside its own mark.
 * Method: mean level of each hand after the mark against before it; hands that play on both sides are compared each with
 *   itself and then weighed by the fewer of their notes, so that a hand that joins in or falls silent makes no change. A hairpin that leads the same way is left out
 *   (`reached`: before the hairpin against after the mark); one that leads the other way ends in a `subito`, held against the hairpin's last bar.
 *   Both hands' changes are one where their marks agree within a bar.
 * Source: our own rule. The standard error is that of a difference of two means.
 * What it does not tell: how much of a change comes from more notes being written.
 */
import { standardDeviation } from 'simple-statistics';
import { firstIndex, groupBy } from '../base/index.js';
import type { ControlPoint } from '../recording/index.js';
import type { Score } from '../score/index.js';
import { HANDS, type Hand } from './hands.js';
import type { LevelChange } from './levelTypes.js';
import type { AskedHairpin, AskedMark, AskedOfHand } from './marksAsked.js';
import type { Piece } from './piece.js';
import { meanOf, type Struck, type StruckNotes } from './struck.js';

/** Longest window on each side, bars. */
const WINDOW_BARS = 4;

/** Shortest window (>=) on each side, bars: what is over sooner is an accent. */
const LEAST_BARS = 0.5;

/** Fewest notes (>=) on each side, all hands together. */
const LEAST_NOTES = 4;

/** A difference of means is no better known than this, velocity units: half of what is just heard (Slade et al. 2022: 2.7-4.5). */
const LEAST_ERROR = 1.5;

/** A pedal is down from this value on (>=): MIDI 1.0. */
const PEDAL_DOWN = 64;

/** From this share of the notes on (>=) they are played with the soft pedal. */
const SOFT_SHARE = 0.5;

/** A change as asked of one hand. */
interface AskedChange {
  readonly kind: LevelChange['kind'];
  readonly from: AskedMark;
  readonly to: AskedMark;
  readonly louder: boolean;
  readonly steps: number;
  readonly before: readonly [from: number, to: number];
  readonly after: readonly [from: number, to: number];
}

/** Material of one stretch. */
interface StretchNotes {
  readonly stretch: number;
  readonly byHand: Readonly<Record<Hand, readonly Struck[]>>;
}

/** Every written change of level that was played, in time order. */
export function levelChanges(piece: Pick<Piece, 'score' | 'recording'>, struck: StruckNotes, asked: Readonly<Record<Hand, AskedOfHand>>): readonly LevelChange[] {
  const { score } = piece;
  const changes = { right: changesOf(score, asked.right), left: changesOf(score, asked.left) };
  const byStretch = groupBy(struck.notes, ({ stretch }) => stretch);
  return [...byStretch].flatMap(([stretch, notes]) => {
    const { right = [], left = [] } = Object.fromEntries(groupBy(notes, ({ hand }) => hand));
    const joint = changes.right.map((change) => ({ change, twin: changes.left.find((other) => same(score, change, other)) }));
    const alone = changes.left.filter((change) => !joint.some(({ twin }) => twin === change));
    return [
      ...joint.flatMap(({ change, twin }) => playedChange(piece, change, { stretch, byHand: twin === undefined ? { right, left: [] } : { right, left } })),
      ...alone.flatMap((change) => playedChange(piece, change, { stretch, byHand: { right: [], left } })),
    ].sort((a, b) => a.tick - b.tick);
  });
}

/** True where both hands are asked the same within a bar. */
function same(score: Score, a: AskedChange, b: AskedChange): boolean {
  return a.from.step === b.from.step && a.to.step === b.to.step && a.louder === b.louder && Math.abs(a.to.tick - b.to.tick) <= barTicksAt(score, a.to);
}

/** What is asked of one hand, mark by mark. */
function changesOf(score: Score, { marks, hairpins }: AskedOfHand): readonly AskedChange[] {
  return marks.flatMap((to, i) => {
    const from = marks[i - 1];
    if (from === undefined || from.tick >= to.tick) return [];
    const bar = barTicksAt(score, to);
    const between = hairpins.filter((pin) => pin.untilTick > from.tick && pin.tick < to.tick);
    const next = Math.min(marks.find((mark) => mark.tick > to.tick)?.tick ?? Infinity, to.tick + WINDOW_BARS * bar);
    const fades = hairpins.find((pin) => pin.tick >= to.tick && pin.untilTick > to.tick && pin.tick < next)?.tick ?? Infinity;
    const after = [to.tick, fades - to.tick >= LEAST_BARS * bar ? Math.min(next, fades) : next] as const;
    return [directionOf({ from, to, between, bar })].flatMap((found) => (found === null ? [] : [{ ...found, from, to, after }]));
  });
}

/** What leads from one mark to the next, or null where no change is asked. */
function directionOf({ from, to, between, bar }: { readonly from: AskedMark; readonly to: AskedMark; readonly between: readonly AskedHairpin[]; readonly bar: number }): Pick<AskedChange, 'kind' | 'louder' | 'steps' | 'before'> | null {
  const last = between.at(-1);
  const start = Math.max(from.tick, to.tick - WINDOW_BARS * bar);
  const turned = last !== undefined && (last.kind === 'crescendo' ? to.step <= from.step : to.step >= from.step);
  if (turned) return { kind: 'subito', louder: last.kind === 'diminuendo', steps: Math.max(1, Math.abs(to.step - from.step)), before: [Math.max(start, to.tick - bar), to.tick] };
  if (to.step === from.step) return null;
  const first = between.find((pin) => (pin.kind === 'crescendo') === to.step > from.step);
  const stops = first === undefined || first.tick - from.tick < LEAST_BARS * bar ? to.tick : first.tick;
  const kind = first === undefined ? 'sudden' : 'reached';
  return { kind, louder: to.step > from.step, steps: Math.abs(to.step - from.step), before: [Math.max(from.tick, stops - WINDOW_BARS * bar), stops] };
}

/** What became of it in one stretch: nothing where too little was played on one side. */
function playedChange({ score, recording }: Pick<Piece, 'score' | 'recording'>, change: AskedChange, { stretch, byHand }: StretchNotes): readonly LevelChange[] {
  const { from, to, louder, steps, kind } = change;
  const bar = barTicksAt(score, to);
  if (Math.min(lengthOf(change.before), lengthOf(change.after)) < LEAST_BARS * bar) return [];
  const sidesFrom = (before: AskedChange['before']): readonly Sides[] => HANDS.map((hand) => ({ before: within(byHand[hand], before), after: within(byHand[hand], change.after) }));
  const sides = sidesFrom(change.before);
  const shift = shiftOf(sides);
  const start = [from.tick, Math.min(change.before[1], from.tick + WINDOW_BARS * bar)] as const;
  const sinceMark = start[0] >= change.before[0] ? shift : shiftOf(sidesFrom(start));
  const first = sides.flatMap(({ after }) => after).sort((a, b) => a.tick - b.tick)[0];
  if (shift === null || first === undefined) return [];
  const asked = (units: number): number => (louder ? units : -units);
  const hands = HANDS.filter((hand) => byHand[hand].length > 0);
  const all = (side: 'before' | 'after'): readonly Struck[] => sides.flatMap((one) => one[side]);
  return [{
    kind, hand: hands.length === 1 ? (hands[0] ?? null) : null, stretch, visitIndex: to.visitIndex, tick: to.tick, startS: first.onsetS, from: from.text, to: to.text,
    steps, louder, made: asked(shift.units), madeSinceMark: asked((sinceMark ?? shift).units), errorUnits: shift.errorUnits,
    barsCompared: [lengthOf(change.before) / bar, lengthOf(change.after) / bar], echo: !louder && echoes(all('before'), all('after')),
    unaCorda: softShare(recording.soft, all('after')) >= SOFT_SHARE && softShare(recording.soft, all('before')) < SOFT_SHARE,
  }];
}

/** One hand's notes on both sides of a mark. */
interface Sides {
  readonly before: readonly Struck[];
  readonly after: readonly Struck[];
}

/** By how much the level went up, and how well that is known. */
function shiftOf(hands: readonly Sides[]): { readonly units: number; readonly errorUnits: number } | null {
  const fewer = ({ before, after }: Sides): number => Math.min(before.length, after.length);
  const playing = hands.filter((hand) => fewer(hand) >= LEAST_NOTES / 2);
  const pooled = { before: hands.flatMap(({ before }) => before), after: hands.flatMap(({ after }) => after) };
  const used = playing.reduce((sum, hand) => sum + fewer(hand), 0) >= LEAST_NOTES ? playing : [pooled];
  const weight = used.reduce((sum, hand) => sum + fewer(hand), 0);
  if (weight < LEAST_NOTES) return null;
  const parts = used.map((hand) => ({ share: fewer(hand) / weight, units: meanOf(levels(hand.after)) - meanOf(levels(hand.before)), variance: varianceOf(hand.after) + varianceOf(hand.before) }));
  const error = Math.sqrt(parts.reduce((sum, { share, variance }) => sum + share ** 2 * variance, 0));
  return { units: parts.reduce((sum, { share, units }) => sum + share * units, 0), errorUnits: Math.max(LEAST_ERROR, error) };
}

/** Variance of the mean of these notes' levels. */
function varianceOf(notes: readonly Struck[]): number {
  return standardDeviation(levels(notes)) ** 2 / notes.length;
}

function levels(notes: readonly Struck[]): number[] {
  return notes.map(({ levelled }) => levelled);
}

/** True where the notes after repeat those before, pitch for pitch, for at least as many as tell a level. */
function echoes(before: readonly Struck[], after: readonly Struck[]): boolean {
  const pitches = (notes: readonly Struck[]): readonly number[] => [...notes].sort((a, b) => a.tick - b.tick || a.midi - b.midi).map(({ midi }) => midi);
  const [then, now] = [pitches(before), pitches(after)];
  const length = Math.min(then.length, now.length);
  return length >= LEAST_NOTES && now.slice(0, length).join(' ') === then.slice(-length).join(' ');
}

/** Share of notes struck with the soft pedal down. */
function softShare(soft: readonly ControlPoint[], notes: readonly Struck[]): number {
  const down = ({ onsetS }: Struck): boolean => (soft[firstIndex(soft.length, (i) => (soft[i]?.timeS ?? Infinity) > onsetS) - 1]?.value ?? 0) >= PEDAL_DOWN;
  return notes.length === 0 ? 0 : notes.filter(down).length / notes.length;
}

/** Notes inside a window; notes are in order. */
function within(notes: readonly Struck[], [from, to]: readonly [number, number]): readonly Struck[] {
  const start = firstIndex(notes.length, (i) => (notes[i]?.tick ?? Infinity) >= from);
  return notes.slice(start, firstIndex(notes.length, (i) => (notes[i]?.tick ?? Infinity) >= to, start));
}

function lengthOf([from, to]: readonly [number, number]): number {
  return to - from;
}

/** Nominal length of the bar that a mark stands in. */
function barTicksAt(score: Score, { visitIndex }: AskedMark): number {
  return score.bars[score.order[visitIndex]?.barIndex ?? -1]?.nominalTicks ?? 4 * score.ticksPerQuarter;
}
