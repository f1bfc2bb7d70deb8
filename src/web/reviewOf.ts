/** The review of a kept recording, as page and desk both take it: with what was said of it and decided for its pupil. */
import type { Language } from '../base/index.js';
import type { Reading } from '../pipeline/index.js';
import { makeReview, PURPOSES, type Review, type ReviewOptions } from '../review/index.js';
import { asDecisions, type FiledRecording } from '../store/index.js';
import { ageAt } from './asks.js';
import { holding } from './decisionsHere.js';
import type { Room } from './shared.js';

/** Makes the review of a recording from its reading; made once as long as nothing else is decided or said of it. */
export function reviewOf(room: Pick<Room, 'store' | 'reviews'>, recording: FiledRecording, reading: Reading, language: Language): Review {
  const decisions = asDecisions(holding(room, recording));
  const options = { ...purposeSaid(recording), age: ageAt(recording), name: firstName(recording.pupil.name) };
  const made = room.reviews.get(reading) ?? new Map<string, Review>();
  const key = JSON.stringify([language, decisions, options]);
  const review = made.get(key) ?? makeReview({ ...reading, language, decisions }, options);
  room.reviews.set(reading, made.set(key, review));
  return review;
}

/** What somebody said that the recording is for. */
function purposeSaid({ purpose: said }: FiledRecording): ReviewOptions {
  const purpose = PURPOSES.find((one) => one === said);
  return purpose === undefined ? {} : { purpose };
}

/** What a pupil is called. */
function firstName(name: string): string {
  return name.split(' ')[0] ?? name;
}
