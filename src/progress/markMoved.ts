/** Was a written change of loud and soft made otherwise? */
import type { LevelFacts } from '../measure/index.js';
import { LEVEL_UNITS } from './scatter.js';
import { isVisitIn, type Side, type Spot } from './sides.js';

/** So many standard errors (>=) of the difference are more than scatter. */
const BEYOND_ERROR = 2;

/** What was made of one mark, and how sure that is. */
interface Made {
  readonly made: number;
  readonly errorUnits: number;
}

/** Kinds of remark about marks, and their facts by the mark's place. */
const MARKS: Readonly<Record<string, (levels: LevelFacts) => readonly (Made & { readonly tick: number; readonly visitIndex: number })[]>> = {
  changeNotMade: ({ changes }) => changes,
  hairpinNotMade: ({ hairpins }) => hairpins,
  oneLevel: ({ changes, hairpins }) => [...changes, ...hairpins],
};

/** True where what was made of the marks in the fault's bars differs beyond its error; null where it is no matter of marks. */
export function markMoved({ clear, other, observation, place }: Spot): boolean | null {
  const marks = MARKS[observation.kind];
  const [one, two] = [clear, other].map(levelsOf);
  if (marks === undefined || one === undefined || two === undefined) return null;
  const against = new Map(marks(two).map((mark) => [mark.tick, mark]));
  const here = marks(one).filter(({ visitIndex }) => isVisitIn(clear, visitIndex, place));
  return here.some((mark) => {
    const same = against.get(mark.tick);
    return same !== undefined && Math.abs(mark.made - same.made) >= Math.max(LEVEL_UNITS, BEYOND_ERROR * Math.hypot(mark.errorUnits, same.errorUnits));
  });
}

/** Loud and soft of a recording, where it was measured. */
function levelsOf({ input: { measures: { levels } } }: Side): LevelFacts | undefined {
  return levels.measured ? levels.value : undefined;
}
