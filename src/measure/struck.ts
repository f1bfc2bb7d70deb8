/*
 * The notes that were struck, ready for questions of level.
 *
 * Conventions: unfolded ticks; velocities as recorded, and with the player's own trend by register taken off ("levelled",
 *   read at middle C).
 * Method: grace notes are left out (they lean on their main note). The trend is the slope of velocity on pitch within
 *   single bars of single hands, so that neither form nor balance goes into it; it is held between 0 and a quarter of a unit a semitone.
 * Source: velocity tends to rise with pitch (Repp 1996, JASA 100); the bounds are our own rule.
 */
import { groupBy } from '../base/index.js';
import { handOf, HANDS, type Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';

/** Steepest trend (<=) that is taken off, velocity units a semitone. Our own rule: an octave then makes 3 units, what is just heard. */
const STEEPEST_TREND = 0.25;

/** Pitch at which velocities stay as they are: middle C. */
const REGISTER_ORIGIN = 60;

/** A struck note. */
export interface Struck {
  /** Place in `Alignment.pairs`. */
  readonly pair: number;
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  readonly tick: number;
  readonly endTick: number;
  /** Written pitch. */
  readonly midi: number;
  /** Place in `Score.occurrences`. */
  readonly occurrence: number;
  /** Place in `Score.notes`. */
  readonly noteIndex: number;
  readonly velocity: number;
  /** Velocity with the register's trend taken off. */
  readonly levelled: number;
  readonly onsetS: number;
}

/** What one hand struck at one written moment. */
export interface StruckMoment {
  readonly tick: number;
  readonly visitIndex: number;
  readonly onsetS: number;
  /** From low to high. */
  readonly notes: readonly Struck[];
  /** Velocity of the loudest. */
  readonly loudest: number;
}

/** Moments of one hand in one stretch, in written order. */
export type HandMoments = readonly StruckMoment[];

/** All that was struck. */
export interface StruckNotes {
  readonly notes: readonly Struck[];
  /** By stretch of the route. */
  readonly moments: readonly Readonly<Record<Hand, HandMoments>>[];
  readonly registerTrend: number;
}

/** The struck notes of a recording, in order of stretch, written moment and pitch. */
export function struckNotes(piece: Piece): StruckNotes {
  const raw = piece.alignment.pairs.flatMap((_, pair) => struckOf(piece, pair)).sort((a, b) => a.stretch - b.stretch || a.tick - b.tick || a.midi - b.midi);
  const registerTrend = trendOf(raw);
  const notes = raw.map((note) => ({ ...note, levelled: note.velocity - registerTrend * (note.midi - REGISTER_ORIGIN) }));
  const byHand = groupBy(notes, ({ stretch, hand }) => `${stretch} ${hand}`);
  const moments = piece.alignment.route.map((_, stretch) => {
    const [right, left] = HANDS.map((hand) => momentsOf(byHand.get(`${stretch} ${hand}`) ?? []));
    return { right: right ?? [], left: left ?? [] };
  });
  return { notes, moments, registerTrend };
}

/** One note as struck; none for a grace note. */
function struckOf({ score, recording, alignment }: Piece, pair: number): readonly Struck[] {
  const aligned = alignment.pairs[pair];
  if (aligned === undefined) return [];
  const { occurrence, note } = writtenOf(score, aligned.occurrence);
  if (note.grace !== null) return [];
  const { velocity, onsetS } = playedOf(recording, aligned.note);
  const { onsetTick: tick, endTick, midi, visitIndex } = occurrence;
  return [{ pair, stretch: aligned.stretch, visitIndex, hand: handOf(occurrence), tick, endTick, midi, occurrence: occurrence.index, noteIndex: note.index, velocity, levelled: velocity, onsetS }];
}

/** Velocity units a semitone, within bars and hands. */
function trendOf(notes: readonly Struck[]): number {
  let [products, squares] = [0, 0];
  for (const bar of groupBy(notes, ({ stretch, visitIndex, hand }) => `${stretch} ${visitIndex} ${hand}`).values()) {
    const [pitch, velocity] = [meanOf(bar.map(({ midi }) => midi)), meanOf(bar.map((note) => note.velocity))];
    for (const note of bar) {
      products += (note.midi - pitch) * (note.velocity - velocity);
      squares += (note.midi - pitch) ** 2;
    }
  }
  return squares === 0 ? 0 : Math.min(STEEPEST_TREND, Math.max(0, products / squares));
}

/** Notes of one hand, in order, gathered by their written moment. */
function momentsOf(notes: readonly Struck[]): HandMoments {
  return [...groupBy(notes, ({ tick }) => tick).values()].flatMap((chord) => {
    const [first] = chord;
    if (first === undefined) return [];
    return [{ tick: first.tick, visitIndex: first.visitIndex, onsetS: Math.min(...chord.map(({ onsetS }) => onsetS)), notes: chord, loudest: Math.max(...chord.map(({ velocity }) => velocity)) }];
  });
}

/** Mean; 0 of nothing. */
export function meanOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
