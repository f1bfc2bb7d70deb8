/*
 * The teacher's question: was a tied note held, or struck again?
 *
 * Conventions: one entry a press that strikes a tied note again, in the order of `Alignment.added`.
 * Method: an added press on a key whose last sound began a tie, while that tie is written to sound, near the moment of one of its
 *   further notes.
 * Source: our own rule; that striking tied notes again is a frequent slip of good pianists: Repp (1996).
 * What it does not tell: ties broken by silence; those are lengths.
 */
import { playedOf, writtenOf, type Piece } from './piece.js';
import { momentsOf, momentsOfStretch, type Moments } from './moments.js';
import { handOf } from './hands.js';
import type { RestruckTie } from './holdingTypes.js';
import type { Pair } from '../align/index.js';

/** How far from the tied note's moment (<=) it may be struck again, as a share of the tied note's own length: before or after its half it stands for something else. */
const NEAR_SHARE = 0.5;

/**
 * Every tied note that was struck again.
 * @param moments of this piece, where they are known already
 * @throws RangeError where the alignment is not of this score and recording
 */
export function restruckTies(piece: Piece, moments = momentsOf(piece)): readonly RestruckTie[] {
  const { alignment, recording } = piece;
  const pairOf = new Map(alignment.pairs.map((pair, index) => [pair.note, index]));
  const before = notesBefore(piece);
  return alignment.added.flatMap(({ note, stretch, instead }) => {
    const place = pairOf.get(before.get(note) ?? -1);
    const pair = place === undefined ? undefined : alignment.pairs[place];
    if (place === undefined || pair === undefined || instead || pair.stretch !== stretch) return [];
    const tied = tiedAt(piece, { pair, moments: momentsOfStretch(moments, stretch), atS: playedOf(recording, note).onsetS });
    return tied === null ? [] : [{ pair: place, note, tied }];
  });
}

/** For each performed note, the one before it on the same key. */
function notesBefore({ recording }: Piece): ReadonlyMap<number, number> {
  const last = new Map<number, number>();
  const before = new Map<number, number>();
  for (const { index, pitch } of recording.notes) {
    const earlier = last.get(pitch);
    if (earlier !== undefined) before.set(index, earlier);
    last.set(pitch, index);
  }
  return before;
}

/** The further note of the tie whose moment is nearest to a press, or null where none is near. */
function tiedAt({ score }: Piece, { pair, moments, atS }: { readonly pair: Pair; readonly moments: Moments; readonly atS: number }): number | null {
  const { occurrence } = writtenOf(score, pair.occurrence);
  let tick = occurrence.onsetTick;
  for (const [place, index] of occurrence.tied.entries()) {
    const lengthTicks = score.notes[index]?.lengthTicks ?? 0;
    const [fromS, toS] = [moments(tick, handOf(occurrence)), moments(tick + lengthTicks, handOf(occurrence))];
    tick += lengthTicks;
    if (place === 0 || fromS === null || toS === null || toS <= fromS) continue;
    if (Math.abs(atS - fromS) <= NEAR_SHARE * (toS - fromS)) return index;
  }
  return null;
}
