import { composeSystem, laneOnsets, marksFor, type ComposedSystem, type EngravedSystem, type Engraving } from '../engrave/index.js';
import type { BarFacts } from '../measure/index.js';
import type { Reading } from '../pipeline/index.js';

/** What is drawn on the systems of one engraving. */
export interface DrawParts {
  readonly reading: Reading;
  readonly engraving: Engraving;
  /** The visit shown at each bar, by its place in `Score.bars`. */
  readonly shown: ReadonlyMap<number, BarFacts>;
}

/** Every system with its pencil marks, and the lane of early and late under it. */
export function drawSystems({ reading, engraving, shown }: DrawParts): readonly { readonly system: EngravedSystem; readonly drawn: ComposedSystem }[] {
  const { score, recording, alignment, measures } = reading;
  const material = { score, recording, alignment, measures, onsets: measures.onsets, shown };
  const marks = marksFor(engraving, material);
  return engraving.systems.map((system, i) => ({ system, drawn: composeSystem(system, marks[i] ?? [], [laneOnsets(system, material)]) }));
}
