/** Each system of a piece with all that belongs to it: the drawing, links over it, drawers under it. */
import { countInSentence, findBeatPlaces, findHandPlaces, type Analysis, type BeatPlace, type HandPlace, type PedalPlan } from '../analysis/index.js';
import { sentenceCase, type Language } from '../base/index.js';
import { drawPiece, type EngravedBar, type EngravedSystem, type Engraving, type PlanPlace } from '../engrave/index.js';
import type { BarNames, Score } from '../score/index.js';
import { hangerSvg, linkToBar } from './drawerFrame.js';
import { knownLines, type BarGround } from './pieceBar.js';
import { countingView, namesBar, numberedPitfalls } from './pieceRemarks.js';
import { bracketedSections } from './pieceSections.js';
import { barPlan } from './planView.js';
import type { PieceComment, PieceDrawer, PieceSystem, TripView } from './pieceTypes.js';
import { sheetLayers } from './sheets.js';

/** What the systems are made from. */
export interface SystemsGround {
  readonly score: Score;
  readonly engraving: Engraving;
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly language: Language;
  /** Null where the score could not be analysed: then only the engraving is shown. */
  readonly analysis: Analysis | null;
  /** The plan that is shown. */
  readonly plan: PedalPlan;
  readonly trips: readonly TripView[];
  /** Comments by the bar that they begin at. */
  readonly comments: ReadonlyMap<number, readonly PieceComment[]>;
  readonly placesIn: PlacesIn;
  /** Where changes of the plan can be put; empty where nothing could be analysed. */
  readonly planPlaces: readonly PlanPlace[];
}

/** Where the beat hides and what the hands have to do. */
export interface ScorePlaces {
  readonly beats: readonly BeatPlace[];
  readonly hands: readonly HandPlace[];
}

/** Finds both in a score. */
export type PlacesIn = (score: Score) => ScorePlaces;

/** Finds both and remembers them as long as the score itself is kept: on a long piece they take longer than all drawing. */
export function rememberPlaces(): PlacesIn {
  const known = new WeakMap<Score, ScorePlaces>();
  return (score) => {
    const found = known.get(score) ?? { beats: findBeatPlaces(score), hands: findHandPlaces(score) };
    known.set(score, found);
    return found;
  };
}

/** Every system. */
export function pieceSystems(ground: SystemsGround): readonly PieceSystem[] {
  const { score, engraving, names, anchors, analysis, language, plan } = ground;
  const drawing = {
    score,
    sections: analysis === null ? [] : bracketedSections(analysis, language),
    keys: analysis?.keys ?? [],
    harmonies: analysis?.harmonies ?? [],
    pedalPlan: plan,
    planPlaces: ground.planPlaces,
    pitfalls: analysis === null ? [] : numberedPitfalls(analysis, language, score),
  };
  const bars = analysis === null ? null : barGround(ground, analysis);
  return drawPiece(engraving, drawing).map(({ system, drawn }) => ({
    svg: drawn.svg,
    ...sheetLayers(system, { names, anchors, heightPx: drawn.heightPx, loweredPx: drawn.loweredPx }),
    drawers: system.bars.map((bar) => drawerOf(system, bar, { ground, bars })),
  }));
}

/** What is found in the score for the drawers alone. */
function barGround({ score, anchors, language, plan, placesIn }: SystemsGround, analysis: Analysis): BarGround {
  return { score, anchors, language, analysis, plan: plan.entries, ...placesIn(score) };
}

/** One drawer. */
function drawerOf(system: EngravedSystem, bar: EngravedBar, { ground, bars }: { readonly ground: SystemsGround; readonly bars: BarGround | null }): PieceDrawer {
  const { names, anchors } = ground;
  const { barIndex } = bar;
  return {
    anchor: anchors[barIndex] ?? '',
    barIndex,
    title: sentenceCase(names.long(barIndex)),
    hanger: hangerSvg(system, bar),
    previous: linkToBar(barIndex - 1, ground),
    next: linkToBar(barIndex + 1, ground),
    lines: bars === null ? [] : knownLines(bars, barIndex),
    counting: bars === null ? [] : countingsOf(bars, barIndex),
    trips: tripsOf(ground, barIndex),
    comments: ground.comments.get(barIndex) ?? [],
    plan: bars === null || ground.planPlaces.length === 0 ? null : barPlan(ground, ground.planPlaces, barIndex),
  };
}

/** How to count this bar, each way once. */
function countingsOf({ score, language, beats }: BarGround, barIndex: number) {
  const own = beats.flatMap(({ counting, hand }) => (counting?.barIndex === barIndex ? [{ counting, hand }] : []));
  const lines = own.map(({ counting, hand }) => `${hand === 'both' ? 'Both hands' : `${sentenceCase(hand)} hand`}${countInSentence(score, counting, language).replace(/^Count .*?( in \w+)?: /, '$1: ')}`);
  return [...new Set(lines)].map(countingView);
}

/** Pitfalls of this bar. */
function tripsOf({ analysis, trips }: SystemsGround, barIndex: number): readonly TripView[] {
  return trips.filter((_, i) => namesBar(analysis?.pitfalls[i]?.places ?? [], barIndex));
}
