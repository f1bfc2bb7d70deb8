/**
 * The review as one record: everything the page says and draws, found once from the reading, the engraving and
 * the comments. The template only lays it out; what is said is decided in `review/`, what is drawn in the files
 * beside this one.
 */
import { sentenceCase } from '../base/index.js';
import {
  barNames, differences, routeInWords, shownVisits, strandsOf, tempoInWords, tempoOf, triesInWords, visitsByBar, type Difference,
} from '../review/index.js';
import type { Reading } from '../pipeline/index.js';
import type { FiledRecording } from '../store/index.js';
import { barAnchors } from './anchors.js';
import { barRows, tempoHeading } from './barTable.js';
import { commentView } from './commentViews.js';
import { momentInWords } from './moments.js';
import type { DifferenceView, ReviewFound, ReviewHead, ReviewParts, ReviewView } from './reviewTypes.js';
import { routeView } from './routeView.js';
import { pieceAddress, playerOf, pupilAddress, recordingAddress, type Room } from './shared.js';
import { systemViews } from './systemViews.js';
import { unbroken } from './unbroken.js';

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
  return {
    ...reviewHead(room, recording),
    tempo: sentenceCase(tempoInWords(tempo, room.language)),
    limits: reading.recording.limits.map((limit) => limit.text),
    warnings: score.warnings.map(({ bar, text }) => ({ where: bar === null ? '' : `Bar ${bar}: `, text })),
    route: routeInWords(score, found.strands, { player: playerOf(recording), language: room.language }),
    ...routeView(parts, found),
    defs: engraving.defs,
    fallback: engraving.fallback,
    widthPx: engraving.widthPx,
    systems: systemViews(parts, found),
    differences: differences(found.material).map((difference) => differenceView(reading, found, difference)),
    comments: found.comments,
    removed: found.removed,
    rows: barRows({ visits: found.visits, names: found.names, anchors: found.anchors, unit: tempo.unit }),
    tempoHeading: tempoHeading(tempo.unit, room.language),
    markedTempo: tempo.marked === null ? null : Math.round(tempo.marked),
  };
}

/** Names, tries, slips and comments, found once for all parts of the page. */
function findAll({ room, recording, reading, strand, removed }: ReviewParts): ReviewFound {
  const { score, alignment, measures } = reading;
  const names = barNames(score, room.language);
  const anchors = barAnchors(score);
  const onsets = reading.recording.notes.map((note) => note.onsetS);
  const strands = strandsOf(score, alignment, onsets);
  const visits = visitsByBar(measures.bars);
  const chosen = strand === null ? null : (strands[strand] ?? null);
  const commentParts = { names, anchors, visits, address: recordingAddress(recording), now: room.now() };
  return {
    names, anchors, strands, visits,
    strand: chosen,
    shown: shownVisits(measures.bars, chosen),
    material: { score, recording: reading.recording, alignment, measures },
    tempo: tempoOf(score, measures),
    comments: room.store.comments(recording.id).map((comment) => commentView(comment, commentParts)),
    removed: removed === null ? null : commentView(removed, commentParts),
  };
}

/** One entry of "What differs from the score". */
function differenceView({ score }: Reading, { names, anchors, visits }: ReviewFound, difference: Difference): DifferenceView {
  const tries = triesInWords(difference.visits, visits.get(difference.barIndex) ?? []);
  const ids = difference.slips.flatMap((slip) => {
    const occurrence = slip.occurrence === null ? undefined : score.occurrences[slip.occurrence];
    return occurrence === undefined ? [] : (score.notes[occurrence.noteIndex]?.id ?? []);
  });
  return {
    where: [sentenceCase(names.long(difference.barIndex)), `${difference.hand} hand`, tries].filter((text) => text !== '').join(', '),
    text: unbroken(difference.text),
    href: `#${anchors[difference.barIndex] ?? ''}`,
    barIndex: difference.barIndex,
    notes: [...new Set(ids)].join(' '),
  };
}

