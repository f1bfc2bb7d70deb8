/** The decisions that hold at a review. */
import type { Request } from 'express';
import type { FiledRecording, StoredDecision } from '../store/index.js';
import type { DecisionNow } from './reviewTypes.js';
import type { Room } from './shared.js';

/** The decision that the review's address offers to take back or put back, or null. */
export function decisionNow(room: Room, request: Request, recording: FiledRecording): DecisionNow | null {
  for (const name of ['decided', 'undecided']) {
    const asked = request.query[name];
    if (typeof asked !== 'string' || !/^\d{1,12}$/.test(asked)) continue;
    const known = holding(room, recording).some(({ id }) => id === Number(asked));
    if (name === 'decided' ? known : !known) return { id: Number(asked), removed: name === 'undecided' };
  }
  return null;
}

/** Decisions that hold for a recording. */
export function holding(room: Pick<Room, 'store'>, { pupil, piece }: FiledRecording): readonly StoredDecision[] {
  return room.store.decisionsFor({ pupilId: pupil.id, pieceId: piece.id });
}
