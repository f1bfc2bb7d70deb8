/*
 * The teacher's question: how loud was what, and what stood over what?
 *
 * Conventions: velocity units within this one recording; see the files of the single measures.
 * Method: strikes each note once, asks the marks once, and gives both to every measure of level.
 * Source: differences of velocity are differences of level within one instrument only (references of velocityLevel.ts).
 * What it does not tell: anything where the instrument has no touch response.
 */
import { median, medianAbsoluteDeviation, quantile, quantileSorted } from 'simple-statistics';
import type { Analysis } from '../analysis/index.js';
import { groupBy, measured, notMeasured, type Measured } from '../base/index.js';
import { accentsPlayed } from './accentsPlayed.js';
import { barLevels, beatLevels } from './contour.js';
import { hairpinsPlayed } from './hairpins.js';
import { levelChanges } from './levelChanges.js';
import type { Balance, BarLevel, LevelFacts, LevelScale, NoteLevel, TuneSpan } from './levelTypes.js';
import { marksAsked } from './marksAsked.js';
import type { Piece } from './piece.js';
import { ranksOf } from './ranks.js';
import { phraseLevels } from './phraseLevels.js';
import { overSurroundings, surroundingsOf } from './standingOut.js';
import { meanOf, struckNotes, type StruckNotes } from './struck.js';
import { isCounterpoint, tuneLines, type BarTune } from './tuneLines.js';
import { againstTune } from './tuneOver.js';
import { HANDS } from './hands.js';
import { playedOf } from './piece.js';
import type { BarFacts } from './types.js';
import { unspokenNotes } from './unspoken.js';
import { levelDbOf } from './velocityLevel.js';

/** Fewest struck notes (>=) from which levels are told. */
const LEAST_NOTES = 8;

/** Fewest bars (>=) from which a range or a normal balance is told. */
const LEAST_BARS = 4;

/** From a median absolute deviation to a standard deviation of a normal distribution: 1/0.6745, its upper quartile. */
const MAD_TO_SD = 1 / 0.6745;

/** Fewest notes (>=) of a chord that has inner notes. */
const CHORD_NOTES = 3;

/** What levels are told from. */
export interface LevelPiece extends Piece {
  readonly analysis: Pick<Analysis, 'phrases'>;
}

/** All facts of level; not measured where the keys give one level only, or where hardly anything was played. */
export function levelFacts(piece: LevelPiece, bars: readonly BarFacts[]): Measured<LevelFacts> {
  const { score, recording, analysis } = piece;
  if (recording.limits.some(({ kind }) => kind === 'no-touch')) return notMeasured('the instrument gives every note the same strength');
  const struck = struckNotes(piece);
  if (struck.notes.length < LEAST_NOTES) return notMeasured('too few notes were played');
  const asked = marksAsked(score);
  const tunes = tuneLines(score);
  const material = { score, notes: struck.notes, against: againstTune(score, struck, tunes), rankOf: ranksOf(struck.notes.map(({ levelled }) => levelled)) };
  const levels = barLevels(bars, material);
  return measured({
    scale: scaleOf(struck, levels),
    notes: noteLevels(piece, struck),
    bars: levels,
    beats: beatLevels(material),
    changes: levelChanges(piece, struck, asked),
    hairpins: hairpinsPlayed(score, struck, asked),
    accents: accentsPlayed(score, struck, asked),
    unspoken: unspokenNotes(piece, struck, ranksOf(struck.notes.map(({ velocity }) => velocity))),
    phrases: phraseLevels(score, analysis, { struck, tunes }),
    balance: balanceOf({ piece, struck, levels, tunes }),
  });
}

/** The recording's own scale. */
function scaleOf({ notes, registerTrend }: StruckNotes, levels: readonly BarLevel[]): LevelScale {
  const sorted = notes.map(({ velocity }) => velocity).sort((a, b) => a - b);
  const bars = levels.flatMap(({ right, left }) => {
    const hands = [right, left].flatMap((hand) => (hand.measured ? [hand.value] : []));
    const count = hands.reduce((sum, hand) => sum + hand.notes, 0);
    return count === 0 ? [] : [hands.reduce((sum, hand) => sum + (hand.velocity * hand.notes) / count, 0)];
  }).sort((a, b) => a - b);
  const range = bars.length < LEAST_BARS ? notMeasured('too few bars were played') : measured(quantileSorted(bars, 0.9) - quantileSorted(bars, 0.1));
  return { soft: quantileSorted(sorted, 0.1), loud: quantileSorted(sorted, 0.9), registerTrend, range };
}

/** One entry a pair, also for grace notes, which stand over nothing. */
function noteLevels({ recording, alignment, score }: Piece, { moments }: StruckNotes): readonly NoteLevel[] {
  const over = new Map(moments.flatMap((byHand) => HANDS.flatMap((hand) => [...overSurroundings(byHand[hand], surroundingsOf(byHand[hand], score.ticksPerQuarter))])));
  const velocities = alignment.pairs.map(({ note }) => playedOf(recording, note).velocity);
  const rankOf = ranksOf(velocities);
  return velocities.map((velocity, pair) => ({ pair, velocity, rank: rankOf(velocity), levelDb: levelDbOf(velocity), over: over.get(pair) ?? notMeasured('a grace note has no level of its own') }));
}

/** What the balance is told from. */
interface BalanceMaterial {
  readonly piece: Piece;
  readonly struck: StruckNotes;
  readonly levels: readonly BarLevel[];
  readonly tunes: readonly BarTune[];
}

/** The player's own normal, and the tune's way through the hands. */
function balanceOf({ piece, struck, levels, tunes }: BalanceMaterial): Balance {
  const overs = levels.flatMap(({ tuneOver }) => (tuneOver.measured ? [tuneOver.value] : []));
  const few = notMeasured('too few bars have a tune and an accompaniment');
  const chords = struck.moments.flatMap(({ right }, stretch) => right.filter(({ notes }) => notes.length >= CHORD_NOTES).map(({ notes, visitIndex, onsetS }) => ({
    stretch, visitIndex, startS: onsetS, topOver: (notes.at(-1)?.velocity ?? 0) - meanOf(notes.slice(0, -1).map(({ velocity }) => velocity)),
  })));
  return {
    tune: spansOf(piece, tunes),
    normal: overs.length < LEAST_BARS ? few : measured(median(overs)),
    atBest: overs.length < LEAST_BARS ? few : measured(quantile(overs, 0.75)),
    counterpoint: isCounterpoint(tunes),
    scatter: overs.length < LEAST_BARS ? few : measured(medianAbsoluteDeviation(overs) * MAD_TO_SD),
    chords,
    topOverInner: chords.length < LEAST_NOTES ? notMeasured('the right hand plays too few chords') : measured(median(chords.map(({ topOver }) => topOver))),
  };
}

/** Bars that follow one another with the tune in one line, as one span. */
function spansOf({ score }: Piece, tunes: readonly BarTune[]): readonly TuneSpan[] {
  let run = 0;
  const runs = groupBy(tunes, (tune) => {
    const before = tunes[tune.visitIndex - 1];
    if (before !== undefined && (before.hand !== tune.hand || before.line !== tune.line)) run += 1;
    return run;
  });
  return [...runs.values()].flatMap((span) => {
    const [first, last] = [span[0], span.at(-1)];
    if (first === undefined || last === undefined) return [];
    const end = score.order[last.visitIndex];
    const fromTick = score.order[first.visitIndex]?.startTick ?? 0;
    const toTick = (end?.startTick ?? fromTick) + (score.bars[end?.barIndex ?? -1]?.lengthTicks ?? 0);
    return [{ fromTick, toTick, hand: first.hand, line: first.line, confidence: meanOf(span.map(({ confidence }) => confidence)) }];
  });
}
