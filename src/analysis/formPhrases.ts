/*
 * Question: where does each phrase begin and end?
 * Conventions: a phrase's `to` is the onset of its last harmony; `untilTick` is where the next one begins.
 * Method: ends come from the harmony. The next phrase begins at the first note of the upper stave after the end that follows a rest,
 *   begins a slur or stands at a double bar, at most one bar on; else at the next bar line. A bar that only holds the last sound is the phrase's still.
 * Source: the signs are common practice (breath, new slur, bar line); their order is our own rule.
 * What it does not tell: phrases that overlap, where an end is a beginning too.
 */
import type { HarmonyAnalysis } from '../harmony/index.js';
import { barAtTick, ticksToCrotchets, type Bar, type Score, type ScoreNote } from '../score/index.js';
import type { Phrase, ScorePlace } from './formTypes.js';

/** A written tick as a place in a bar. */
export function placeAt(score: Score, tick: number): ScorePlace {
  const { barIndex, offsetTicks } = barAtTick(score, tick);
  return { tick, barIndex, offset: ticksToCrotchets(score, offsetTicks) };
}

/** All phrases in order; what follows the last end is left to the last phrase. Empty for a score without notes. */
export function findPhrases(score: Score, harmony: HarmonyAnalysis): readonly Phrase[] {
  const lines = tuneOf(score);
  const first = lines[0];
  if (first === undefined) return [];
  const pieceEnd = endOf(score);
  const ends = harmony.phraseEnds;
  const phrases: Phrase[] = [];
  let from = score.notes.reduce((first, note) => Math.min(first, note.onsetTick), Infinity);
  ends.forEach(({ tick, lastNoteTick }, i) => {
    if (lastNoteTick < from) return;
    const next = ends[i + 1];
    const sounding = harmony.harmonies.find((one) => one.fromTick <= lastNoteTick && lastNoteTick < one.toTick);
    const lasts = { from: lastNoteTick, to: sounding?.toTick ?? lastNoteTick };
    const until = next === undefined ? pieceEnd : Math.min(nextBeginning(score, lines, lasts), next.lastNoteTick);
    phrases.push({ from: placeAt(score, from), to: placeAt(score, Math.max(tick, from)), untilTick: until });
    from = until;
  });
  return phrases;
}

/** Where the music stops: the end of the last bar. */
function endOf(score: Score): number {
  const last = score.bars[score.bars.length - 1];
  return last === undefined ? 0 : last.startTick + last.lengthTicks;
}

/** Notes of the upper stave, or of all staves where it is empty, by onset. */
function tuneOf(score: Score): readonly ScoreNote[] {
  const played = score.notes.filter((note) => !note.cue && note.grace === null);
  const upper = played.filter((note) => note.staff === 1);
  return (upper.length === 0 ? played : upper).toSorted((a, b) => a.onsetTick - b.onsetTick);
}

/** The last note of a phrase, and up to when its last harmony sounds. */
interface LastSound {
  readonly from: number;
  readonly to: number;
}

/** Where the phrase after this end begins. */
function nextBeginning(score: Score, tune: readonly ScoreNote[], last: LastSound): number {
  const end = closingBar(score, tune, last)?.startTick ?? last.from;
  const { barIndex } = barAtTick(score, end);
  const bar = score.bars[barIndex];
  const barEnd = bar === undefined ? end : bar.startTick + bar.lengthTicks;
  const horizon = end + (bar?.nominalTicks ?? 0);
  const after = tune.filter((note) => note.onsetTick > end && note.onsetTick <= Math.min(horizon, barEnd));
  const fresh = after.find((note) => begins(note) || !tune.some((other) => sounding(other, note.onsetTick)));
  return fresh?.onsetTick ?? barEnd;
}

/** The bar after the last note's, where the last harmony goes on in it under a single note of the tune: it still belongs to the phrase. */
function closingBar(score: Score, tune: readonly ScoreNote[], { from, to }: LastSound): Bar | null {
  const bar = score.bars[barAtTick(score, from).barIndex + 1];
  if (bar === undefined || to < bar.startTick + bar.lengthTicks) return null;
  const inside = tune.filter((note) => note.barIndex === bar.index);
  return inside.length > 0 && inside.every((note) => note.onsetTick === bar.startTick && 2 * note.lengthTicks > bar.lengthTicks) ? bar : null;
}

/** Whether a note opens a slur that nothing closes on it. */
function begins(note: ScoreNote): boolean {
  return note.slurs.some((slur) => slur.kind === 'start') && !note.slurs.some((slur) => slur.kind === 'stop');
}

/** Whether a note sounds right up to a tick (or over it). */
function sounding(note: ScoreNote, tick: number): boolean {
  return note.onsetTick < tick && note.onsetTick + note.lengthTicks >= tick;
}
