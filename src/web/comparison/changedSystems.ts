/**
 * The systems of the score in which something changed, drawn twice: as it was and as it is. Faults that are gone are marked
 * above and ticked below; faults that are new are marked below.
 */
import type { EngravedSystem, Engraving, MarkedRemark } from '../../engrave/index.js';
import type { Slip } from '../../judge/index.js';
import type { Reading } from '../../pipeline/index.js';
import type { Change, Comparison } from '../../progress/index.js';
import type { BarNames, Score } from '../../score/index.js';
import { drawBriefly, isInSystem, type DrawnSystem } from '../drawSystem.js';

/** One system as it was played twice. */
export interface ChangedSystem {
  /** What changed in it, the heaviest first. */
  readonly better: readonly string[];
  readonly worse: readonly string[];
  /** "bars 5–8". */
  readonly bars: string;
  readonly earlier: string;
  readonly later: string;
}

/** What the two drawings are made from. */
export interface ComparedParts {
  readonly earlier: Reading;
  readonly later: Reading;
  readonly engraving: Engraving;
  readonly comparison: Comparison;
  readonly names: BarNames;
}

/** Every system with a change, in the order of the score. */
export function changedSystems({ earlier, later, engraving, comparison: { changes }, names }: ComparedParts): readonly ChangedSystem[] {
  const systems = engraving.systems.filter((system) => isInSystem(system, changes.flatMap(({ places }) => places)));
  const [gone, come] = [changes.filter(({ direction }) => direction === 'better'), changes.filter(({ direction }) => direction === 'worse')];
  const ofThePedal = changes.flatMap(({ aspect, places }) => (aspect === 'pedal' ? places : []));
  const draw = (reading: Reading, faults: readonly Change[], ticks: readonly Change[]): readonly DrawnSystem[] => drawBriefly({
    reading, names, engraving: { ...engraving, systems }, marks: { slips: slipsOf(reading.score, faults), remarks: [...faults.map(marked), ...ticks.map(ticked)] }, foot: (system) => isInSystem(system, ofThePedal),
  });
  const [before, after] = [draw(earlier, gone, []), draw(later, come, gone)];
  const said = (system: EngravedSystem, some: readonly Change[]): readonly string[] => some.filter(({ places }) => isInSystem(system, places)).map(({ text }) => text);
  return systems.map((system, i) => ({
    better: said(system, gone), worse: said(system, come), bars: barsIn(system, names), earlier: before[i]?.drawn.svg ?? '', later: after[i]?.drawn.svg ?? '',
  }));
}

/** A change as a mark of its fault. */
function marked({ aspect, kind, hand, places, text }: Change): MarkedRemark {
  return { number: null, aspect, kind, hand, places, text };
}

/** A change as a tick: what was there is gone. */
function ticked(change: Change): MarkedRemark {
  return { ...marked(change), kind: 'praise' };
}

/** Which slips are marked: those at the notes that changed. */
function slipsOf({ occurrences }: Score, changes: readonly Change[]): (slip: Slip) => boolean {
  const notes = new Set(changes.filter(({ aspect }) => aspect === 'notes').flatMap(({ places }) => places.flatMap((place) => place.notes)));
  return ({ occurrence }) => notes.has(occurrences[occurrence ?? -1]?.noteIndex ?? -1);
}

/** The bars of a system in words. */
function barsIn({ bars }: EngravedSystem, names: BarNames): string {
  return names.range(bars[0]?.barIndex ?? 0, bars.at(-1)?.barIndex ?? 0);
}
