/*
 * The teacher's question: does anything written let the time bend here?
 *
 * Conventions: spans of unfolded ticks, both ends counted, one for each pass; reasons from the freest on. A place may have several.
 * Method: read off the score (fermatas, breath marks, tempo words, double bar lines, repeat signs, the last bar) and
 *   off its analysis (sections, phrases: from a beat before the last harmony until the next phrase has begun).
 * Source: common practice.
 * What it does not tell: how far it may bend. High points, appoggiaturas and leaps bend too, and are not known here.
 */
import type { Analysis } from '../analysis/index.js';
import { beatTicks, printedTempos, type Bar, type PrintedTempo, type Score } from '../score/index.js';
import type { BendReason } from './pulseTypes.js';

/** Where the time may bend, and why. */
export interface ExpectedBend {
  readonly reason: BendReason;
  readonly fromTick: number;
  readonly toTick: number;
}

/** How many bars a word such as ritardando holds where nothing takes it back. */
const WORD_BARS = 2;

/** The freest first. */
export const BEND_REASONS: readonly BendReason[] = ['free', 'fermata', 'breath', 'close', 'bendWord', 'tempoWord', 'sectionStart', 'ornament', 'phraseEnd'];

/** Where the time may bend, a list for every visit of the playing order. */
export function expectedBends(score: Score, analysis: Pick<Analysis, 'sections' | 'phrases'>): readonly (readonly ExpectedBend[])[] {
  const written = [...fermatas(score), ...breaths(score), ...tempoWords(score), ...doubleBars(score), ...sectionStarts(score, analysis), ...phraseEnds(score, analysis)];
  return unfolded(score, written);
}

/** A gap between two moments: unfolded ticks, and the visit that the later one stands in. */
export interface GapPlace {
  readonly fromTick: number;
  readonly tick: number;
  readonly visitIndex: number;
}

/** Reasons that hold for a gap, the freest first. @param bends what `expectedBends` gave */
export function reasonsAt(bends: readonly (readonly ExpectedBend[])[], { fromTick, tick, visitIndex }: GapPlace): readonly BendReason[] {
  const near = [...(bends[visitIndex - 1] ?? []), ...(bends[visitIndex] ?? [])];
  const found = new Set(near.filter((bend) => bend.fromTick <= tick && bend.toTick >= fromTick).map(({ reason }) => reason));
  return BEND_REASONS.filter((reason) => found.has(reason));
}

/** Notes, rests and bar lines under a fermata: until they end. */
function fermatas({ notes, rests, bars }: Score): readonly ExpectedBend[] {
  const held = [...notes, ...rests].filter(({ fermata }) => fermata).map(({ onsetTick, lengthTicks }) => span('fermata', onsetTick, onsetTick + lengthTicks));
  const lines = bars.filter(({ barlines }) => barlines.some(({ fermata }) => fermata)).map(({ startTick, lengthTicks }) => span('fermata', startTick + lengthTicks, startTick + lengthTicks));
  return [...held, ...lines];
}

/** From a note with a breath mark to the next. */
function breaths({ notes }: Score): readonly ExpectedBend[] {
  return notes
    .filter(({ articulations }) => articulations.includes('breathMark') || articulations.includes('caesura'))
    .map(({ onsetTick, lengthTicks }) => span('breath', onsetTick, onsetTick + lengthTicks));
}

/** Words of change hold until the next mark, but no longer than two bars; other marks count where they stand. */
function tempoWords(score: Score): readonly ExpectedBend[] {
  const marks = printedTempos(score);
  return marks.filter(({ tick }) => tick > 0).map((mark) => {
    const next = marks.find((other) => other.tick > mark.tick)?.tick ?? Infinity;
    const beat = beatAt(score, mark.barIndex);
    const until = lasts(mark) ? Math.min(next, mark.tick + WORD_BARS * barTicks(score, mark.barIndex)) : mark.tick + beat;
    return span(mark.change === 'free' ? 'free' : lasts(mark) ? 'bendWord' : 'tempoWord', mark.tick - beat, until);
  });
}

/** True for a change that goes on by and by, or leaves the player free. */
function lasts({ change }: PrintedTempo): boolean {
  return change === 'slowing' || change === 'quickening' || change === 'dying' || change === 'free';
}

/** Double bar lines and repeat signs. Where a new tempo begins at one, as between variations, the music before it has ended: the player is free. */
function doubleBars(score: Score): readonly ExpectedBend[] {
  const tempos = new Set(printedTempos(score).map(({ tick }) => tick));
  return score.bars.flatMap(({ barlines, startTick, lengthTicks }) => barlines.flatMap(({ style, repeat, location }) => {
    if (repeat === null && style !== 'light-light' && style !== 'light-heavy') return [];
    const tick = location === 'left' ? startTick : startTick + lengthTicks;
    return [span(tempos.has(tick) ? 'free' : 'sectionStart', tick, tick)];
  }));
}

/** Around the first notes of a section. */
function sectionStarts(score: Score, { sections }: Pick<Analysis, 'sections'>): readonly ExpectedBend[] {
  return sections.filter(({ fromTick }) => fromTick > 0).map(({ fromBar, fromTick }) => span('sectionStart', fromTick - beatAt(score, fromBar), fromTick));
}

/** From a beat before the last harmony of a phrase to the first note of the next. */
function phraseEnds(score: Score, { phrases }: Pick<Analysis, 'phrases'>): readonly ExpectedBend[] {
  return phrases.map(({ to, untilTick }) => span('phraseEnd', to.tick - beatAt(score, to.barIndex), untilTick));
}

/** Written spans in every pass, each bar's part by itself, and the close of the playing order. */
function unfolded({ order, bars }: Score, written: readonly ExpectedBend[]): readonly (readonly ExpectedBend[])[] {
  const byBar = bars.map((bar) => written.flatMap((bend) => partIn(bar, bend)));
  return order.map(({ index, barIndex, startTick }) => {
    const own = (byBar[barIndex] ?? []).map(({ reason, fromTick, toTick }) => span(reason, startTick + fromTick, startTick + toTick));
    return index < order.length - 1 ? own : [...own, span('close', startTick, startTick + (bars[barIndex]?.lengthTicks ?? 0))];
  });
}

/** The part of a written span that lies in a bar, its end counted, from the start of the bar. */
function partIn({ startTick, lengthTicks }: Bar, { reason, fromTick, toTick }: ExpectedBend): readonly ExpectedBend[] {
  const from = Math.max(0, fromTick - startTick);
  const to = Math.min(lengthTicks, toTick - startTick);
  return from > to ? [] : [span(reason, from, to)];
}

/** One span. */
function span(reason: BendReason, fromTick: number, toTick: number): ExpectedBend {
  return { reason, fromTick, toTick };
}

/** A beat of a bar, ticks. */
function beatAt(score: Score, barIndex: number): number {
  const bar = score.bars[barIndex];
  return bar === undefined ? 0 : beatTicks(score, bar);
}

/** A whole bar as its time signature says, ticks. */
function barTicks({ bars }: Score, barIndex: number): number {
  return bars[barIndex]?.nominalTicks ?? 0;
}
