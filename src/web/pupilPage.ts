/** A pupil's page as one record: pieces in hand with their recordings through the weeks, what is open, what was said, the next lesson. */
import { randomUUID } from 'node:crypto';
import { groupBy } from '../base/index.js';
import type { FiledComment, FiledRecording, Pupil } from '../store/index.js';
import { asksView } from './asks.js';
import { deskLines, rememberGlances, type DeskLine } from './deskLines.js';
import { barsOf, type Glance } from './glance.js';
import { nextLesson, WEEKDAYS } from './lessons.js';
import { momentInWords, type MomentWords } from './moments.js';
import { spanOf, stripSvg, type StripSpan, type StripStroke } from './pupilStrip.js';
import { pieceAddress, pupilAddress, recordingAddress, weeksAddress, type Room } from './shared.js';
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
  /** Where the piece is followed through the weeks; "" for a single recording. */
  readonly weeks: string;
  readonly strip: string;
  readonly lines: readonly DeskLine[];
  /** How many recordings are left out, and the address that shows them too. */
  readonly earlier: number;
  readonly all: string;
  readonly open: readonly SaidView[];
}

/** A piece is in hand for so long after its last recording, ms: half a term. */
const IN_HAND_MS = 60 * 86_400_000;

/** Recordings of a piece on the page; all of them where the address asks for the piece. */
const LINES_OPEN = 4;

/** Comments on the page; all of them where the address asks for them. */
const COMMENTS_OPEN = 12;

/** Builds the page. @param query what the address asks to see in full, or offers to undo */
export function pupilPage(room: Room, pupil: Pupil, query: Readonly<Record<string, unknown>>): PageParts {
  const recordings = room.store.recordings({ pupilId: pupil.id });
  const comments = room.store.commentsOfPupil(pupil.id);
  const newest = Math.max(0, ...recordings.map(({ receivedAt }) => Date.parse(receivedAt)));
  const since = Math.min(newest, room.now().getTime()) - IN_HAND_MS;
  const byPiece = [...groupBy(recordings, ({ piece }) => piece.id).values()];
  const isOpen = ([latest]: readonly FiledRecording[]): boolean => latest !== undefined && (Date.parse(latest.receivedAt) >= since || query['piece'] === latest.piece.slug);
  const inHand = byPiece.filter(isOpen);
  const said = saidOf(room, recordings, query['comments'] === 'all' ? comments : comments.slice(0, COMMENTS_OPEN));
  return {
    view: 'pupil',
    title: pupil.name,
    pupil,
    address: pupilAddress(pupil.slug),
    next: nextLesson(pupil, room.now()),
    weekdays: WEEKDAYS,
    asks: asksView(room, pupil, query),
    inHand: piecesOf(room, inHand, { comments, full: query['piece'] }),
    before: byPiece.filter((own) => !isOpen(own)).flatMap(([latest]) => (latest === undefined ? [] : [{ title: latest.piece.title, href: `?piece=${encodeURIComponent(latest.piece.slug)}` }])),
    said,
    olderComments: comments.length - said.length,
    removed: room.store.recordings({ pupilId: pupil.id, removed: true }).map((recording) => removedView(room, recording, query['removed'])),
  };
}

/** A recording that was taken off, and how it comes back. */
function removedView(room: Room, recording: FiledRecording, just: unknown) {
  return { piece: recording.piece.title, when: momentInWords(recording.receivedAt, room.now()), action: `${recordingAddress(recording)}/restore`, just: just === String(recording.id) };
}

/** Pieces with their recordings, the one that came last first. */
function piecesOf(room: Room, byPiece: readonly (readonly FiledRecording[])[], { comments, full }: { readonly comments: readonly FiledComment[]; readonly full: unknown }): readonly PieceView[] {
  const titles = titlesOf(room);
  const glances = rememberGlances(room);
  const shown = byPiece.map((own) => (full === own[0]?.piece.slug ? own : own.slice(0, LINES_OPEN)));
  const lines = groupBy(deskLines(room, shown.flat(), randomUUID), ({ pieceSlug }) => pieceSlug);
  const span = byPiece.length === 0 ? null : spanOf(byPiece.flat().map(({ receivedAt }) => receivedAt), room.now());
  return byPiece.flatMap((own) => {
    const [latest] = own;
    if (latest === undefined || span === null) return [];
    const ownLines = lines.get(latest.piece.slug) ?? [];
    return [{
      ...nameOf(latest.piece, titles),
      strip: stripOf(own, { span, glances }),
      weeks: own.length > 1 ? weeksAddress(latest) : '',
      lines: ownLines,
      earlier: own.length - ownLines.length,
      all: `?piece=${encodeURIComponent(latest.piece.slug)}`,
      open: saidOf(room, own, comments.filter(({ settledAt }) => settledAt === null)),
    }];
  });
}

/** Title and address of a piece. */
function nameOf(piece: FiledRecording['piece'], titles: ReadonlyMap<number, Title>): Pick<PieceView, 'title' | 'apart' | 'href'> {
  return { title: piece.title, apart: titles.get(piece.id)?.apart ?? '', href: pieceAddress(piece.slug) };
}

/** The strip of one piece. */
function stripOf(recordings: readonly FiledRecording[], { span, glances }: { readonly span: StripSpan; readonly glances: (recording: FiledRecording) => Glance | null }): string {
  const strokes = recordings.map((recording): StripStroke => {
    const glance = glances(recording);
    const share = glance === null || glance.bars === 0 ? null : glance.played.flatMap(barsOf).length / glance.bars;
    return { id: recording.id, href: recordingAddress(recording), receivedAt: recording.receivedAt, share, heard: recording.heardAt !== null };
  });
  return stripSvg(strokes, span);
}

/** Comments on some recordings, newest first. */
export function saidOf(room: Room, recordings: readonly FiledRecording[], comments: readonly FiledComment[]): readonly SaidView[] {
  const byId = new Map(recordings.map((recording) => [recording.id, recording]));
  return comments.flatMap((comment) => {
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
