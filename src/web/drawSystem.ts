import { composeSystem, headTicks, laneCurve, laneOnsets, marksFor, remarkMarks, tickPlaces, type ComposedSystem, type CurveLane, type EngravedSystem, type Engraving } from '../engrave/index.js';
import type { BarFacts } from '../measure/index.js';
import type { Reading } from '../pipeline/index.js';
import type { ShownMarks } from './shownMarks.js';

/** What is drawn on the systems of one engraving. */
export interface DrawParts {
  readonly reading: Reading;
  readonly engraving: Engraving;
  /** The visit shown at each bar, by its place in `Score.bars`. */
  readonly shown: ReadonlyMap<number, BarFacts>;
  /** Which slips and remarks are marked. */
  readonly marks: ShownMarks;
  /** The curve that is shown instead of early and late; null for these. */
  readonly curve: CurveLane | null;
}

/** Every system with its pencil marks, and the chosen lane under it. */
export function drawSystems({ reading, engraving, shown, marks: { slips, remarks }, curve }: DrawParts): readonly { readonly system: EngravedSystem; readonly drawn: ComposedSystem }[] {
  const { score, recording, alignment, measures } = reading;
  const material = { score, recording, alignment, measures, shown, marked: slips };
  const ofNotes = marksFor(engraving, material);
  const ofRemarks = remarkMarks(engraving, material, remarks);
  const ticks = headTicks(score);
  return engraving.systems.map((system, i) => ({ system, drawn: composeSystem(system, [...(ofNotes[i] ?? []), ...(ofRemarks[i] ?? [])], [curve === null ? laneOnsets(system, material) : laneCurve(system, tickPlaces(system, score, ticks), curve)]) }));
}
