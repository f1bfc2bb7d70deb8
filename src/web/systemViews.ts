/**
 * Each system of the score with all that belongs to it, in the order in which the page needs it.
 */
import { slipsByVisit } from '../judge/index.js';
import type { CommentView } from './commentViews.js';
import { drawersOf, type DrawerParts } from './drawers.js';
import { drawSystems } from './drawSystem.js';
import { curveOf, type LaneParts } from './lanes.js';
import type { ReviewFound, ReviewParts, SystemView } from './reviewTypes.js';
import { shownMarks } from './shownMarks.js';
import { sheetLayers } from './sheets.js';
import { timeLines } from './timeLine.js';
import { timeLineSvg } from './timeLineSvg.js';

/** Every system: engraving with marks and lane, links over it, drawers under it. */
export function systemViews(parts: ReviewParts, found: ReviewFound): readonly SystemView[] {
  const drawerParts = partsOfDrawers(parts, found);
  return drawSystems({ reading: parts.reading, engraving: parts.engraving, names: found.names, shown: found.shown, marks: shownMarks(parts.reading.score, found.review, parts.marks), curve: curveOf(laneParts(parts, found), parts.lane) }).map(({ system, drawn }) => {
    const links = { names: found.names, anchors: found.anchors, heightPx: drawn.heightPx, loweredPx: drawn.loweredPx };
    return { svg: drawn.svg, ...sheetLayers(system, links), drawers: drawersOf(system, drawerParts) };
  });
}

/** What lanes are made from. */
function laneParts({ room, reading }: ReviewParts, { shown, names, tempo: { unit, marked } }: ReviewFound): LaneParts {
  return { reading, shown, names, unit, marked, language: room.language };
}

/** What all drawers share. */
function partsOfDrawers({ room, reading, removed, newKey }: ReviewParts, found: ReviewFound): DrawerParts {
  const lineOf = timeLines({ score: reading.score, recording: reading.recording, alignment: reading.alignment });
  return {
    score: reading.score,
    names: found.names,
    anchors: found.anchors,
    visits: found.visits,
    slips: slipsByVisit(found.material),
    comments: byFirstBar(found.comments),
    removed: removed === null || found.removed === null ? null : { barIndex: found.removed.barIndex, comment: found.removed },
    unit: found.tempo.unit,
    columns: found.columns,
    figures: found.figures,
    language: room.language,
    timeLine: (visit) => {
      const line = lineOf(visit);
      return line === null ? '' : timeLineSvg(line);
    },
    handsOf: (visit) => reading.alignment.route[visit.stretch]?.hands ?? 'both',
    newKey,
  };
}

/** Comments by the bar they begin at. */
function byFirstBar(comments: readonly CommentView[]): ReadonlyMap<number, readonly CommentView[]> {
  const sorted = new Map<number, CommentView[]>();
  for (const comment of comments) sorted.set(comment.barIndex, [...(sorted.get(comment.barIndex) ?? []), comment]);
  return sorted;
}
