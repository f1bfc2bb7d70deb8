import {
  composeSystem, harmonyAndPlan, headTicks, laneCurve, laneOnsets, marksFor, pedalPlayed, remarkMarks, sortedByBar, tickPlaces,
  type ComposedSystem, type CurveLane, type EngravedSystem, type Engraving, type Lane, type MarkedRemark, type MarkMaterial, type TickPlaces,
} from '../engrave/index.js';
import { listInWords } from '../base/index.js';
import { noteInWords } from '../judge/index.js';
import type { BarFacts, PedalChange, PedalSmear } from '../measure/index.js';
import type { Reading } from '../pipeline/index.js';
import type { BarNames, Score } from '../score/index.js';
import type { ShownMarks } from './shownMarks.js';

/** What is drawn on the systems of one engraving. */
export interface DrawParts {
  readonly reading: Reading;
  readonly engraving: Engraving;
  /** How the bars are called in the titles of marks. */
  readonly names: BarNames;
  /** The visit shown at each bar, by its place in `Score.bars`. */
  readonly shown: ReadonlyMap<number, BarFacts>;
  /** Which slips and remarks are marked. */
  readonly marks: ShownMarks;
  /** The curve that is shown instead of early and late; null for these. */
  readonly curve: CurveLane | null;
}

/** Every system with its pencil marks; under it harmony, pedal plan and foot, and the chosen lane. */
export function drawSystems({ reading, engraving, names, shown, marks: { slips, remarks }, curve }: DrawParts): readonly { readonly system: EngravedSystem; readonly drawn: ComposedSystem }[] {
  const { score, recording, alignment, measures } = reading;
  const material = { score, recording, alignment, measures, names, shown, marked: slips, byBar: sortedByBar({ score, alignment, measures }) };
  const ofNotes = marksFor(engraving, material);
  const ofRemarks = remarkMarks(engraving, material, remarks);
  const ticks = headTicks(score);
  return engraving.systems.map((system, i) => {
    const places = tickPlaces(system, score, ticks);
    const chosen = curve === null ? laneOnsets(system, material) : laneCurve(system, places, curve);
    const marks = [...(ofNotes[i] ?? []), ...(ofRemarks[i] ?? [])];
    return { system, drawn: composeSystem(system, marks, [...pedalLanes(reading, { system, places, material, remarks }), chosen]) };
  });
}

/** What the pedal of one system is drawn from. */
interface PedalDrawing {
  readonly system: EngravedSystem;
  readonly places: TickPlaces;
  readonly material: MarkMaterial;
  readonly remarks: readonly MarkedRemark[];
}

/** Harmony, plan and foot; nothing where the recording has no pedal. */
export function pedalLanes({ score, recording, analysis }: Reading, { system, places, material, remarks }: PedalDrawing): readonly Lane[] {
  if (recording.sustain.length === 0) return [];
  return [harmonyAndPlan(analysis.harmonies, analysis.pedalPlan, places), pedalPlayed(system, material, (change) => ({ title: stillSounding(score, change), number: numberAt(score, remarks, change) }))];
}

/** The number of the shown remark that a blur belongs to. */
function numberAt({ order }: Score, remarks: readonly MarkedRemark[], { visitIndex }: Pick<PedalChange, 'visitIndex'>): number | null {
  const barIndex = order[visitIndex]?.barIndex ?? -1;
  return remarks.find(({ aspect, kind, places }) => aspect === 'pedal' && kind !== 'praise' && places.some(({ fromBar, toBar }) => fromBar <= barIndex && toBar >= barIndex))?.number ?? null;
}

/** "C and E of the old harmony ring on for 1.1 seconds"; inside one harmony "C and E ring on for 1.1 seconds". */
function stillSounding({ notes }: Score, heard: PedalChange | PedalSmear): string {
  const { carried, overlapS } = heard;
  const names = carried.flatMap(({ noteIndex }) => (noteIndex === null ? [] : [notes[noteIndex]?.pitch ?? []])).flat().map((pitch) => noteInWords(pitch));
  const old = [...new Set(names)];
  const whose = 'foot' in heard ? ' of the old harmony' : '';
  return `${old.length === 0 ? 'The old harmony' : `${listInWords(old)}${whose}`} ${old.length === 1 || old.length === 0 ? 'rings' : 'ring'} on for ${overlapS.toFixed(1)} seconds`;
}
