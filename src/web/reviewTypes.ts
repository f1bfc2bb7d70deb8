import type { Engraving } from '../engrave/index.js';
import type { Aspect, Material, Strand } from '../judge/index.js';
import type { BarFacts } from '../measure/index.js';
import type { Reading } from '../pipeline/index.js';
import type { Review, TempoFound } from '../review/index.js';
import type { BarNames } from '../score/index.js';
import type { Comment, FiledRecording } from '../store/index.js';
import type { BarColumn, VisitFigures } from './barColumns.js';
import type { BarRow } from './barTable.js';
import type { CommentView } from './commentViews.js';
import type { DrawerView } from './drawers.js';
import type { LaneName } from './lanes.js';
import type { MarginView } from './margin.js';
import type { MomentWords } from './moments.js';
import type { Room } from './shared.js';
import type { MarksLink } from './shownMarks.js';
import type { SheetLayers } from './sheets.js';

/** First lines of every review, also of one that could not be made. */
export interface ReviewHead {
  readonly recording: FiledRecording;
  readonly when: MomentWords;
  readonly address: string;
  readonly pupilHref: string;
  readonly pieceHref: string;
}

/** One system with what is drawn over it and opened under it. */
export interface SystemView extends SheetLayers {
  readonly svg: string;
  readonly drawers: readonly DrawerView[];
}

/** A link that chooses which tries are shown. */
export interface TryLink {
  readonly href: string;
  readonly text: string;
  readonly current: boolean;
}

/** A decision that the address offers to undo. */
export interface DecisionNow {
  readonly id: number;
  /** True where it was just taken back. */
  readonly removed: boolean;
}

/** Everything the review page shows. */
export interface ReviewView extends ReviewHead {
  /** Where this recording is held against the one before it; null for the first. */
  readonly since: { readonly href: string; readonly when: MomentWords } | null;
  readonly tempo: string;
  readonly limits: readonly string[];
  readonly warnings: readonly { readonly where: string; readonly text: string }[];
  readonly route: string;
  readonly shownTry: string;
  readonly tries: readonly TryLink[];
  readonly ribbonWide: string;
  readonly ribbonNarrow: string;
  readonly defs: string;
  readonly fallback: string | null;
  readonly widthPx: number;
  readonly systems: readonly SystemView[];
  readonly margin: MarginView;
  readonly marks: readonly MarksLink[];
  readonly lanes: readonly MarksLink[];
  /** A decision just made or taken back, to be undone; null without. */
  readonly decision: DecisionNow | null;
  readonly comments: readonly CommentView[];
  /** Idempotency key of the form for a comment on the whole recording. */
  readonly wholeKey: string;
  /** The whole review as a message in plain words. */
  readonly message: string;
  readonly removed: CommentView | null;
  readonly rows: readonly BarRow[];
  readonly columns: readonly BarColumn[];
  readonly tempoHeading: string;
  readonly markedTempo: number | null;
}

/** What a review is made from. */
export interface ReviewParts {
  readonly room: Room;
  readonly recording: FiledRecording;
  readonly reading: Reading;
  readonly engraving: Engraving;
  /** The strand that was asked for, counted from 0, or null for the last tries. */
  readonly strand: number | null;
  /** A comment just taken off. */
  readonly removed: Comment | null;
  readonly decision: DecisionNow | null;
  /** The aspect whose marks were asked for; null for what matters. */
  readonly marks: Aspect | null;
  readonly lane: LaneName;
  readonly newKey: () => string;
}

/** What several parts of the page are made from. */
export interface ReviewFound {
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly strands: readonly Strand[];
  /** The strand that is shown, or null for the last tries. */
  readonly strand: Strand | null;
  readonly visits: ReadonlyMap<number, readonly BarFacts[]>;
  readonly shown: ReadonlyMap<number, BarFacts>;
  readonly material: Material;
  readonly tempo: TempoFound;
  /** Figures that are told of every bar. */
  readonly columns: readonly BarColumn[];
  readonly figures: VisitFigures;
  readonly review: Review;
  readonly comments: readonly CommentView[];
  readonly removed: CommentView | null;
}
