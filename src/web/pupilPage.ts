/** A pupil's page as one record: pieces in hand with their recordings through the weeks, what is open, what was said, the next lesson. */
import { randomUUID } from 'node:crypto';
import type { FiledComment, FiledRecording, Pupil } from '../store/index.js';
import { asksView } from './asks.js';
import { deskLines, type DeskLine } from './deskLines.js';
import { barsOf } from './glance.js';
import { nextLesson, WEEKDAYS } from './lessons.js';
import { momentInWords, type MomentWords } from './moments.js';
import { spanOf, stripSvg, type StripSpan, type StripStroke } from './pupilStrip.js';
import { pieceAddress, pupilAddress, recordingAddress, type Room } from './shared.js';
import { titlesOf, type Title } from './titles.js';
import type { PageParts } from './views.js';

/** A comment on the pupil's page. */
export interface SaidView {
  readonly id: number;
  /** "Bars 5–8"; "the whole recording". */
  readonly where: string;
  readonly piece: string;
  readonly text: string;
  readonly when: MomentWords;
  readonly href: string;
  /** Where its forms are sent. */
  readonly action: string;
  readonly settled: boolean;
}

/** A piece with what was sent of it. */
interface PieceView {
  readonly title: string;
  readonly apart: string;
  readonly href: string;
  readonly strip: string;
  readonly lines: readonly DeskLine[];
  readonly open: readonly SaidView[];
}

/** A piece is in hand for so long after its last recording, ms: half a term. */
const IN_HAND_MS = 60 * 86_400_000;

/** Recordings of a piece that stand open; the others are folded. */
export const LINES_OPEN = 3;

/** Comments that stand open; the others are folded. */
export const COMMENTS_OPEN = 8;

/** Builds the page. @param query what the address offers to undo */
export function pupilPage(room: Room, pupil: Pupil, query: Readonly<Record<string, unknown>>): PageParts {
  const recordings = room.store.recordings({ pupilId: pupil.id });
  const said = saidOf(room, pupil, recordings);
  const pieces = piecesOf(room, recordings, said);
  const newest = Math.max(0, ...recordings.map(({ receivedAt }) => Date.parse(receivedAt)));
  const since = Math.min(newest, room.now().getTime()) - IN_HAND_MS;
  const inHand = pieces.filter(({ latest }) => latest >= since);
  const removed = room.store.recordings({ pupilId: pupil.id, removed: true });
  return {
    view: 'pupil',
    title: pupil.name,
    pupil,
    address: pupilAddress(pupil.slug),
    next: nextLesson(pupil, room.now()),
    weekdays: WEEKDAYS,
    asks: asksView(room, pupil, query),
    inHand,
    before: pieces.filter((piece) => !inHand.includes(piece)),
    said,
    linesOpen: LINES_OPEN,
    commentsOpen: COMMENTS_OPEN,
    removed: removed.map((recording) => ({ piece: recording.piece.title, when: momentInWords(recording.receivedAt, room.now()), action: `${recordingAddress(recording)}/restore`, just: query['removed'] === String(recording.id) })),
  };
}

/** Every piece, the one that came last first. */
function piecesOf(room: Room, recordings: readonly FiledRecording[], said: readonly SaidView[]): readonly (PieceView & { readonly latest: number })[] {
  const titles = titlesOf(room);
  const lines = new Map(deskLines(room, recordings, randomUUID).map((line) => [line.id, line]));
  const span = recordings.length === 0 ? null : spanOf(recordings.map(({ receivedAt }) => receivedAt), room.now());
  return [...new Map(recordings.map(({ piece }) => [piece.id, piece])).values()].map((piece) => {
    const own = recordings.filter((recording) => recording.piece.id === piece.id);
    return {
      ...nameOf(piece, titles),
      latest: Date.parse(own[0]?.receivedAt ?? ''),
      strip: span === null ? '' : stripOf(room, own, span),
      lines: own.flatMap(({ id }) => lines.get(id) ?? []),
      open: said.filter((one) => !one.settled && own.some((recording) => one.action.startsWith(`${recordingAddress(recording)}/`))),
    };
  });
}

/** Title and address of a piece. */
function nameOf(piece: FiledRecording['piece'], titles: ReadonlyMap<number, Title>): Pick<PieceView, 'title' | 'apart' | 'href'> {
  return { title: piece.title, apart: titles.get(piece.id)?.apart ?? '', href: pieceAddress(piece.slug) };
}

/** The strip of one piece. */
function stripOf(room: Room, recordings: readonly FiledRecording[], span: StripSpan): string {
  const strokes = recordings.map((recording): StripStroke => {
    const glance = room.glances.at(recording);
    const share = glance === null || glance.bars === 0 ? null : glance.played.flatMap(barsOf).length / glance.bars;
    return { id: recording.id, href: recordingAddress(recording), receivedAt: recording.receivedAt, share, heard: recording.heardAt !== null };
  });
  return stripSvg(strokes, span);
}

/** Every comment, newest first. */
function saidOf(room: Room, pupil: Pupil, recordings: readonly FiledRecording[]): readonly SaidView[] {
  const byId = new Map(recordings.map((recording) => [recording.id, recording]));
  return room.store.commentsOfPupil(pupil.id).flatMap((comment) => {
    const recording = byId.get(comment.recordingId);
    if (recording === undefined) return [];
    const address = recordingAddress(recording);
    return [{
      id: comment.id,
      where: printedBars(comment),
      piece: recording.piece.title,
      text: comment.text,
      when: momentInWords(comment.createdAt, room.now()),
      href: comment.whole ? `${address}#comments` : `${address}#comment-${comment.id}`,
      action: `${address}/comments/${comment.id}`,
      settled: comment.settledAt !== null,
    }];
  });
}

/** The bars as they were printed when the comment was written: no score need be read for that. */
export function printedBars({ whole, bars: [first, last] }: Pick<FiledComment, 'whole' | 'bars'>): string {
  if (whole) return 'the whole recording';
  if (first === last) return /^(0|X\d*|)$/i.test(first) ? 'the upbeat' : `bar ${first}`;
  return `bars ${first}–${last}`;
}
