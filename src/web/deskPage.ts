/** The desk as one record: what just happened to files, what waits, what came in, who comes next. */
import { randomUUID } from 'node:crypto';
import type { Request } from 'express';
import type { Pupil } from '../store/index.js';
import { deskLines } from './deskLines.js';
import type { Filed } from './filed.js';
import { namedIn, whoPlays } from './findPupil.js';
import { weekAhead } from './lessons.js';
import { momentInWords } from './moments.js';
import { pieceAddress, pupilAddress, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import type { PageParts } from './views.js';

/** What a page is asked for beside the desk itself. */
export interface DeskAsked {
  readonly filed: readonly Filed[];
  readonly status?: number;
  readonly query?: Request['query'];
}

/** Lines on one page: more than a full evening brings, and quick to look through. */
const LINES_A_PAGE = 40;

/** So many pupils are offered with one tap; all of them stand in a list beside. */
const MOST_LIKELY = 4;

/** The desk, with what became of files that were just sent. */
export function deskPage(room: Room, { filed, status = 200, query = {} }: DeskAsked): PageParts {
  const { store } = room;
  const titles = titlesOf(room);
  const pupils = store.pupils();
  const unheard = query['show'] === 'unheard';
  const after = numberIn(query['after']) ?? 0;
  const recordings = store.recordings({ most: LINES_A_PAGE, after, unheard });
  const all = store.countRecordings({ unheard });
  return {
    view: 'desk',
    title: 'Desk',
    status,
    filed: filed.map((one) => ({ ...one, correct: one.guessed === null ? null : correction(room, one.guessed) })),
    waiting: waitingFiles(room),
    cameIn: deskLines(room, recordings, randomUUID),
    beingRead: room.glances.waiting(),
    unheard,
    notHeard: store.countRecordings({ unheard: true }),
    newer: after === 0 ? null : pageHref(Math.max(0, after - LINES_A_PAGE), unheard),
    older: after + recordings.length < all ? pageHref(after + LINES_A_PAGE, unheard) : null,
    undo: undoOf(room, query),
    days: weekAhead(pupils, store.tallies(), room.now()).map((day) => ({ ...day, pupils: day.pupils.map((coming) => ({ ...coming, href: pupilAddress(coming.pupil.slug) })) })),
    pupils: pupils.map((pupil) => ({ ...pupil, href: pupilAddress(pupil.slug) })),
    pieces: store.pieces().map((piece) => ({ ...piece, apart: titles.get(piece.id)?.apart ?? '', whole: titles.get(piece.id)?.whole ?? piece.title, href: pieceAddress(piece.slug) })),
    invented: pupils.some((pupil) => pupil.invented),
  };
}

/** Address of another page of lines. */
function pageHref(after: number, unheard: boolean): string {
  const asked = [unheard ? 'show=unheard' : '', after === 0 ? '' : `after=${after}`].filter((part) => part !== '');
  return `/${asked.length === 0 ? '' : `?${asked.join('&')}`}#came-in`;
}

/** Files that wait, with the answers that are likely. */
function waitingFiles(room: Room) {
  return room.store.arrivals().map((arrival) => {
    const pieceId = arrival.scoreId === null ? null : room.store.score(arrival.scoreId).pieceId;
    return {
      id: arrival.id,
      file: arrival.fileName,
      line: arrival.line,
      when: momentInWords(arrival.receivedAt, room.now()),
      piece: pieceId === null ? null : (titlesOf(room).get(pieceId)?.whole ?? ''),
      pupil: room.store.pupils().find(({ id }) => id === arrival.pupilId)?.name ?? null,
      likely: likelyPupils(room, arrival.fileName, pieceId),
    };
  });
}

/** Pupils to offer first: those named, then those who have the piece in hand, then the rest by name. */
function likelyPupils(room: Room, fileName: string, pieceId: number | null): readonly Pupil[] {
  const pupils = room.store.pupils();
  const first = [...namedIn(fileName, pupils), ...(pieceId === null ? [] : whoPlays(room, pieceId)), ...pupils];
  return [...new Map(first.map((pupil) => [pupil.id, pupil])).values()].slice(0, MOST_LIKELY);
}

/** What corrects a guess: everybody else who is likely. */
function correction(room: Room, recordingId: number) {
  const recording = room.store.recording(recordingId);
  if (recording === null) return null;
  const others = likelyPupils(room, recording.fileName, recording.piece.id).filter(({ id }) => id !== recording.pupil.id);
  return { action: moveAction(recording.pupil.slug, recordingId), pupil: recording.pupil.name, others };
}

/** Where a recording is given to somebody else. */
function moveAction(slug: string, id: number): string {
  return `${pupilAddress(slug)}/recordings/${id}/move`;
}

/** What was just done and can be undone, from the address. */
function undoOf(room: Room, query: Request['query']) {
  if (query['erased'] === 'yes') return { text: 'Deleted for good: nothing of it is left on this computer.', action: null, fields: [], button: '' };
  const aside = numberIn(query['aside']);
  const waiting = aside === null ? null : room.store.arrival(aside);
  if (waiting !== null) return { text: `${waiting.fileName} was put aside.`, action: `/arrivals/${waiting.id}/back`, fields: [], button: 'put it back' };
  const moved = numberIn(query['moved']);
  const recording = moved === null ? null : room.store.recording(moved);
  const [pupil, piece] = [query['pupil'], query['piece']];
  if (recording !== null && typeof pupil === 'string' && typeof piece === 'string') {
    const fields = [{ name: 'pupil', value: pupil }, { name: 'piece', value: piece }];
    return { text: `Now filed: ${recording.pupil.name}, ${recording.piece.title}.`, action: moveAction(recording.pupil.slug, recording.id), fields, button: 'undo' };
  }
  const removed = numberIn(query['removed']);
  const gone = removed === null ? null : room.store.recording(removed);
  if (gone?.removedAt === null || gone === null) return null;
  return { text: `The recording of ${gone.pupil.name}, ${gone.piece.title}, was taken off.`, action: `${pupilAddress(gone.pupil.slug)}/recordings/${gone.id}/restore`, fields: [{ name: 'back', value: 'desk' }], button: 'put it back' };
}

/** A whole number in an address, or null. */
function numberIn(asked: unknown): number | null {
  return typeof asked === 'string' && /^\d{1,9}$/.test(asked) ? Number(asked) : null;
}
