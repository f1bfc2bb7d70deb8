import { groupBy } from '../base/index.js';
import { handOf, type Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';

/** A played note with what is written for it; an ornament's notes share the tick of their sign, an added note has none. */
export interface StretchNote {
  /** Place in `Recording.notes`. */
  readonly note: number;
  readonly onsetS: number;
  readonly releaseS: number;
  /** Unfolded ticks; null where no written note is told for it. */
  readonly tick: number | null;
  readonly endTick: number | null;
  /** Place in `Score.occurrences`. */
  readonly occurrence: number | null;
  /** Place in `Score.notes`. */
  readonly noteIndex: number | null;
  readonly hand: Hand | null;
  readonly grace: boolean;
}

/** All notes by stretch of the route, each in order of time. Notes outside the music are left out. */
export function stretchNotes(piece: Piece): readonly (readonly StretchNote[])[] {
  const { pairs, ornaments, added, route } = piece.alignment;
  const all = [
    ...pairs.map(({ note, occurrence, stretch }) => ({ stretch, played: told(piece, note, occurrence) })),
    ...ornaments.map(({ note, occurrence, stretch }) => ({ stretch, played: { ...told(piece, note, occurrence), grace: true } })),
    ...added.flatMap(({ note, stretch }) => (stretch === null ? [] : [{ stretch, played: untold(piece, note) }])),
  ];
  const byStretch = groupBy(all, ({ stretch }) => stretch);
  return route.map((_, index) => (byStretch.get(index) ?? []).map(({ played }) => played).sort((a, b) => a.onsetS - b.onsetS || a.note - b.note));
}

function told({ score, recording }: Piece, index: number, place: number): StretchNote {
  const { occurrence, note } = writtenOf(score, place);
  const { onsetS, releaseS } = playedOf(recording, index);
  return { note: index, onsetS, releaseS, tick: occurrence.onsetTick, endTick: occurrence.endTick, occurrence: place, noteIndex: note.index, hand: handOf(occurrence), grace: note.grace !== null };
}

function untold({ recording }: Piece, index: number): StretchNote {
  const { onsetS, releaseS } = playedOf(recording, index);
  return { note: index, onsetS, releaseS, tick: null, endTick: null, occurrence: null, noteIndex: null, hand: null, grace: false };
}
