/*
 * Question: what should a teacher know of a piece before she teaches it?
 * Conventions: each sentence with its bars; at most ten before teaching, six to listen for; said in the order of frame, form, harmony,
 *   hands, however they were ranked.
 * Method: every fact that is there makes a sentence with a weight; the heaviest are kept.
 * Source: the order in which teachers speak of a piece, common practice; the weights are our own rule.
 * What it does not tell: character, history, fingering.
 */
import { formCandidates } from './teachingNotesForm.js';
import { frameCandidates } from './teachingNotesFrame.js';
import type { Candidate, NotesGround } from './teachingNotesGround.js';
import { harmonyCandidates } from './teachingNotesHarmony.js';
import { limitCandidates, nothingToPlay } from './teachingNotesLimits.js';
import { listenCandidates } from './teachingNotesListen.js';
import { textureCandidates } from './teachingNotesTexture.js';
import type { Remark, TeachingNotes } from './teachingNotesTypes.js';

/** Most sentences before teaching, and to listen for. */
const MOST_BEFORE = 10;
const MOST_LISTEN = 6;

/** The teaching notes of a piece; `willTrip` comes from the pitfalls. */
export function teachingNotes(ground: NotesGround, willTrip: readonly Remark[]): TeachingNotes {
  if (ground.sounds.length === 0) return { beforeTeaching: [{ text: nothingToPlay(ground.score), places: [] }], willTrip: [], listenFor: [] };
  const before = [...frameCandidates(ground), ...limitCandidates(ground), ...formCandidates(ground), ...harmonyCandidates(ground), ...textureCandidates(ground)];
  return { beforeTeaching: heaviest(before, MOST_BEFORE), willTrip, listenFor: heaviest(listenCandidates(ground), MOST_LISTEN) };
}

/** The heaviest sentences, in their own order. */
function heaviest(candidates: readonly Candidate[], most: number): readonly Remark[] {
  const kept = new Set(candidates.toSorted((a, b) => b.weight - a.weight).slice(0, most));
  return candidates.filter((one) => kept.has(one)).map(({ text, places }) => ({ text, places: places.map(({ fromBar, toBar }) => ({ fromBar, toBar })) }));
}
