/*
 * Question: at which harmonies does a phrase come to rest?
 * Conventions: places are harmonies, by number; the last sounding harmony always ends a phrase.
 * Method: every harmony gets a rest value (how long the tune waits or is silent there, how strong its place in the bar is, whether it is a
 *   tonic or dominant that cadences end on, whether a double bar, repeat or fermata follows); the best way to cut the piece is found by
 *   dynamic programming, phrases near the usual four bars being preferred.
 * Source: the factors of Temperley 2001, The Cognition of Basic Musical Structures, chapter 3 (gaps, length,
 *   parallel metre), with harmony added; the figures are our own.
 * What it does not tell: elided phrases, whose end is also a beginning.
 */
import { firstIndex } from '../base/index.js';
import { barAtTick, beatTicks, type Score } from '../score/index.js';
import { closingKind } from './cadences.js';
import { levelAt } from './grid.js';
import type { SoundingNote } from './notes.js';
import { returnBars } from './returns.js';
import { longSlurs } from './slurs.js';
import type { Harmony, KeySpan } from './types.js';

/** What a beat of waiting in the tune is worth beyond one beat, and how many count at most. */
const WAIT_VALUE = 1.2;
const MOST_WAIT_BEATS = 2;

/** What a place in the bar is worth, by level. */
const PLACE_VALUE = [0.6, 0.6, 0, -1.2] as const;

/** What a harmony is worth as the last of a cadence. */
const CADENCE_VALUE = { perfect: 1.6, imperfect: 1.8, interrupted: 0.2, plagal: 0.2 } as const;
const NO_CADENCE = -1.5;

/** What a double bar, repeat sign or fermata directly after a harmony is worth. */
const SIGN_VALUE = 2.5;

/** What it is worth that the music after a harmony has been heard before, and costs where the harmony itself opens such a return. */
const RETURN_VALUE = 3;

/** What it is worth that a slur of a bar or more ends within a harmony. */
const SLUR_VALUE = 1.5;

/** What a dominant costs that closes a phrase with its seventh still in it, and is worth after its six-four. */
const SEVENTH_CHARGE = 0.8;
const SIX_FOUR_VALUE = 0.5;

/** What a close costs that lasts less (exclusive) than so many beats: harmony moves on before it is felt as an end. */
const SHORT_BEATS = 1.5;
const SHORT_CHARGE = 0.3;

/** What a perfect cadence costs whose dominant is inverted, and is worth with the tonic in the tune. */
const INVERTED_CHARGE = 1;
const TONIC_TUNE_VALUE = 1;

/** Usual length of a phrase in bars, and what being twice or half as long costs. */
const USUAL_BARS = 4;
const LENGTH_CHARGE = 2.5;

/** The first phrase is measured from its beginning, the others from the last harmony before them: that harmony's bar makes the difference. */
const LAST_BAR = 1;

/** What every phrase costs, so that weak places make none. */
const PHRASE_CHARGE = 1.6;

/** Longest phrase that is looked for, in bars. */
const LONGEST_BARS = 16;

/** Numbers of the harmonies that end a phrase, in order. */
export function phraseEndIndices(score: Score, harmonies: readonly Harmony[], context: PhraseContext): readonly number[] {
  if (harmonies.length === 0) return [];
  const returns = returnTicks(score, context.tune);
  const slurEnds = longSlurs(score).map((slur) => slur.toTick);
  const slurred = ({ fromTick, toTick }: Harmony): number => (slurEnds.some((tick) => tick >= fromTick && tick < toTick) ? SLUR_VALUE : 0);
  const values = harmonies.map((harmony, i) => slurred(harmony) + restValue(score, { harmonies, i }, context) + returnValue(score, harmony, returns) + closeValue({ harmonies, i }, context, score));
  const bars = harmonies.map((harmony) => barPlace(score, harmony.fromTick));
  const best: number[] = [];
  const cameFrom: number[] = [];
  harmonies.forEach((_, i) => {
    let top = lengthCharge((bars[i] ?? 0) - (bars[0] ?? 0) + LAST_BAR);
    let from = -1;
    for (let j = i - 1; j >= 0 && (bars[i] ?? 0) - (bars[j] ?? 0) <= LONGEST_BARS; j -= 1) {
      const way = (best[j] ?? 0) + lengthCharge((bars[i] ?? 0) - (bars[j] ?? 0));
      if (way <= top) continue;
      top = way;
      from = j;
    }
    best.push(top + (values[i] ?? 0) - PHRASE_CHARGE);
    cameFrom.push(from);
  });
  const ends: number[] = [];
  for (let at = harmonies.length - 1; at >= 0; at = cameFrom[at] ?? -1) ends.push(at);
  return ends.reverse();
}

/** What the rest values are found from. */
export interface PhraseContext {
  readonly keys: readonly KeySpan[];
  /** The tune's notes in order, none under another. */
  readonly tune: readonly SoundingNote[];
}

/** Charge (not above 0) for a phrase of so many bars. */
function lengthCharge(bars: number): number {
  const times = Math.log2(Math.max(0.5, bars) / USUAL_BARS);
  return -LENGTH_CHARGE * times * times;
}

/** A tick as bars from the start, with its part of a bar. */
function barPlace(score: Score, tick: number): number {
  const { barIndex, offsetTicks } = barAtTick(score, tick);
  return barIndex + offsetTicks / Math.max(1, score.bars[barIndex]?.nominalTicks ?? 1);
}

/** How much a harmony feels like an end. */
function restValue(score: Score, { harmonies, i }: Spot, { keys, tune }: PhraseContext): number {
  const harmony = harmonies[i];
  const bar = harmony === undefined ? undefined : score.bars[harmony.barIndex];
  if (harmony === undefined || bar === undefined) return 0;
  const beat = beatTicks(score, bar);
  const kind = closingKind(harmonies, i, keys);
  return (
    (kind === null ? NO_CADENCE : CADENCE_VALUE[kind]) +
    PLACE_VALUE[levelAt(score, bar, harmony.fromTick) ?? 3] +
    WAIT_VALUE * Math.min(MOST_WAIT_BEATS, Math.max(0, longestWait(tune, harmony, bar.nominalTicks) / beat - 1)) +
    (signFollows(score, harmony) ? SIGN_VALUE : 0)
  );
}

/** Ticks at which a return begins. */
function returnTicks(score: Score, tune: readonly SoundingNote[]): readonly number[] {
  return [...returnBars(score, tune)].map((bar) => score.bars[bar]?.startTick ?? 0).sort((a, b) => a - b);
}

/** Credit where a return begins within a beat of a harmony's end, charge where it begins with the harmony. */
function returnValue(score: Score, { barIndex, fromTick, toTick }: Harmony, returns: readonly number[]): number {
  const bar = score.bars[barIndex];
  const reach = bar === undefined ? 0 : beatTicks(score, bar);
  if (returns.includes(fromTick)) return -RETURN_VALUE;
  return returns.some((tick) => tick > fromTick && tick <= toTick + reach) ? RETURN_VALUE : 0;
}

/** How well a cadence is made: its dominant, its length, its tune. */
function closeValue({ harmonies, i }: Spot, { keys, tune }: PhraseContext, score: Score): number {
  const harmony = harmonies[i];
  const bar = harmony === undefined ? undefined : score.bars[harmony.barIndex];
  const kind = closingKind(harmonies, i, keys);
  if (harmony === undefined || bar === undefined || kind === null) return 0;
  const before = harmonies[i - 1];
  const short = harmony.toTick - harmony.fromTick < SHORT_BEATS * beatTicks(score, bar) ? -SHORT_CHARGE : 0;
  if (kind === 'imperfect')
    return (harmony.quality === 'dominantSeventh' ? -SEVENTH_CHARGE : 0) + (before?.quality === 'cadentialSixFour' ? SIX_FOUR_VALUE : short);
  if (kind !== 'perfect') return short;
  const top = tune[firstAt(tune, harmony.fromTick)];
  const tonicOnTop = top !== undefined && top.onset < harmony.toTick && top.pc === harmony.root;
  return short + (before?.inversion === 0 ? 0 : -INVERTED_CHARGE) + (tonicOnTop ? TONIC_TUNE_VALUE : 0);
}

/** One of some harmonies. */
interface Spot {
  readonly harmonies: readonly Harmony[];
  readonly i: number;
}

/** Place of the first note at or after a tick. */
function firstAt(tune: readonly SoundingNote[], tick: number): number {
  return firstIndex(tune.length, (i) => (tune[i]?.onset ?? 0) >= tick);
}

/** Longest time (ticks) between successive onsets of the tune that begins in a harmony and within a bar of its start; silence counts double. */
function longestWait(tune: readonly SoundingNote[], { fromTick, toTick }: Harmony, barTicks: number): number {
  let longest = 0;
  for (let k = firstAt(tune, fromTick); k < tune.length && (tune[k]?.onset ?? Infinity) < Math.min(toTick, fromTick + barTicks); k += 1) {
    const note = tune[k];
    const next = tune.slice(k + 1, k + 12).find((other) => other.onset > (note?.onset ?? 0));
    if (note === undefined) continue;
    const wait = (next?.onset ?? note.end) - note.onset;
    longest = Math.max(longest, wait + Math.max(0, (next?.onset ?? note.end) - note.end));
  }
  return longest;
}

/** Whether a double bar, a repeat or a fermata stands at the end of the harmony or of its bar. */
function signFollows(score: Score, harmony: Harmony): boolean {
  const end = barAtTick(score, Math.max(harmony.fromTick, harmony.toTick - 1)).barIndex;
  return score.bars.slice(harmony.barIndex, end + 1).some((bar) => {
    const next = score.bars[bar.index + 1];
    const right = bar.barlines.some((line) => line.location !== 'left' && (line.repeat === 'backward' || line.style === 'light-light' || line.style === 'light-heavy' || line.fermata));
    return right || next?.barlines.some((line) => line.location === 'left' && line.repeat === 'forward') === true;
  });
}
