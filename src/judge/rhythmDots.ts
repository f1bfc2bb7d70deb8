/*
 * Dots: dotted pairs played even or as a triplet, double dots, and the short-long pair.
 *
 * What is a fault: the long note was shortened and the short one came too soon, as heard in one figure where the two are even, in
 * two near one another where they stand as two to one (a triplet leans towards a dot by itself, and one figure may be rubato). A figure whose
 * long note had its time and whose short note waited is a hesitation, none of the dot. Dots against triplets are the
 * player's choice; over-dotting is told where it is a habit, and not blamed.
 */
import type { RhythmFigure } from '../measure/index.js';
import { findingOf, LEAST_OFF_MS, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** Share of a dotted note as written: three of four. */
export const DOTTED = 0.75;

/** Share of a double-dotted note: seven of eight. */
export const DOUBLE_DOTTED = 0.875;

/** Up to this share (<=) a dotted pair is even: the middle of 1 : 1 and 2 : 1, a little towards the triplet. */
export const EVEN_UP_TO = 0.6;

/** Up to this share (<=) it is a triplet: the middle of 2 : 1 and 3 : 1 is 0.708; one in twenty of good players' dots reaches 0.69. */
export const TRIPLET_UP_TO = 0.69;

/** From this share (>=) on it is over-dotted: the middle of 3 : 1 and 7 : 1 is 0.81. */
const OVER_FROM = 0.82;

/** The long note must be at most this part (<=) of its written length by the tempo around: even dots leave it two thirds. */
const SHORTENED = 0.88;

/** As a triplet the long note keeps eight ninths; beyond this (>) it was not shortened. */
const SHORTENED_TRIPLET = 0.95;

/** Figures on either side (<=) that one is heard with. */
const MOST_NEAR = 8;

/** Figures (>=) of a piece from which a habit is told. */
const HABIT_FIGURES = 4;

/** How sure we are of one even figure alone, and of several: one may be a slip of the moment. */
const CONFIDENCE_ONE = 0.6;
const CONFIDENCE_MORE = 0.95;

/** A triplet in place of a dot is nearer to it. */
const CONFIDENCE_TRIPLET = 0.7;

/** Told, not blamed. */
const CONFIDENCE_OVER = 0.3;

/** How a figure was played. */
interface Reading {
  readonly figure: RhythmFigure;
  readonly kind: 'evenDots' | 'tripletDots' | 'looseDoubleDots' | 'evenSnap' | null;
}

/** Findings of all dotted figures. */
export function dotFindings(ground: RhythmGround): readonly Finding[] {
  const readings = ground.facts.figures.flatMap((figure) => readingOf(figure, ground.swing));
  return [...readings.flatMap((reading, i) => toldOf(ground, reading, neighbours(readings, i))), ...overDotted(ground, readings)];
}

/** What one dotted figure was played as; nothing of other figures. */
function readingOf(figure: RhythmFigure, swing: boolean): readonly Reading[] {
  const [share = 0] = figure.shares;
  const shortened = (written: number, part: number): number => figure.spanTimes === null ? 1 : (part * figure.spanTimes) / written;
  if (figure.kind === 'dotted') {
    const even = share <= EVEN_UP_TO && shortened(DOTTED, share) <= SHORTENED;
    const triplet = share <= TRIPLET_UP_TO && shortened(DOTTED, share) <= SHORTENED_TRIPLET && figure.against !== 3 && !swing;
    return [{ figure, kind: even ? 'evenDots' : triplet ? 'tripletDots' : null }];
  }
  if (figure.kind === 'doubleDotted') return [{ figure, kind: share <= DOTTED && shortened(DOUBLE_DOTTED, share) <= SHORTENED_TRIPLET ? 'looseDoubleDots' : null }];
  if (figure.kind === 'snap') return [{ figure, kind: share >= 1 - EVEN_UP_TO && shortened(DOTTED, 1 - share) <= SHORTENED ? 'evenSnap' : null }];
  return [];
}

/** The readings of the same hand and figure in this bar and the ones beside it, this one counted. */
function neighbours(readings: readonly Reading[], place: number): readonly Reading[] {
  const own = readings[place];
  if (own === undefined) return [];
  const near = (one: Reading | undefined): one is Reading => one !== undefined && one.figure.stretch === own.figure.stretch && one.figure.hand === own.figure.hand
    && Math.abs(one.figure.visitIndex - own.figure.visitIndex) <= 1;
  const found: Reading[] = [own];
  for (let i = place - 1; i >= place - MOST_NEAR && near(readings[i]); i -= 1) found.push(readings[i] ?? own);
  for (let i = place + 1; i <= place + MOST_NEAR && near(readings[i]); i += 1) found.push(readings[i] ?? own);
  return found.filter(({ figure }) => figure.kind === own.figure.kind);
}

/** Expected share of the longer note, and how far off counts. */
function scaleOf(figure: RhythmFigure): { readonly written: number; readonly threshold: number } {
  return figure.kind === 'doubleDotted' ? { written: DOUBLE_DOTTED, threshold: DOTTED } : { written: DOTTED, threshold: TRIPLET_UP_TO };
}

/** The finding of one figure. */
function toldOf(ground: RhythmGround, { figure, kind }: Reading, near: readonly Reading[]): readonly Finding[] {
  const visit = ground.visit(figure.stretch, figure.visitIndex);
  if (kind === null || visit === undefined) return [];
  const alike = near.filter((one) => one.kind !== null).length;
  const certain = kind === 'evenDots' || kind === 'evenSnap';
  if (!certain && (alike < 2 || alike * 2 <= near.length)) return [];
  const { written, threshold } = scaleOf(figure);
  const share = figure.kind === 'snap' ? 1 - (figure.shares[0] ?? 0) : figure.shares[0] ?? 0;
  if ((written - share) * figure.spanS * 1000 < LEAST_OFF_MS) return [];
  return findingOf(ground, {
    kind, hand: figure.hand, visits: [visit], pairs: figure.pairs, value: share / (1 - share), unit: 'to one', threshold: threshold / (1 - threshold),
    ratio: (written - share) / (written - threshold), confidence: !certain ? CONFIDENCE_TRIPLET : alike > 1 ? CONFIDENCE_MORE : CONFIDENCE_ONE,
  });
}

/** One remark where most dotted pairs of a hand are sharper than written. */
function overDotted(ground: RhythmGround, readings: readonly Reading[]): readonly Finding[] {
  return (['right', 'left'] as const).flatMap((hand) => {
    const own = readings.filter(({ figure }) => figure.kind === 'dotted' && figure.hand === hand);
    const over = own.filter(({ figure }) => (figure.shares[0] ?? 0) >= OVER_FROM && (figure.spanTimes ?? 1) <= 1 / SHORTENED);
    if (over.length < HABIT_FIGURES || over.length * 2 <= own.length) return [];
    return over.flatMap(({ figure }) => {
      const visit = ground.visit(figure.stretch, figure.visitIndex);
      const share = figure.shares[0] ?? 0;
      return visit === undefined ? [] : findingOf(ground, {
        kind: 'overDotted', hand, visits: [visit], pairs: figure.pairs, value: share / (1 - share), unit: 'to one', threshold: OVER_FROM / (1 - OVER_FROM), ratio: 1, confidence: CONFIDENCE_OVER,
      });
    });
  });
}
