import { draftOf, type DraftNote } from './draft.js';
import type { SoundInput } from './types.js';

/** Softest and hardest stroke that a change leads to, 1-127: softer keys of a real piano no longer speak. Common practice, no source. */
const LEAST_VELOCITY = 12;
const MOST_VELOCITY = 124;

/** Where a struck note stands in the score. */
export interface StruckPlace {
  /** Place in `Recording.notes`. */
  readonly note: number;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Place in `Score.occurrences`. */
  readonly occurrence: number;
}

/** Every key press with the written note it played, or is nearest to. */
export function struckPlaces({ alignment }: SoundInput): readonly StruckPlace[] {
  const added = alignment.added.flatMap(({ note, stretch, near }) => (stretch === null || near === null ? [] : [{ note, stretch, occurrence: near }]));
  return [...alignment.pairs, ...alignment.ornaments, ...added].map(({ note, stretch, occurrence }) => ({ note, stretch, occurrence }));
}

/** The notes as played, some of them struck harder or softer by so many velocity units. */
export function withLevels({ recording }: SoundInput, units: ReadonlyMap<number, number>): readonly DraftNote[] {
  return draftOf(recording).map((note) => {
    const change = Math.round(units.get(note.from ?? -1) ?? 0);
    return change === 0 ? note : { ...note, velocity: clamped(note.velocity, change) };
  });
}

/** The new velocity; what was beyond the bounds before is moved no further out. */
function clamped(velocity: number, change: number): number {
  const wanted = velocity + change;
  return change < 0 ? Math.min(velocity, Math.max(LEAST_VELOCITY, wanted)) : Math.max(velocity, Math.min(MOST_VELOCITY, wanted));
}
