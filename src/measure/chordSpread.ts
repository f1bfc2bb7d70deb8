/*
 * The teacher's question: does this chord speak as one, or do its notes come one after another?
 *
 * Conventions: ms from the first to the last note of one hand at one written moment; chords of two notes and more.
 * Method: plain difference of onsets. Rolled means: every note later than the one below it.
 * Source: our own rule. A spread of up to 30 ms is normal where the top note leads (Goebl 2001); Rasch (1979) found 30-50 ms
 *   in trios without raggedness.
 * What it does not tell: whether a roll was meant. Chords with an arpeggio sign, grace notes or ornaments are left out.
 */
import type { Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import type { ChordSpread, LineMoment, VoiceLine } from './rhythmTypes.js';

/** Later than the note below by at least this (>=), ms: shorter steps are the keyboard's own. */
const ROLL_STEP_MS = 10;

/** The chords of every hand of one stretch. @param lines of that stretch */
export function chordSpreads(piece: Piece, lines: readonly VoiceLine[]): readonly ChordSpread[] {
  const chords = new Map<string, { readonly hand: Hand; readonly stretch: number; readonly first: LineMoment; readonly pairs: number[] }>();
  for (const { hand, stretch, moments } of lines) {
    for (const moment of moments) {
      if (moment.onsetS === null) continue;
      const known = chords.get(`${hand} ${moment.tick}`);
      if (known === undefined) chords.set(`${hand} ${moment.tick}`, { hand, stretch, first: moment, pairs: [...moment.pairs] });
      else known.pairs.push(...moment.pairs);
    }
  }
  return [...chords.values()].filter(({ pairs }) => pairs.length > 1).map(({ hand, stretch, first: { tick, visitIndex }, pairs }) => {
    const onsetsS = fromBottom(piece, pairs);
    const spreadMs = (Math.max(...onsetsS) - Math.min(...onsetsS)) * 1000;
    return { stretch, visitIndex, hand, tick, pairs, spreadMs, rolled: isRolled(onsetsS) };
  });
}

/** Onsets from the lowest note up, seconds. */
function fromBottom({ score, recording, alignment }: Piece, pairs: readonly number[]): readonly number[] {
  const notes = pairs.flatMap((index) => alignment.pairs[index] ?? []).map((pair) => ({ midi: writtenOf(score, pair.occurrence).occurrence.midi, onsetS: playedOf(recording, pair.note).onsetS }));
  return notes.sort((a, b) => a.midi - b.midi).map(({ onsetS }) => onsetS);
}

/** True where at least three notes come one after another. */
function isRolled(onsetsS: readonly number[]): boolean {
  return onsetsS.length > 2 && onsetsS.slice(1).every((onsetS, i) => (onsetS - (onsetsS[i] ?? onsetS)) * 1000 >= ROLL_STEP_MS);
}
