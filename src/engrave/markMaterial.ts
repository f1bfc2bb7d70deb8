import type { Pair } from '../align/index.js';
import { groupBy } from '../base/index.js';
import { slipsByVisit, visitKey, type Material, type Slip } from '../judge/index.js';
import { shownVisits } from '../review/index.js';
import type { BarFacts, Measures, OnsetDeviation } from '../measure/index.js';
import type { BarNames, Score, ScoreNote } from '../score/index.js';
import type { Point } from './box.js';
import type { EngravedSystem } from './types.js';

/** What marks and lanes are drawn from. */
export interface MarkMaterial extends Material {
  readonly measures: Measures;
  /** How the bars are called; in British English where left out. */
  readonly names?: BarNames;
  /** The visit shown at each bar, by its place in `Score.bars`; the last try of each where left out. */
  readonly shown?: ReadonlyMap<number, BarFacts>;
  /** Which slips are marked; all of them where left out. */
  readonly marked?: (slip: Slip) => boolean;
  /** The same pairs and onsets by the written bar of their note, for drawing many systems; looked for among all where left out. */
  readonly byBar?: ByBar;
}

/** What was matched and measured, by places in `Score.bars`. */
export interface ByBar {
  readonly pairs: ReadonlyMap<number, readonly Pair[]>;
  readonly onsets: ReadonlyMap<number, readonly OnsetDeviation[]>;
}

/** Sorts pairs and onsets by bars, once for a whole score. */
export function sortedByBar({ score, alignment, measures }: Pick<MarkMaterial, 'score' | 'alignment' | 'measures'>): ByBar {
  const barOf = (pair: Pair | undefined): number => (pair === undefined ? undefined : score.occurrences[pair.occurrence]?.barIndex) ?? -1;
  return { pairs: groupBy(alignment.pairs, barOf), onsets: groupBy(measures.onsets, ({ pair }) => barOf(alignment.pairs[pair])) };
}

/** Pairs that may belong to a system: those of its bars, or all where they are not sorted. */
export function pairsNear({ bars }: EngravedSystem, { alignment, byBar }: MarkMaterial): readonly Pair[] {
  return byBar === undefined ? alignment.pairs : bars.flatMap(({ barIndex }) => byBar.pairs.get(barIndex) ?? []);
}

/** Measured onsets that may belong to a system, in the order they were played. */
export function onsetsNear({ bars }: EngravedSystem, { measures, byBar }: MarkMaterial): readonly OnsetDeviation[] {
  return byBar === undefined ? measures.onsets : bars.flatMap(({ barIndex }) => byBar.onsets.get(barIndex) ?? []).sort((a, b) => a.pair - b.pair);
}

/** One visit shown in a system with its slips. */
export interface ShownBar {
  readonly visit: BarFacts;
  readonly slips: readonly Slip[];
}

/** A written note and its head. */
export interface HeadedNote {
  readonly note: ScoreNote;
  readonly head: Point;
}

/** What one system's marks are made from. */
export interface SystemMaterial {
  readonly material: MarkMaterial;
  readonly system: EngravedSystem;
  readonly heads: ReadonlyMap<string, Point>;
  /** The same heads with their notes. */
  readonly headed: readonly HeadedNote[];
  readonly names: BarNames;
  readonly staveSpacePx: number;
}

/** Which visit each bar shows. */
export function shownOf(material: MarkMaterial): ReadonlyMap<number, BarFacts> {
  return material.shown ?? shownVisits(material.measures.bars, null);
}

/** The shown visits of every bar with their slips, by the bar's place in `Score.bars`. */
export function shownBars(material: MarkMaterial): ReadonlyMap<number, ShownBar> {
  const slips = slipsByVisit(material);
  const { marked = () => true } = material;
  return new Map([...shownOf(material)].map(([barIndex, visit]) => [barIndex, { visit, slips: (slips.get(visitKey(visit.stretch, visit.visitIndex)) ?? []).filter(marked) }]));
}

/** Note-heads of a system by note id. */
export function headsOf(system: EngravedSystem): ReadonlyMap<string, Point> {
  return new Map(system.notes.map(({ id, x, y }) => [id, { x, y }]));
}

/** Notes of a score with a head in a system; `byId` holds all notes of the score. */
export function headedNotes(system: EngravedSystem, byId: ReadonlyMap<string, ScoreNote>): readonly HeadedNote[] {
  return system.notes.flatMap(({ id, x, y }) => {
    const note = byId.get(id);
    return note ? [{ note, head: { x, y } }] : [];
  });
}

/** Notes by id. */
export function notesById({ notes }: Pick<Score, 'notes'>): ReadonlyMap<string, ScoreNote> {
  return new Map(notes.map((note) => [note.id, note]));
}

/** Id in the score of the note an occurrence begins with; empty where there is none. */
export function noteIdOf(material: Pick<Material, 'score'>, occurrence: number | null): string {
  const found = occurrence === null ? undefined : material.score.occurrences[occurrence];
  return found === undefined ? '' : (material.score.notes[found.noteIndex]?.id ?? '');
}

/** What every mark carries so that script can link it: bar, visit and try it belongs to. */
export function visitData(visit: BarFacts): Readonly<Record<string, number>> {
  return { bar: visit.barIndex, visit: visit.visitIndex, attempt: visit.attempt, stretch: visit.stretch };
}
