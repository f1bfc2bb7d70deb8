/*
 * Question: what does the score itself ask of the pedal?
 * Conventions: written ticks, ends exclusive; stretches in order, none over another.
 * Method: start and change marks press until their end; "continue", "discontinue" and "resume" only draw the line (MusicXML 4.0, W3C).
 *   A release and a new press within a beat are one legato change, as the printed star is approximate. Words ask for pedal, for
 *   none, or to let ring, until other words or marks follow.
 * Source: teaching practice, no published source, but for the marks.
 * What it does not tell: half pedal, but for the depth that the file gives; sostenuto and soft pedal are other pedals.
 */
import { barAtTick, beatTicks, type Direction, type Score } from '../score/index.js';

/** A pressed stretch as marked. */
export interface PrintedStretch {
  readonly fromTick: number;
  readonly toTick: number;
  /** True where the pedal is lifted and taken again at the beginning. */
  readonly change: boolean;
  /** True where a star stands at the end, false where the next mark takes over. */
  readonly released: boolean;
  /** 0-100 where the file asks for part of the pedal, else null. */
  readonly depth: number | null;
}

/** What words ask for over a stretch. */
export interface WordedStretch {
  readonly fromTick: number;
  readonly toTick: number;
  readonly asks: 'pedal' | 'dry' | 'ring';
  /** As printed. */
  readonly text: string;
}

/** All pressed stretches. */
export function printedStretches(score: Score): readonly PrintedStretch[] {
  const presses = score.directions.filter((mark) => mark.kind === 'pedal' && (mark.text === 'start' || mark.text === 'change')).toSorted((a, b) => a.onsetTick - b.onsetTick);
  const stretches: PrintedStretch[] = [];
  presses.forEach((press, i) => {
    const next = presses[i + 1]?.onsetTick ?? lastTick(score);
    const toTick = Math.min(press.untilTick ?? next, next);
    if (toTick <= press.onsetTick) return;
    const before = stretches[stretches.length - 1];
    const change = before !== undefined && press.onsetTick - before.toTick <= beatAt(score, press.onsetTick);
    if (change) stretches[stretches.length - 1] = { ...before, toTick: press.onsetTick };
    stretches.push({ fromTick: press.onsetTick, toTick, change, released: press.untilTick !== null && toTick < next, depth: press.value !== null && press.value < 100 ? press.value : null });
  });
  return stretches;
}

const DRY_WORDS = /(senza ped|sans p[eé]d|ohne ped|\bsecco\b|\bno pedal)/i;
const RING_WORDS = /(lasciar vibrare|laisse[rz] vibrer|\bl\.\s?v\.|let ring|klingen lassen)/i;
const PEDAL_WORDS = /(con ped|col ped|mit ped|avec p[eé]d|sempre ped|ped(ale)?\.? simile|with pedal|\bcon pedale|senza sordin|sans sourdine)/i;

/** Sounds asked to ring are left for so many bars, that of the words included. */
const RING_BARS = 2;

/** What the words ask for, in order: pedal or none until such words come again, ringing for two bars over whatever else holds. */
export function wordedStretches(score: Score): readonly WordedStretch[] {
  const worded = score.directions.filter((mark) => mark.kind === 'words' || mark.kind === 'tempo').flatMap((mark) => {
    const asks = askedBy(mark);
    return asks === null ? [] : [{ fromTick: mark.onsetTick, asks, text: mark.text, ringsTo: score.bars[mark.barIndex + RING_BARS]?.startTick ?? lastTick(score) }];
  });
  return worded.map(({ ringsTo, ...one }, i) => {
    const next = worded[i + 1]?.fromTick;
    const after = worded.slice(i + 1).find((other) => other.asks !== 'ring')?.fromTick ?? lastTick(score);
    return { ...one, toTick: one.asks === 'ring' ? Math.min(next ?? ringsTo, ringsTo) : after };
  });
}

/** The words in force at a tick: ringing before all else. */
export function wordsAt(words: readonly WordedStretch[], tick: number): WordedStretch | undefined {
  const here = words.filter((one) => one.fromTick <= tick && tick < one.toTick);
  return here.find((one) => one.asks === 'ring') ?? here[here.length - 1];
}

/** What one direction asks for. */
function askedBy({ text }: Direction): WordedStretch['asks'] | null {
  if (DRY_WORDS.test(text)) return 'dry';
  if (RING_WORDS.test(text)) return 'ring';
  return PEDAL_WORDS.test(text) ? 'pedal' : null;
}

/** The end of the last bar. */
export function lastTick(score: Pick<Score, 'bars'>): number {
  const last = score.bars[score.bars.length - 1];
  return last === undefined ? 0 : last.startTick + last.lengthTicks;
}

/** Length of a beat at a tick. */
export function beatAt(score: Score, tick: number): number {
  const bar = score.bars[barAtTick(score, tick).barIndex];
  return bar === undefined ? score.ticksPerQuarter : beatTicks(score, bar);
}
