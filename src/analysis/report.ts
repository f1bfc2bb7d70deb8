/** The analysis as it goes out as JSON: printed bar numbers as text, offsets in crotchets from the start of the bar. */
import { harmonyReport, type HarmonyReport, type ReportPlace } from '../harmony/index.js';
import { barAtTick, ticksToCrotchets, type Score } from '../score/index.js';
import type { Analysis, BarSpan, Change, PedalEntry, Pitfall, Remark, ScorePlace, Section, SectionRole } from './types.js';

/** First and last printed bar number. */
type Bars = readonly [first: string, last: string];

/** A section as files name it. */
export interface ReportedSection {
  readonly name: string;
  readonly role: SectionRole;
  readonly bars: Bars;
  /** Counted bars. */
  readonly length: number;
  /** Place in `sections` of what it returns, or null. */
  readonly returnOf: number | null;
  readonly changes: readonly { readonly kind: Change['kind']; readonly bars: Bars; readonly amount: number }[];
}

/** A sentence as files name it. */
export interface ReportedRemark {
  readonly text: string;
  /** First of `places`; null for a sentence about no bar. */
  readonly bars: Bars | null;
  readonly places: readonly Bars[];
}

/** What `analyse --json` says. */
export interface AnalysisReport extends HarmonyReport {
  readonly format: 'barwise-analysis/1';
  readonly title: string;
  /** Printed bar numbers in playing order, repeats written out. */
  readonly order: readonly string[];
  readonly sections: readonly ReportedSection[];
  /** Places in `sections` in playing order. */
  readonly played: readonly number[];
  readonly pitfalls: readonly (Pick<Pitfall, 'kind' | 'hand' | 'bars' | 'weight' | 'sentence' | 'practise' | 'counting'> & { readonly places: readonly { readonly bars: Bars }[] })[];
  readonly pedalPlan: {
    readonly basis: string;
    readonly entries: readonly (Pick<PedalEntry, 'id' | 'kind' | 'source' | 'reason' | 'clearS'> & { readonly from: ReportPlace; readonly to: ReportPlace })[];
  };
  readonly notes: { readonly beforeTeaching: readonly ReportedRemark[]; readonly willTrip: readonly ReportedRemark[]; readonly listenFor: readonly ReportedRemark[] };
}

/** The report of an analysis. */
export function analysisReport(score: Score, analysis: Analysis): AnalysisReport {
  const { key, keys, harmonies, cadences, notes } = analysis;
  const ofHarmony = harmonyReport(score, { globalKey: key, keys, harmonies, cadences, phraseEnds: [] });
  const remark = (one: Remark): ReportedRemark => remarkOf(score, one);
  return {
    format: 'barwise-analysis/1',
    title: score.title,
    order: analysis.order,
    sections: analysis.sections.map((section) => sectionOf(score, section)),
    played: analysis.played,
    ...ofHarmony,
    phrases: analysis.phrases.map((phrase) => ({ from: placeOf(score, phrase.from), to: placeOf(score, phrase.to) })),
    pitfalls: analysis.pitfalls.map(({ kind, hand, bars, weight, sentence, practise, counting, places }) => ({
      kind, hand, bars, weight: Number(weight.toFixed(2)), sentence, practise, counting, places: places.map((place) => ({ bars: place.bars })),
    })),
    pedalPlan: { basis: analysis.pedalPlan.basis, entries: analysis.pedalPlan.entries.map((entry) => pedalOf(score, entry)) },
    notes: { beforeTeaching: notes.beforeTeaching.map(remark), willTrip: notes.willTrip.map(remark), listenFor: notes.listenFor.map(remark) },
  };
}

/** A stretch by its printed numbers. */
function barsOf(score: Score, { fromBar, toBar }: BarSpan): Bars {
  return [score.bars[fromBar]?.number ?? '', score.bars[toBar]?.number ?? ''];
}

/** A section with its changes. */
function sectionOf(score: Score, section: Section): ReportedSection {
  const changes = section.changes.map((change) => ({ kind: change.kind, bars: barsOf(score, change), amount: change.amount }));
  return { name: section.name, role: section.role, bars: barsOf(score, section), length: section.lengthBars, returnOf: section.returnOf, changes };
}

/** A sentence with its bars. */
function remarkOf(score: Score, { text, places }: Remark): ReportedRemark {
  const named = places.map((place) => barsOf(score, place));
  return { text, bars: named[0] ?? null, places: named };
}

/** A place by its printed number. */
function placeOf(score: Score, { barIndex, offset }: Pick<ScorePlace, 'barIndex' | 'offset'>): ReportPlace {
  return { bar: score.bars[barIndex]?.number ?? '', offset };
}

/** An entry of the pedal plan; its end is given in the bar that it falls into. */
function pedalOf(score: Score, { id, kind, source, reason, clearS, barIndex, offset, toTick }: PedalEntry): AnalysisReport['pedalPlan']['entries'][number] {
  const end = barAtTick(score, toTick);
  const to = placeOf(score, { barIndex: end.barIndex, offset: ticksToCrotchets(score, end.offsetTicks) });
  return { id, kind, source, reason, clearS, from: placeOf(score, { barIndex, offset }), to };
}
