/**
 * The question: where will the count itself go wrong?
 * Conventions: the place of a change is the first bar of the new time; a hemiola has both its bars, a rest all of them.
 * Method: changes of metre, hemiolas and long rests from the finders of beats. A piece with more than two kinds of change gets
 * one pitfall for all of them. A change of the beat's value is worse than a change of number. Our own rule.
 * It does not tell whether a note value keeps its length over the change; the score's words do, and the teacher reads them.
 */
import { countInWords, word, type TradeWordName } from '../base/index.js';
import type { TimeSignature } from '../score/index.js';
import { isCompound } from './beatMetre.js';
import type { BeatPlace } from './beatTypes.js';
import { between, greatest, groupsOf, theHand } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Of<K extends BeatPlace['kind']> = Extract<BeatPlace, { kind: K }>;

/** Bars of rest that are as hard to count as it gets. */
const VERY_LONG_REST = 8;

/** More changes than this are one pitfall: the piece keeps changing. */
const MOST_SINGLE_CHANGES = 2;

/** Drafts of everything about counting bars. */
export function metrePitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const { beats } = ground;
  const changes = beats.filter((place): place is Of<'metreChange'> => place.kind === 'metreChange');
  const hemiolas = beats.filter((place): place is Of<'hemiola'> => place.kind === 'hemiola');
  const rests = beats.filter((place): place is Of<'longRest'> => place.kind === 'longRest');
  const distinct = groupsOf(changes, ({ from, to }) => `${timeName(from)} ${timeName(to)}`);
  return [
    ...(distinct.length > MOST_SINGLE_CHANGES ? [keepsChanging(changes)] : distinct.map((group) => metreChange(ground, group))),
    ...groupsOf(hemiolas, (place) => place.shape).map(hemiola),
    ...groupsOf(rests, (place) => place.hand).map(longRest),
  ];
}

/** One change of time. */
function metreChange({ language }: PitfallGround, group: readonly [Of<'metreChange'>, ...Of<'metreChange'>[]]): PitfallDraft {
  const [{ from, to, beatChanges, counting }] = group;
  const beats = beatChanges ? `, and the beat from a ${beatName(from, language)} to a ${beatName(to, language)}` : '';
  return {
    kind: 'metreChange',
    hand: 'both',
    spots: group,
    severity: beatChanges ? 0.7 : 0.45,
    sentence: `The time changes from ${timeName(from)} to ${timeName(to)}${beats}; the old count is likely to run on.`,
    practise: 'Count the last bar before it and the first of the new time aloud, then play the two bars alone.',
    counting,
  };
}

/** A piece that changes time again and again. */
function keepsChanging(changes: readonly Of<'metreChange'>[]): PitfallDraft {
  const times = [...new Set(changes.flatMap(({ from, to }) => [timeName(from), timeName(to)]))];
  return {
    kind: 'metreChange',
    hand: 'both',
    spots: changes,
    severity: 0.7,
    sentence: `The time changes ${countInWords(changes.length)} times, between ${times.slice(0, -1).join(', ')} and ${times[times.length - 1] ?? ''}; a count will run on past the change.`,
    practise: 'Write the count over the first bar of each new time, and count across every change aloud.',
  };
}

/** Hemiolas of one shape. */
function hemiola(group: readonly [Of<'hemiola'>, ...Of<'hemiola'>[]]): PitfallDraft {
  const [{ shape, hand }] = group;
  const across = shape === 'acrossTwoBars';
  // both hands in hemiola, or one against the other: either way one matter
  const hands = new Set(group.map((place) => place.hand));
  return {
    kind: 'hemiola',
    hand: hands.size > 1 ? 'both' : hand,
    spots: group,
    severity: 0.65,
    sentence: across
      ? 'Two bars of three become three groups of two, and the bar line between them will be lost or thumped.'
      : 'The bar falls into three equal notes where the ear expects two beats, and the count will stumble.',
    practise: across ? 'Count "1 2, 1 2, 1 2" through the two bars, then the written bars against it.' : 'Count the six units aloud, and play on 1, 3 and 5.',
  };
}

/** Long rests of one hand. */
function longRest(group: readonly [Of<'longRest'>, ...Of<'longRest'>[]]): PitfallDraft {
  const [{ hand }] = group;
  const bars = greatest(group, (place) => place.bars);
  const upTo = group.some((place) => place.bars !== bars) ? 'up to ' : '';
  return {
    kind: 'longRest',
    hand,
    spots: group,
    severity: 0.3 + 0.5 * between(bars, 2, VERY_LONG_REST),
    sentence: `${theHand(hand).replace('the', 'The')} rests for ${upTo}${countInWords(bars)} bars and comes back unprepared.`,
    practise: 'Number the bars of rest in pencil, and have the hand over its keys a bar early.',
  };
}

/** "6/8". */
function timeName({ beats, beatType }: TimeSignature): string {
  return `${String(beats)}/${String(beatType)}`;
}

/** Beats by their length in crotchets. */
const BEATS: ReadonlyMap<number, TradeWordName> = new Map([
  [4, 'semibreve'], [3, 'dottedMinim'], [2, 'minim'], [1.5, 'dottedCrotchet'], [1, 'crotchet'], [0.75, 'dottedQuaver'], [0.5, 'quaver'], [0.25, 'semiquaver'],
]);

/** "dotted crotchet". */
function beatName(time: TimeSignature, language: PitfallGround['language']): string {
  const name = BEATS.get((4 / time.beatType) * (isCompound(time) ? 3 : 1));
  return name === undefined ? 'beat' : word(name, language);
}
