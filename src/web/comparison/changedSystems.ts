/**
 * The systems of the score in which something changed, drawn twice: as it was and as it is. Faults that are gone are marked
 * above and ticked below; faults that are new are marked below.
 */
import { composeSystem, headTicks, marksFor, remarkMarks, tickPlaces, type EngravedSystem, type Engraving, type MarkedRemark } from '../../engrave/index.js';
import type { Slip } from '../../judge/index.js';
import type { Reading } from '../../pipeline/index.js';
import type { Change, Comparison } from '../../progress/index.js';
import { shownVisits } from '../../review/index.js';
import type { BarNames } from '../../score/index.js';
import { pedalLanes } from '../drawSystem.js';

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

/** A recording with what is marked in it. */
interface Marked {
  readonly reading: Reading;
  readonly remarks: readonly MarkedRemark[];
  /** Written notes of which the slips are marked: places in `Score.notes`. */
  readonly notes: ReadonlySet<number>;
}

/** Every system with a change, in the order of the score. */
export function changedSystems(parts: ComparedParts): readonly ChangedSystem[] {
  const { changes } = parts.comparison;
  const [gone, come] = [changes.filter(({ direction }) => direction === 'better'), changes.filter(({ direction }) => direction === 'worse')];
  const earlier = drawn(parts, { reading: parts.earlier, remarks: gone.map(marked), notes: slipsOf(gone) });
  const later = drawn(parts, { reading: parts.later, remarks: [...come.map(marked), ...gone.map(ticked)], notes: slipsOf(come) });
  return parts.engraving.systems.flatMap((system, i) => {
    const [better, worse] = [gone, come].map((some) => some.filter((change) => isIn(system, change)).map(({ text }) => text));
    if (better === undefined || worse === undefined || better.length + worse.length === 0) return [];
    return [{ better, worse, bars: barsIn(system, parts.names), earlier: earlier[i] ?? '', later: later[i] ?? '' }];
  });
}

/** All systems of one recording with its marks, and with the pedal where a change of it is marked there. */
function drawn({ engraving, names, comparison }: ComparedParts, { reading, remarks, notes }: Marked): readonly string[] {
  const { score, recording, alignment, measures } = reading;
  const shown = shownVisits(measures.bars, null);
  const material = { score, recording, alignment, measures, names, shown, marked: ({ occurrence }: Slip) => notes.has(score.occurrences[occurrence ?? -1]?.noteIndex ?? -1) };
  const [ofNotes, ofRemarks] = [marksFor(engraving, material), remarkMarks(engraving, material, remarks)];
  const ticks = headTicks(score);
  return engraving.systems.map((system, i) => {
    const foot = comparison.changes.some((change) => change.aspect === 'pedal' && isIn(system, change));
    const lanes = foot ? pedalLanes(reading, { system, places: tickPlaces(system, score, ticks), material, remarks }) : [];
    return composeSystem(system, [...(ofNotes[i] ?? []), ...(ofRemarks[i] ?? [])], lanes).svg;
  });
}

/** A change as a mark of its fault. */
function marked({ aspect, kind, hand, places, text }: Change): MarkedRemark {
  return { number: null, aspect, kind, hand, places, text };
}

/** A change as a tick: what was there is gone. */
function ticked(change: Change): MarkedRemark {
  return { ...marked(change), kind: 'praise' };
}

/** Notes of which the slips are marked. */
function slipsOf(changes: readonly Change[]): ReadonlySet<number> {
  return new Set(changes.filter(({ aspect }) => aspect === 'notes').flatMap(({ places }) => places.flatMap(({ notes }) => notes)));
}

/** True where a change touches a system. */
function isIn({ bars }: EngravedSystem, { places }: Change): boolean {
  return places.some(({ fromBar, toBar }) => bars.some(({ barIndex }) => barIndex >= fromBar && barIndex <= toBar));
}

/** The bars of a system in words. */
function barsIn({ bars }: EngravedSystem, names: BarNames): string {
  return names.range(bars[0]?.barIndex ?? 0, bars.at(-1)?.barIndex ?? 0);
}
