/**
 * The question: where will a pupil come in wrong, or lose the first beat?
 * Conventions: one draft for each place of the bar and hand; "after a rest" means a silence of at least a beat in that hand.
 * Method: entries after rests, chords after the beat, and bars in which nobody strikes the first beat, from beatEntries.ts.
 * Severity grows where the other hand strikes the very beat that this one must leave out. Our own rule.
 * It does not tell entries on a beat, however long the rest before; those are long rests.
 */
import { word, type Language } from '../base/index.js';
import type { BeatPlace } from './beatTypes.js';
import { groupsOf, theHand } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Entry = Extract<BeatPlace, { kind: 'entryAfterRest' }>;
type EmptyBeat = Extract<BeatPlace, { kind: 'emptyFirstBeat' }>;

/** So many chords after the beat in one bar make a pattern (inclusive). */
const LEAST_AFTER_BEATS = 2;

/** Drafts of everything about coming in. */
export function entryPitfalls({ beats, language }: PitfallGround): readonly PitfallDraft[] {
  const entries = beats.filter((place): place is Entry => place.kind === 'entryAfterRest');
  const empty = beats.filter((place): place is EmptyBeat => place.kind === 'emptyFirstBeat');
  return [
    ...entries.filter((place) => place.opening).slice(0, 1).map((place) => opening(place, language)),
    ...groupsOf(entries.filter((place) => !place.afterBeats && !place.opening), (place) => `${place.hand} ${place.count}`).map(lateEntry),
    ...groupsOf(inPatterns(entries.filter((place) => place.afterBeats)), (place) => place.hand).map(afterBeats),
    ...groupsOf(empty, (place) => place.cause).map(emptyBeat),
  ];
}

/** A piece that begins off the beat. */
function opening(entry: Entry, language: Language): PitfallDraft {
  return {
    kind: 'entryAfterRest',
    hand: entry.hand,
    spots: [entry],
    severity: 0.15,
    sentence: `The piece begins on ${entry.count}, and without a count the ${word('upbeat', language)} will sound like a first beat.`,
    practise: `Count a whole ${word('bar', language)} aloud, then come in.`,
  };
}

/** Entries at one place of the bar. */
function lateEntry(group: readonly [Entry, ...Entry[]]): PitfallDraft {
  const [{ hand, count, counting }] = group;
  // said only where it is true of every place
  const against = group.every((place) => place.otherOnBeat);
  const other = hand === 'right' ? 'left' : 'right';
  return {
    kind: 'entryAfterRest',
    hand,
    spots: group,
    severity: against ? 0.7 : 0.45,
    sentence: against
      ? `After a rest ${theHand(hand)} comes in on ${count}, just after the ${other}, and will be drawn onto the beat with it.`
      : `After a rest ${theHand(hand)} comes in on ${count}, not on the beat, and the rest is easily cut short.`,
    practise: against
      ? `Play the ${other} hand alone and speak the ${hand} hand's entry; then play it where you spoke it.`
      : 'Count the rest aloud, and lift the hand on the beat that stays silent.',
    counting,
  };
}

/** Entries of bars that hold at least two of them. */
function inPatterns(entries: readonly Entry[]): readonly Entry[] {
  return groupsOf(entries, (place) => `${place.hand} ${String(place.fromBar)}`).flatMap((bar) => (bar.length >= LEAST_AFTER_BEATS ? bar : []));
}

/** A hand that answers every beat. */
function afterBeats(group: readonly [Entry, ...Entry[]]): PitfallDraft {
  const [{ hand, counting }] = group;
  const against = group.some((place) => place.otherOnBeat);
  return {
    kind: 'afterBeats',
    hand,
    spots: group,
    severity: against ? 0.5 : 0.35,
    sentence: `${hand === 'left' ? 'The left hand' : 'The right hand'} plays after the beats, and its notes creep forward onto them.`,
    practise: `Tap the beats with the other hand while ${theHand(hand)} answers each of them.`,
    counting,
  };
}

/** Bars whose first beat nobody strikes. */
function emptyBeat(group: readonly [EmptyBeat, ...EmptyBeat[]]): PitfallDraft {
  const [{ cause, counting }] = group;
  const held = cause === 'held';
  return {
    kind: 'emptyFirstBeat',
    hand: 'both',
    spots: group,
    severity: held ? 0.6 : 0.5,
    sentence: held
      ? 'Neither hand strikes the first beat, which is held over, and the next note will come too soon.'
      : 'Both hands are silent on the first beat, and the rest will be cut short.',
    practise: held ? 'Say "one" firmly into the held sound before going on.' : 'Say "one" firmly into the silence, with both hands lifted.',
    counting,
  };
}
