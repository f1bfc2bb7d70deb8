/**
 * The review as one record: everything the page says and draws, found once from the reading, the engraving and
 * the comments. The template only lays it out; what is said is decided in `review/`, what is drawn in the files
 * beside this one.
 */
import { sentenceCase } from '../base/index.js';
import { strandsOf } from '../judge/index.js';
import { routeInWords, shownVisits, tempoInWords, tempoOf, visitsByBar } from '../review/index.js';
import { barNames } from '../score/index.js';
import type { Comment, FiledRecording } from '../store/index.js';
import { barAnchors } from './anchors.js';
import { columnsOf, figuresByVisit } from './barColumns.js';
import { barRows, tempoHeading } from './barTable.js';
import { commentView } from './commentViews.js';
import { lanesOf } from './lanes.js';
import { holding } from './decisionsHere.js';
import { marginView } from './margin.js';
import { reviewMessage } from './message.js';
import { dayInWords, momentInWords } from './moments.js';
import { reviewOf } from './reviewOf.js';
import type { ReviewFound, ReviewHead, ReviewParts, ReviewView } from './reviewTypes.js';
import { routeView } from './routeView.js';
import { pieceAddress, playerOf, pupilAddress, recordingAddress, sinceAddress, type Room } from './shared.js';
import { laneLinks, marksLinks } from './shownMarks.js';
import { systemViews } from './systemViews.js';

/** What can be said before the files are read. */
export function reviewHead(room: Room, recording: FiledRecording): ReviewHead {
  return {
    recording,
    when: momentInWords(recording.receivedAt, room.now()),
    address: recordingAddress(recording),
    pupilHref: pupilAddress(recording.pupil.slug),
    pieceHref: pieceAddress(recording.piece.slug),
  };
}

/** Builds the whole page from the records. */
export function reviewView(parts: ReviewParts): ReviewView {
  const { room, recording, reading, engraving } = parts;
  const { score } = reading;
  const found = findAll(parts);
  const { tempo } = found;
  const shown = { address: recordingAddress(recording), marks: parts.marks, lane: parts.lane, attempt: parts.strand === null ? null : parts.strand + 1 };
  return {
    ...reviewHead(room, recording),
    tempo: sentenceCase(tempoInWords(tempo, room.language)),
    limits: found.review.limits,
    warnings: score.warnings.map(({ bar, text }) => ({ where: bar === null ? '' : `Bar ${bar}: `, text })),
    route: routeInWords(score, found.strands, { player: playerOf(recording), language: room.language }),
    ...routeView(parts, found),
    defs: engraving.defs,
    fallback: engraving.fallback,
    widthPx: engraving.widthPx,
    systems: systemViews(parts, found),
    margin: marginView({ score, review: found.review, anchors: found.anchors, language: room.language, decisions: holding(room, recording), newKey: parts.newKey }),
    decision: parts.decision,
    marks: marksLinks(found.review, shown),
    lanes: laneLinks(lanesOf(reading), shown),
    since: sinceView(room, recording),
    comments: found.comments,
    wholeKey: parts.newKey(),
    message: messageOf(recording, found),
    removed: found.removed,
    rows: barRows({ visits: found.visits, names: found.names, anchors: found.anchors, unit: tempo.unit, figures: found.figures }),
    columns: found.columns,
    tempoHeading: tempoHeading(tempo.unit, room.language),
    markedTempo: tempo.marked === null ? null : Math.round(tempo.marked),
  };
}

/** The recording of the same pupil and piece before this one, to be held against it. */
function sinceView(room: Room, recording: FiledRecording): ReviewView['since'] {
  const before = room.store.recordingBefore(recording);
  return before === null ? null : { href: sinceAddress(recording, before), when: momentInWords(before.receivedAt, room.now()) };
}

/** The whole of it in plain words. */
export function messageOf({ pupil, piece, receivedAt }: FiledRecording, { comments, review }: Pick<ReviewFound, 'comments' | 'review'>): string {
  return reviewMessage({ pupil: pupil.name, piece: piece.title, day: dayInWords(receivedAt), comments, review });
}

/** Names, tries, slips and comments, found once for all parts of the page. */
export function findAll({ room, recording, reading, strand, removed }: Pick<ReviewParts, 'room' | 'recording' | 'reading' | 'strand' | 'removed'>): ReviewFound {
  const { score, alignment, measures } = reading;
  const names = barNames(score, room.language);
  const anchors = barAnchors(score);
  const onsets = reading.recording.notes.map((note) => note.onsetS);
  const strands = strandsOf(score, alignment, onsets);
  const visits = visitsByBar(measures.bars);
  const chosen = strand === null ? null : (strands[strand] ?? null);
  const commentParts = { names, anchors, visits, language: room.language, address: recordingAddress(recording), now: room.now(), piece: recording.piece.title, versions: ({ id }: Comment) => room.store.commentVersions(id) };
  const columns = columnsOf(measures, reading.recording.sustain.length > 0);
  return {
    names, anchors, strands, visits,
    strand: chosen,
    shown: shownVisits(measures.bars, chosen),
    material: { score, recording: reading.recording, alignment, measures },
    tempo: tempoOf(score, measures),
    columns,
    figures: figuresByVisit(columns, measures),
    review: reviewOf(room, recording, reading, room.language),
    comments: room.store.comments(recording.id).map((comment) => commentView(comment, commentParts)),
    removed: removed === null ? null : commentView(removed, commentParts),
  };
}

