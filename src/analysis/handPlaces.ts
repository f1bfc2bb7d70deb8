/**
 * The question: what do the hands have to do in this piece that hands find hard?
 * Conventions: places in order of time; hands by stave.
 * Method: one finder an idea; see their files.
 * It does not rank: what a pupil trips over most is for findPitfalls to say.
 */
import type { HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { octaveRows, wideChords } from './handChords.js';
import { handContext } from './handContext.js';
import { heldVoices } from './handHeld.js';
import { jumps, positionChanges } from './handJumps.js';
import { meetings } from './handMeetings.js';
import { ornaments } from './handOrnaments.js';
import { runsAndRepeats } from './handRuns.js';
import type { HandPlace } from './handTypes.js';

/** Whose hands they are, and what is known of the harmony. */
export interface HandOptions {
  /** Widest chord that the hand strikes without strain, semitones, 7-24; a ninth where left out, an octave for small hands. */
  readonly span?: number;
  /** Tells the neighbours of ornaments in minor keys. */
  readonly harmony?: HarmonyAnalysis;
}

/** Smallest and widest span that a hand may be said to have, semitones (inclusive). */
const SPANS = { least: 7, most: 24 };

/**
 * Everything that asks something of the hands, from the score alone; none for a score without notes.
 * @throws RangeError for a span that no hand has
 */
export function findHandPlaces(score: Score, options: HandOptions = {}): readonly HandPlace[] {
  const { span } = options;
  if (span !== undefined && !(span >= SPANS.least && span <= SPANS.most)) throw new RangeError(`a hand spans ${SPANS.least} to ${SPANS.most} semitones`);
  const context = handContext(score, options);
  const finders = [wideChords, octaveRows, jumps, positionChanges, meetings, heldVoices, runsAndRepeats, ornaments];
  return finders.flatMap((find) => find(context)).sort((a, b) => a.fromTick - b.fromTick || a.toBar - b.toBar);
}
