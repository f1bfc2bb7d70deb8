/**
 * The question: where does the beat hide in this piece?
 * Conventions: places in order of time, each with the bars it covers and, where it helps, the line to count them by.
 * Method: one finder an idea; see their files.
 * It does not rank: what a pupil trips over most is for findPitfalls to say.
 */
import type { Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { divisionChanges, metreChanges } from './beatChanges.js';
import { beatContext } from './beatContext.js';
import { crossRhythms } from './beatCross.js';
import { emptyFirstBeats, entriesOffBeat } from './beatEntries.js';
import { hemiolas } from './beatHemiola.js';
import { syncopatedRuns } from './beatOffbeats.js';
import { longRests } from './beatRests.js';
import { tiesAcross } from './beatTies.js';
import type { BeatPlace } from './beatTypes.js';

/** Everything that hides the beat, from the score alone; none for a score without notes. */
export function findBeatPlaces(score: Score, options: { readonly language?: Language } = {}): readonly BeatPlace[] {
  const context = beatContext(score, options.language);
  const finders = [metreChanges, entriesOffBeat, emptyFirstBeats, tiesAcross, syncopatedRuns, crossRhythms, hemiolas, divisionChanges, longRests];
  return finders.flatMap((find) => find(context)).sort((a, b) => a.fromTick - b.fromTick || a.toBar - b.toBar);
}
