/*
 * The teacher's question: how long do the small notes take, and do they come before the beat or on it?
 *
 * Conventions: one entry for all grace notes before one note of a hand. ms; `beforeMs` positive where the first small note comes
 *   before the other hand strikes, null where it strikes nothing there.
 * Method: plain differences of onsets: from the first small note to the written one, and to the other hand's note at the same tick.
 * Source: our own rule. That an appoggiatura takes half of its note, of a dotted one two thirds, is common practice; the crushed
 *   note (with a stroke) is short.
 * What it does not tell: whether the style asks for them on or before the beat. After-notes of a trill are left out.
 */
import { groupBy } from '../base/index.js';
import type { Pair } from '../align/index.js';
import { handOf } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import { firstAtOrAfter, type PulseLines } from './pulsePoints.js';
import type { GraceGroup } from './rhythmTypes.js';

/** A paired note with what is written for it. */
type Sounded = ReturnType<typeof writtenOf> & { readonly pair: number; readonly onsetS: number; readonly stretch: number };

/** All grace notes that were played, by the note they lead to. @param lines one a stretch of the route */
export function graceGroups(piece: Piece, lines: readonly PulseLines[]): readonly GraceGroup[] {
  const sounded = piece.alignment.pairs.map((pair, index) => soundedOf(piece, pair, index));
  const groups = groupBy(sounded, ({ occurrence, note, stretch }) => [stretch, occurrence.staff, note.voice, occurrence.onsetTick].join(' '));
  return [...groups.values()].flatMap((group) => {
    const graces = group.filter(({ note }) => note.grace !== null && !note.grace.after);
    const mains = group.filter(({ note }) => note.grace === null);
    return graces.length === 0 || mains.length === 0 ? [] : [groupOf(graces, mains, lines)];
  });
}

/** A pair with its written note and its time. */
function soundedOf({ score, recording }: Piece, { occurrence, note, stretch }: Pair, pair: number): Sounded {
  return { ...writtenOf(score, occurrence), pair, stretch, onsetS: playedOf(recording, note).onsetS };
}

/** One group; both lists hold at least one note. */
function groupOf(graces: readonly Sounded[], mains: readonly Sounded[], lines: readonly PulseLines[]): GraceGroup {
  const [main] = mains;
  if (main === undefined) throw new RangeError('grace notes lead to a note');
  const { occurrence, stretch } = main;
  const firstS = Math.min(...graces.map(({ onsetS }) => onsetS));
  const mainS = Math.min(...mains.map(({ onsetS }) => onsetS));
  const hand = handOf(occurrence);
  const other = lines[stretch]?.[hand === 'right' ? 'left' : 'right'] ?? [];
  const together = other[firstAtOrAfter(other, occurrence.onsetTick)];
  return {
    stretch, visitIndex: occurrence.visitIndex, hand, tick: occurrence.onsetTick, pairs: [...graces, ...mains].map(({ pair }) => pair), count: graces.length,
    slash: graces.every(({ note }) => note.grace?.slash === true), leadMs: (mainS - firstS) * 1000,
    beforeMs: together?.tick === occurrence.onsetTick ? (together.onsetS - firstS) * 1000 : null,
  };
}
