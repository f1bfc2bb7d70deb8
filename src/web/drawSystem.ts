import {
  composeSystem, harmonyAndPlan, headTicks, laneCurve, laneOnsets, marksFor, pedalPlayed, remarkMarks, sortedByBar, tickPlaces,
  type ComposedSystem, type CurveLane, type EngravedSystem, type Engraving, type Lane, type MarkedRemark, type MarkMaterial, type TickPlaces,
} from '../engrave/index.js';
import { listInWords } from '../base/index.js';
import { noteInWords, type FoundPlace } from '../judge/index.js';
import type { BarFacts, PedalChange, PedalSmear } from '../measure/index.js';
import type { Reading } from '../pipeline/index.js';
import { shownVisits } from '../review/index.js';
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

/** A drawing in which lanes stand under some systems only. */
export interface BriefDrawParts extends Omit<DrawParts, 'curve' | 'shown'> {
  /** True for a system under which harmony, plan and foot are drawn. */
  readonly foot: (system: EngravedSystem) => boolean;
}

/** Every system with its pencil marks; under it harmony, pedal plan and foot, and the chosen lane. */
export function drawSystems({ reading, engraving, names, shown, marks: { slips, remarks }, curve }: DrawParts): readonly DrawnSystem[] {
  return drawn({ reading, engraving, names, shown, marks: { slips, remarks } }, ({ system, places, material }) => {
    const at = places();
    const chosen = curve === null ? laneOnsets(system, material) : laneCurve(system, at, curve);
    return [...pedalLanes(reading, { system, places: at, material, remarks }), chosen];
  });
}

/** Every system with its pencil marks at the last tries, and only where asked for harmony, plan and foot. */
export function drawBriefly({ foot, ...parts }: BriefDrawParts): readonly DrawnSystem[] {
  const { reading, marks: { remarks } } = parts;
  return drawn({ ...parts, shown: shownVisits(reading.measures.bars, null) }, ({ system, places, material }) => (foot(system) ? pedalLanes(reading, { system, places: places(), material, remarks }) : []));
}

/** True where one of these places stands in a system. */
export function isInSystem({ bars }: EngravedSystem, places: readonly FoundPlace[]): boolean {
  return places.some(({ fromBar, toBar }) => bars.some(({ barIndex }) => barIndex >= fromBar && barIndex <= toBar));
}

/** A system and what is drawn of it. */
export interface DrawnSystem {
  readonly system: EngravedSystem;
  readonly drawn: ComposedSystem;
}

/** What the lanes of one system are made from. */
interface LaneGround {
  readonly system: EngravedSystem;
  readonly material: MarkMaterial;
  /** Where ticks stand in it, worked out where a lane needs it. */
  readonly places: () => TickPlaces;
}

/** Every system with its pencil marks and the lanes under it. */
function drawn({ reading, engraving, names, shown, marks: { slips, remarks } }: Omit<DrawParts, 'curve'>, lanes: (ground: LaneGround) => readonly Lane[]): readonly DrawnSystem[] {
  const { score, recording, alignment, measures } = reading;
  const material = { score, recording, alignment, measures, names, shown, marked: slips, byBar: sortedByBar({ score, alignment, measures }) };
  const [ofNotes, ofRemarks] = [marksFor(engraving, material), remarkMarks(engraving, material, remarks)];
  const ticks = headTicks(score);
  return engraving.systems.map((system, i) => {
    const marks = [...(ofNotes[i] ?? []), ...(ofRemarks[i] ?? [])];
    return { system, drawn: composeSystem(system, marks, lanes({ system, material, places: () => tickPlaces(system, score, ticks) })) };
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
function pedalLanes({ score, recording, analysis }: Reading, { system, places, material, remarks }: PedalDrawing): readonly Lane[] {
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
