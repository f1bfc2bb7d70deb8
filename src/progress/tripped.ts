/*
 * The teacher's question: where does this piece trip people, whatever the analysis expected?
 *
 * Conventions: a pupil counts once, with all recordings of the piece; tripped means a remark on notes, route, rhythm or pulse at
 *   a bar in any of them. Bars are places in `Score.bars`.
 * Source: our own rule. Three pupils who were not tripped say more than the analysis, which has seen none.
 * What it does not tell: who will be tripped next. Few pupils are few.
 */

/** One pupil's experience with a piece. */
export interface PieceHistory {
  /** Bars that were played in some recording. */
  readonly played: ReadonlySet<number>;
  /** Bars that tripped the pupil in some recording. */
  readonly tripped: ReadonlySet<number>;
}

/** How many pupils were tripped, of those who played it. */
export interface Experience {
  readonly tripped: number;
  readonly of: number;
}

/** From so many pupils on (>=) nobody's being tripped makes a prediction sink. */
const LEAST_TO_SINK = 3;

/** A bar that nothing foretold is named from so many pupils on (>=), and from this share of them (>=). */
const LEAST_UNFORESEEN = 2;
const UNFORESEEN_SHARE = 0.5;

/** What pupils met in a stretch of bars; those who played none of it do not count. */
export function experienceAt(histories: readonly PieceHistory[], bars: readonly number[]): Experience {
  const own = histories.filter(({ played }) => bars.some((bar) => played.has(bar)));
  return { tripped: own.filter(({ tripped }) => bars.some((bar) => tripped.has(bar))).length, of: own.length };
}

/** The same things, those that never came true last; else in their order. */
export function sinkUntrue<T>(predicted: readonly T[], experience: (one: T) => Experience): readonly T[] {
  const untrue = (one: T): boolean => {
    const { tripped, of } = experience(one);
    return tripped === 0 && of >= LEAST_TO_SINK;
  };
  return [...predicted.filter((one) => !untrue(one)), ...predicted.filter(untrue)];
}

/** Bars that tripped several pupils though nothing foretold it, in order. */
export function unforeseenBars(histories: readonly PieceHistory[], foretold: ReadonlySet<number>): readonly number[] {
  const bars = [...new Set(histories.flatMap(({ tripped }) => [...tripped]))].sort((a, b) => a - b);
  return bars.filter((bar) => {
    const { tripped, of } = experienceAt(histories, [bar]);
    return !foretold.has(bar) && tripped >= LEAST_UNFORESEEN && tripped >= UNFORESEEN_SHARE * of;
  });
}
