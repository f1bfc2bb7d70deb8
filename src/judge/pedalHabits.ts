/*
 * How the foot goes about it all through: said once each, and only where something is heard of it.
 *
 * What is a fault: a pedal that goes down with every chord and so cuts or catches the old one; one that stays down over nearly every
 * change while harmonies run together. Direct pedal after rests, in dances and on accents is right and makes no blur.
 */
import type { PedalHabits } from '../measure/index.js';
import type { Finding } from './types.js';

/** From this share (>=) of presses together with the chord on it is a habit. */
const WITH_THE_CHORD_SHARE = 0.6;

/** From so many (>=) holes and catches on the habit is heard. */
const HEARD_LEAST = 3;

/** At this share (<=) of changes with a lift, of at least so many (>=) reached with the foot down, the pedal is never lifted. */
const NEVER_LIFTED = { share: 0.2, changes: 6 } as const;

/** Findings that a habit explains are told as that habit. */
export function asHabits(findings: readonly Finding[], habits: PedalHabits): readonly Finding[] {
  const never = habits.reachedDown >= NEVER_LIFTED.changes && habits.lifted <= NEVER_LIFTED.share * habits.reachedDown;
  const withChord = habits.withTheChord.measured && habits.withTheChord.value >= WITH_THE_CHORD_SHARE;
  const told = never ? renamed(findings, ['blurred', 'caught', 'smeared'], 'neverLifted') : findings;
  return withChord ? renamed(told, ['gap', 'caught'], 'withTheChord') : told;
}

/** All findings of some kinds under one name, if there are enough. */
function renamed(findings: readonly Finding[], kinds: readonly string[], kind: string): readonly Finding[] {
  const heard = findings.filter((one) => kinds.includes(one.kind)).length;
  return heard < HEARD_LEAST ? findings : findings.map((one) => (kinds.includes(one.kind) ? { ...one, kind } : one));
}
