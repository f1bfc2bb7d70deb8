/**
 * Playing made from the demo pieces, with its truth: any way through the bars by the invented players, then slips of the
 * fingers, all seeded. And how well a matching agrees with a truth.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { alignRecording, type Alignment } from '../../src/align/index.js';
import { seededRandom } from '../../src/base/index.js';
import { pieces, type Piece, type TakeNote } from '../../src/demo/index.js';
import { attemptAt, type Leg } from '../../src/demo/legs.js';
import { play } from '../../src/demo/play.js';
import type { Player } from '../../src/demo/plan.js';
import { findVisit, unfold } from '../../src/demo/visits.js';
import { readScore, type Score } from '../../src/score/index.js';
import { recording, type Key } from './build.js';

/** Bytes of a file of the demo room. */
export function sample(path: string): Uint8Array {
  return readFileSync(fileURLToPath(new URL(`../../sample-recordings/${path}`, import.meta.url)));
}

/** A demo piece as composed and as read. */
export interface DemoPiece {
  readonly piece: Piece;
  readonly score: Score;
}

/** A demo piece by its folder. */
export function demoPiece(slug: string): DemoPiece {
  const piece = pieces.find((each) => each.slug === slug)!;
  return { piece, score: readScore(sample(`${slug}/score.musicxml`), { fileName: 'score.musicxml' }) };
}

/** A written note that was played, or a press that stands for none (`note` null). */
export interface True extends Key {
  readonly note: string | null;
  readonly pass: number;
  readonly attempt: number;
  readonly hand: 'right' | 'left';
}

/** One leg of a way: printed bars, both ends played; how it is played. */
export interface Part {
  readonly from: string;
  readonly to: string;
  /** Pass of the first and of the last bar; 1 unless said. */
  readonly pass?: number;
  readonly toPass?: number;
  /** Share of the last bar that is played, as divisions of the demo pieces (4 to the crotchet); all unless said. */
  readonly breakAt?: number;
  readonly hands?: 'right' | 'left';
  /** Tempo against the player's own. */
  readonly tempo?: number;
  /** Silence before it, seconds; null goes on in time. */
  readonly pauseS?: number | null;
}

/** Plays the parts one after the other. */
export function perform({ piece }: DemoPiece, parts: readonly Part[], by: { player: Player; seed: number }): readonly True[] {
  const order = unfold(piece);
  const legs = parts.map(({ from, to, pass = 1, toPass = 1, breakAt = Infinity, hands, tempo = 1, pauseS = 1.2 }): Leg => {
    const [first, last] = [findVisit(order, from, pass).index, findVisit(order, to, toPass).index];
    return { visits: order.slice(first, last + 1), breakAt, hands: hands ?? 'both', tempo, pauseS };
  });
  const notes = play({ piece, legs, player: by.player, ritardando: true, hairpins: true, random: seededRandom(by.seed) }, 1);
  return notes.map((note) => trueOf(note, attemptAt(legs, note.leg, note.visit)));
}

function trueOf(note: TakeNote, attempt: number): True {
  // a tenth of a millisecond, as recordings have it
  return { onsetS: Math.round(note.onsetS * 10_000) / 10_000, pitch: note.pitch, note: note.written?.id ?? null, pass: note.pass, attempt, hand: note.hand };
}

/** Shares of notes that slip. */
export interface Slips {
  readonly wrong: number;
  readonly missed: number;
  readonly added: number;
}

/** Five in a hundred notes wrong by one or two semitones, three missed, two with a neighbouring key struck along. */
export const SLIPS: Slips = { wrong: 0.05, missed: 0.03, added: 0.02 };

/** Puts slips of the fingers into playing. */
export function slip(notes: readonly True[], shares: Slips, seed: number): readonly True[] {
  const random = seededRandom(seed);
  const beside = (most: number): number => (random() < 0.5 ? -1 : 1) * (1 + Math.floor(random() * most));
  return notes.flatMap((note): readonly True[] => {
    const dice = random();
    if (dice < shares.wrong) return [{ ...note, note: null, pitch: note.pitch + beside(2) }];
    if (dice < shares.wrong + shares.missed) return [];
    if (dice < shares.wrong + shares.missed + shares.added) return [note, { ...note, note: null, pitch: note.pitch + beside(1), onsetS: note.onsetS + 0.02 }];
    return [note];
  });
}

/** How a matching agrees with a truth. */
export interface Agreement {
  /** F = 2PR / (P + R) over pairs, 0-1: a pair is right with the right press, written note and pass. */
  readonly f1: number;
  /** The same over notes played again (attempt 2 and later), the attempt right as well; 1 where there are none on either side. */
  readonly returns: number;
  /** Pairs that are right but for their attempt. */
  readonly wrongAttempts: number;
}

/** Compares an alignment of the notes' recording with their truth. */
export function agreement(score: Score, alignment: Alignment, notes: readonly True[]): Agreement {
  const sorted = [...notes].sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
  const right = alignment.pairs.filter((pair) => {
    const one = sorted[pair.note]!;
    const occurrence = score.occurrences[pair.occurrence]!;
    return one.note === score.notes[occurrence.noteIndex]!.id && one.pass === occurrence.pass;
  });
  const again = right.filter((pair) => pair.attempt >= 2 && pair.attempt === sorted[pair.note]!.attempt).length;
  const claimed = alignment.pairs.filter((pair) => pair.attempt >= 2).length;
  const returned = sorted.filter((one) => one.note !== null && one.attempt >= 2).length;
  return {
    f1: fMeasure(right.length, alignment.pairs.length, sorted.filter((one) => one.note !== null).length),
    returns: claimed + returned === 0 ? 1 : fMeasure(again, claimed, returned),
    wrongAttempts: right.filter((pair) => pair.attempt !== sorted[pair.note]!.attempt).length,
  };
}

/** Matches the notes with the score and compares. */
export function judge(score: Score, notes: readonly True[]): Agreement & { readonly alignment: Alignment } {
  const alignment = alignRecording(score, recording(notes));
  return { alignment, ...agreement(score, alignment, notes) };
}

/** Harmonic mean of precision (right of claimed) and recall (right of wanted). */
export function fMeasure(right: number, claimed: number, wanted: number): number {
  const [precision, recall] = [claimed ? right / claimed : 0, wanted ? right / wanted : 0];
  return precision + recall ? (2 * precision * recall) / (precision + recall) : 0;
}

/** Truth rows of a demo recording; the hand from the note's id. */
export function truthOf(path: string): readonly True[] {
  const [, ...lines] = Buffer.from(sample(path)).toString('utf8').trimEnd().split('\n');
  return lines.flatMap((line): readonly True[] => {
    const [status, note = '', pass, onset = '', pitch, attempt] = line.split('\t');
    if (status === 'missed') return [];
    return [{ onsetS: Number(onset), pitch: Number(pitch), note: status === 'matched' ? note : null, pass: Number(pass), attempt: Number(attempt), hand: note.startsWith('l') ? 'left' : 'right' }];
  });
}
