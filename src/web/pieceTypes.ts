import type { Segment } from './barLinks.js';
import type { BarLink } from './drawerFrame.js';
import type { MomentWords } from './moments.js';
import type { BarPlan, PlanView } from './planView.js';
import type { SheetLayers } from './sheets.js';

/** A sentence of the teaching notes. */
export interface RemarkView {
  readonly segments: readonly Segment[];
  /** Bars that it speaks of, "3-8 12"; empty where it is about none. */
  readonly bars: string;
  /** True where it speaks of the whole piece: no single bar lights it. */
  readonly whole: boolean;
}

/** A pitfall: where, what will happen, what to practise, how to count. */
export interface TripView {
  readonly number: number;
  readonly where: readonly Segment[];
  readonly sentence: string;
  readonly practise: string;
  /** "Count bar 5 in quavers:" and the syllables, struck ones marked; null where it is not counted. */
  readonly counting: CountingView | null;
  readonly bars: string;
  /** "Tripped two of three pupils."; "" where nobody has played it. */
  readonly experience: string;
}

/** A line to count by. */
export interface CountingView {
  readonly lead: string;
  readonly syllables: readonly { readonly text: string; readonly struck: boolean }[];
}

/** One line of a bar's drawer: what kind of thing, and what is known. */
export interface KnownLine {
  readonly term: string;
  readonly items: readonly (readonly Segment[])[];
}

/** A comment on a recording of the piece. */
export interface PieceComment {
  readonly text: string;
  readonly pupil: string;
  readonly href: string;
  readonly when: MomentWords;
}

/** Everything known of one bar, opened under its system. */
export interface PieceDrawer {
  readonly anchor: string;
  readonly barIndex: number;
  readonly title: string;
  /** SVG. */
  readonly hanger: string;
  readonly previous: BarLink | null;
  readonly next: BarLink | null;
  readonly lines: readonly KnownLine[];
  readonly counting: readonly CountingView[];
  readonly trips: readonly TripView[];
  readonly comments: readonly PieceComment[];
  /** What is planned for the foot in this bar, and what can be; null where nothing could be analysed. */
  readonly plan: BarPlan | null;
}

/** One system with what is drawn over it and opened under it. */
export interface PieceSystem extends SheetLayers {
  readonly svg: string;
  readonly drawers: readonly PieceDrawer[];
}

/** A table of the analysis for those who cannot see the drawing. */
export interface PieceTable {
  readonly caption: string;
  readonly headings: readonly string[];
  readonly rows: readonly { readonly bar: string; readonly href: string; readonly cells: readonly string[] }[];
}

/** What is said of the piece in words. */
export interface PieceWords {
  readonly before: readonly RemarkView[];
  readonly trips: readonly TripView[];
  /** Bars that tripped pupils though nothing foretold it, as a sentence taken apart; null for none. */
  readonly unforeseen: RemarkView | null;
  readonly listen: readonly RemarkView[];
  readonly tables: readonly PieceTable[];
}

/** The score as it stands in the page. */
export interface PieceScore {
  readonly widthPx: number;
  readonly defs: string;
  readonly systems: readonly PieceSystem[];
  /** Why it is no engraving; null where it is. */
  readonly fallback: string | null;
}

/** Everything the page of a piece shows of its score. */
export interface PieceView {
  readonly facts: string;
  readonly warnings: readonly { readonly where: string; readonly text: string }[];
  /** Why nothing of the score can be shown; null where it can. */
  readonly problem: string | null;
  /** Why the analysis is missing or thin; null where nothing is missing. */
  readonly missing: string | null;
  readonly score: PieceScore;
  readonly words: PieceWords | null;
  /** Null where nothing could be analysed, or nothing sounds. */
  readonly plan: PlanView | null;
}
