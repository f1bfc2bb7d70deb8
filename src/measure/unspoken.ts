/*
 * The teacher's question: did a soft note fail to speak, or was a neighbour struck along?
 *
 * Conventions: one entry a note; places in `Score.notes` and `Recording.notes`.
 * Method: a missed note did not speak where others of its chord in its hand were struck, it is not the top one, and what the hand
 *   plays under its tops in that bar lies in the softer part of the recording. A press is a split note where it comes within 50 ms of
 *   a struck note a semitone or a tone away, clearly softer, and stands for no other note.
 * Source: common practice, no source: a missing inner note in pp "did not speak", a soft neighbour struck along is a "split note".
 * What it does not tell: whether the key was touched at all.
 */
import { median } from 'simple-statistics';
import { firstIndex, groupBy } from '../base/index.js';
import { handOf, type Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import type { RankOf } from './ranks.js';
import type { StruckNotes } from './struck.js';

/** Inner notes are soft where the middle one of the bar ranks under this (<=) in the recording. Our own rule: the softer third. */
const SOFT_RANK = 1 / 3;

/** A neighbour is struck along within this time (<=), seconds: 22 ms is just told apart, 60 ms always (Sapp). */
const ALONG_S = 0.05;

/** Farthest (<=) neighbouring key, semitones. */
const NEIGHBOUR_KEYS = 2;

/** A neighbour struck along is softer by so much (>=), velocity units: three times what is just heard. */
const SOFTER_UNITS = 10;

/** A note that did not speak, or a neighbour of it struck along. */
export interface Unspoken {
  readonly kind: 'silent' | 'split';
  readonly hand: Hand;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Place in `Score.order`. */
  readonly visitIndex: number;
  readonly startS: number;
  /** The written note: the missed one, or the one that the neighbour was struck with. */
  readonly noteIndex: number;
}

/** Notes that did not speak and split notes, silent ones first. `rankOf` ranks velocities. */
export function unspokenNotes(piece: Piece, { notes }: StruckNotes, rankOf: RankOf): readonly Unspoken[] {
  return [...silentNotes(piece, notes, rankOf), ...splitNotes(piece, notes)];
}

/** Missed notes under the top of a soft chord. */
function silentNotes({ score, alignment }: Piece, notes: StruckNotes['notes'], rankOf: RankOf): readonly Unspoken[] {
  const chords = groupBy(notes, ({ stretch, hand, tick }) => `${stretch} ${hand} ${tick}`);
  const inner = groupBy([...chords.values()].flatMap((chord) => (chord.length > 1 ? chord.slice(0, -1) : chord)), ({ stretch, hand, visitIndex }) => `${stretch} ${hand} ${visitIndex}`);
  return alignment.missed.flatMap(({ occurrence: index, stretch }): readonly Unspoken[] => {
    const { occurrence, note } = writtenOf(score, index);
    const hand = handOf(occurrence);
    const chord = chords.get(`${stretch} ${hand} ${occurrence.onsetTick}`) ?? [];
    const [first] = chord;
    const top = chord.some(({ midi }) => midi > occurrence.midi);
    if (first === undefined || !top || note.grace !== null) return [];
    const around = inner.get(`${stretch} ${hand} ${occurrence.visitIndex}`) ?? chord;
    if (rankOf(median(around.map(({ velocity }) => velocity))) > SOFT_RANK) return [];
    return [{ kind: 'silent', hand, stretch, visitIndex: occurrence.visitIndex, startS: first.onsetS, noteIndex: note.index }];
  });
}

/** Presses beside a struck key, at its moment and softer. */
function splitNotes({ recording, alignment }: Piece, notes: StruckNotes['notes']): readonly Unspoken[] {
  const byOnset = [...notes].sort((a, b) => a.onsetS - b.onsetS);
  return alignment.added.flatMap(({ note: index, instead }): readonly Unspoken[] => {
    if (instead) return [];
    const press = playedOf(recording, index);
    const from = firstIndex(byOnset.length, (i) => (byOnset[i]?.onsetS ?? Infinity) >= press.onsetS - ALONG_S);
    const near = byOnset.slice(from, firstIndex(byOnset.length, (i) => (byOnset[i]?.onsetS ?? Infinity) > press.onsetS + ALONG_S, from));
    const beside = near.find(({ midi, velocity, pair }) => {
      const distance = Math.abs((recording.notes[alignment.pairs[pair]?.note ?? -1]?.pitch ?? midi) - press.pitch);
      return distance >= 1 && distance <= NEIGHBOUR_KEYS && velocity - press.velocity >= SOFTER_UNITS;
    });
    return beside === undefined ? [] : [{ kind: 'split', hand: beside.hand, stretch: beside.stretch, visitIndex: beside.visitIndex, startS: press.onsetS, noteIndex: beside.noteIndex }];
  });
}
