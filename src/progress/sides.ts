/** One recording of a comparison: its judgement, and the tries that count. */
import { groupBy } from '../base/index.js';
import { judgeAll, type FoundPlace, type Judgement, type JudgeInput, type Observation, type ObservedPlace } from '../judge/index.js';
import type { BarFacts } from '../measure/index.js';
import type { Values } from './scatter.js';

/** One recording with its judgement, as far as it is compared. */
export interface Side {
  readonly input: JudgeInput;
  readonly judgement: Judgement;
  /** Last complete tries, "bar:pass" to attempt. */
  readonly tries: ReadonlyMap<string, number>;
  /** Places in `Alignment.pairs` of the last complete tries, by their occurrence. */
  readonly pairs: ReadonlyMap<number, number>;
  /** Places in `Measures.bars` of the last complete tries, by "bar:pass". */
  readonly visits: ReadonlyMap<string, number>;
}

/** One place of a fault, and both recordings: the one that has the fault first. */
export interface Spot {
  readonly clear: Side;
  readonly other: Side;
  readonly observation: Observation;
  readonly place: ObservedPlace;
  /** The same values of both, the faulty recording's first. */
  readonly values: PairedValues;
}

/** Values of two recordings by how they are read, each worked out once, where the first fault needs them. */
export type PairedValues = (read: (side: Side) => Values) => readonly [clear: Values, other: Values];

/** The values of two recordings. */
export function pairedValues(clear: Side, other: Side): PairedValues {
  const known = new Map<(side: Side) => Values, readonly [Values, Values]>();
  return (read) => {
    const pair = known.get(read) ?? ([read(clear), read(other)] as const);
    known.set(read, pair);
    return pair;
  };
}

/** Judges one recording and finds its last tries. */
export function sideOf(input: JudgeInput): Side {
  const tries = lastTries(input.measures.bars);
  const { occurrences } = input.score;
  const counting = input.alignment.pairs.flatMap(({ occurrence, attempt }, index) => {
    const written = occurrences[occurrence];
    return written !== undefined && tries.get(keyOf(written)) === attempt ? [[occurrence, index] as const] : [];
  });
  const visits = input.measures.bars.flatMap((bar, index) => (tries.get(keyOf(bar)) === bar.attempt ? [[keyOf(bar), index] as const] : []));
  return { input, judgement: judgeAll(input), tries, pairs: new Map(counting), visits: new Map(visits) };
}

/** A bar in one pass: "barIndex:pass". */
export function keyOf({ barIndex, pass }: Pick<BarFacts, 'barIndex' | 'pass'>): string {
  return `${barIndex}:${pass}`;
}

/** True where a visit is one to the bars of a place, in its pass. */
export function isVisitIn({ input: { score } }: Side, visitIndex: number, { fromBar, toBar, pass }: FoundPlace): boolean {
  const visit = score.order[visitIndex];
  return visit !== undefined && visit.pass === pass && visit.barIndex >= fromBar && visit.barIndex <= toBar;
}

/** For every bar and pass the last try that played most of it; of none that did, the last. */
function lastTries(bars: readonly BarFacts[]): ReadonlyMap<string, number> {
  return new Map([...groupBy(bars, keyOf)].map(([key, tries]) => {
    const complete = tries.filter(({ played, missed }) => played > missed);
    return [key, (complete.at(-1) ?? tries.at(-1))?.attempt ?? 1];
  }));
}
