/*
 * Praise for the pedal: clean changes one after the other, where a foot left down would have blurred.
 *
 * What is earned: a run of changes with a lift and a new press each, none with a clash or a hole, over several harmonies (our own rule).
 */
import { placesInWords } from './placeWords.js';
import type { PedalGround } from './pedalGround.js';
import type { FoundPlace, Observation, Praise } from './types.js';
import { sentenceCase } from '../base/index.js';
import type { PedalChange } from '../measure/index.js';
import { GAP_S } from './pedalFoot.js';

/** So many clean changes (>=) in a row are earned. */
const LEAST_CHANGES = 6;

/** So many make the praise as weighty as it gets. */
const MOST_CHANGES = 16;

/** No praise where so many places (>) are remarked on for each change of the run. Our own rule: then clean is the exception. */
const REMARKED_SHARE = 1 / 3;

/** A change with less (<) blur than this is clean, 0-1: nothing of it is heard. */
const CLEAN = 0.08;

/** Weights of the least and of the most. */
const WEIGHT = { least: 0.3, most: 0.6 } as const;

/** The longest run of clean changes, if it is long enough. */
export function cleanPraise({ input, facts, visit }: PedalGround, observations: readonly Observation[]): readonly Praise[] {
  const runs: PedalChange[][] = [[]];
  for (const change of facts.changes.filter(({ harmony }) => harmony !== null)) {
    const clean = change.foot === 'changed' && change.blur < CLEAN && change.gapS < GAP_S && visit(change.stretch, change.visitIndex) !== undefined;
    if (clean && runs.at(-1)?.at(-1)?.stretch !== change.stretch && (runs.at(-1)?.length ?? 0) > 0) runs.push([change]);
    else if (clean) runs.at(-1)?.push(change);
    else if ((runs.at(-1)?.length ?? 0) > 0) runs.push([]);
  }
  const longest = runs.reduce((best, run) => (run.length > best.length ? run : best), []);
  const place = longest.length < LEAST_CHANGES ? null : placeOf(longest, (change) => visit(change.stretch, change.visitIndex));
  const remarked = observations.reduce((sum, { places }) => sum + places.length, 0);
  if (place === null || remarked > REMARKED_SHARE * longest.length || observations.some(({ places }) => places.some((other) => other.fromBar <= place.toBar && other.toBar >= place.fromBar && other.pass === place.pass))) return [];
  const share = Math.min(1, (longest.length - LEAST_CHANGES) / (MOST_CHANGES - LEAST_CHANGES));
  return [{ aspect: 'pedal', hand: null, places: [place], weight: WEIGHT.least + share * (WEIGHT.most - WEIGHT.least), text: `${sentenceCase(placesInWords(input, [place]))}: the pedal is clean, changed with every harmony.` }];
}

/** From the first to the last of some changes; null where they do not stand in one pass. */
function placeOf(run: readonly PedalChange[], visit: (change: PedalChange) => { readonly barIndex: number; readonly pass: number; readonly attempt: number } | undefined): FoundPlace | null {
  const [first, last] = [run[0], run.at(-1)];
  const [from, to] = [first === undefined ? undefined : visit(first), last === undefined ? undefined : visit(last)];
  if (first === undefined || from === undefined || to === undefined || from.pass !== to.pass || to.barIndex < from.barIndex) return null;
  return { fromBar: from.barIndex, toBar: to.barIndex, pass: from.pass, attempt: from.attempt, notes: [], startS: first.soundS };
}
