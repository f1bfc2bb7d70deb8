/**
 * Signs that last: hairpins, pedal lines, octave lines, dashes after "cresc.". A file gives their ends apart; here
 * they are joined.
 */
import type { Direction } from './types.js';

/** An edge of a stretch; edges of one group belong together. */
export interface Span {
  readonly edge: 'start' | 'stop' | 'change';
  /** Kind of stretch and its number in the file. */
  readonly group: string;
}

/** A mark before it is placed in the piece: what it is, and where it opens or closes a stretch. */
export interface Mark extends Pick<Direction, 'kind' | 'text' | 'value'> {
  readonly span: Span | null;
  /** False for the end of a stretch that has no sign of its own (the closed end of a hairpin). */
  readonly shown: boolean;
}

/** A direction in its place, and the edge it stands for. */
export interface PlacedMark {
  readonly direction: Direction;
  readonly span: Span | null;
  readonly shown: boolean;
}

/** Directions with the ends of their stretches filled in, and those that never ended. */
export interface JoinedSpans {
  readonly directions: readonly Direction[];
  readonly unclosed: readonly Direction[];
}

/**
 * Joins starts with their ends, in order of time. A change, or a second start of the same group, ends the stretch
 * before it. At one moment ends count before starts.
 */
export function joinSpans(marks: readonly PlacedMark[]): JoinedSpans {
  const sorted = marks.toSorted((a, b) => a.direction.onsetTick - b.direction.onsetTick || edgeRank(a) - edgeRank(b));
  const open = new Map<string, number>();
  const untilTicks = new Map<number, number>();
  sorted.forEach(({ direction, span }, i) => {
    if (span === null) return;
    const begun = open.get(span.group);
    if (begun !== undefined) untilTicks.set(begun, direction.onsetTick);
    open.delete(span.group);
    if (span.edge !== 'stop') open.set(span.group, i);
  });
  const unclosed = [...open.values()].flatMap((i) => sorted[i]?.direction ?? []);
  return {
    directions: sorted.flatMap(({ direction, shown }, i) => (shown ? [{ ...direction, untilTick: untilTicks.get(i) ?? null }] : [])),
    unclosed,
  };
}

/** Ends come first at one moment, so that a stretch can end where the next of its group begins. */
function edgeRank(mark: PlacedMark): number {
  return mark.span?.edge === 'stop' ? 0 : 1;
}
