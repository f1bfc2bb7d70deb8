/**
 * The question: where will a rhythm be bent out of shape?
 * Conventions: one draft for each ratio of the hands, each pair of divisions and each hand's dots; severity 0-1, by our own rule.
 * Method: two divisions at once or side by side, and dotted pairs that no other hand fills in: where the other hand plays
 * the parts of the beat, it carries the short note. How strictly dots stand against triplets is the teacher's choice, so there
 * the sentence only asks for it.
 * Source: the sayings for three against two and four against three are common in teaching; their rhythm is the common
 * grid of the two divisions (3:2 on six slots at 0 2 3 4, 4:3 on twelve at 0 3 4 6 8 9).
 * It does not tell rhythms that are hard by themselves, in one hand and without change.
 */
import { countInWords } from '../base/index.js';
import { divisionName } from './beatDivisions.js';
import { barMetres, offsetInBar } from './beatMetre.js';
import type { BeatDivision, BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type HandEvent, type OneHand } from './handLines.js';
import { between, groupsOf, valueInWords } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Of<K extends BeatPlace['kind']> = Extract<BeatPlace, { kind: K }>;

/** Fewer dotted pairs than this in a hand are an exception that catches the eye (exclusive). */
const LEAST_DOTTED = 3;

/** Divisions as they are spoken. */
const DIVISION_WORDS: Readonly<Record<BeatDivision, string>> = {
  even: 'even pairs', dotted: 'dotted pairs', triplet: 'triplets', quarters: 'groups of four', duplet: 'pairs', threes: 'threes', lilt: 'dotted figures', other: 'other notes',
};

/** Drafts of everything about divided beats. */
export function rhythmPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const { beats } = ground;
  const crosses = beats.filter((place): place is Of<'crossRhythm'> => place.kind === 'crossRhythm');
  const dots = beats.filter((place): place is Of<'dotsAgainstTriplets'> => place.kind === 'dotsAgainstTriplets');
  const changes = beats.filter((place): place is Of<'divisionChange'> => place.kind === 'divisionChange');
  return [
    ...groupsOf(crosses, (place) => place.ratio.join(':')).map(crossRhythm),
    ...groupsOf(dots, (place) => place.kind).map(dotsAgainstTriplets),
    ...groupsOf(changes, (place) => `${place.hand} ${place.between.join(' ')}`).map(divisionChange),
    ...BOTH_HANDS.flatMap((hand) => dottedPairs(ground, hand) ?? []),
  ];
}

/** One ratio of the hands. */
function crossRhythm(group: readonly [Of<'crossRhythm'>, ...Of<'crossRhythm'>[]]): PitfallDraft {
  const [{ ratio: [right, left] }] = group;
  const quick = right > left ? 'right' : 'left';
  const slow = quick === 'right' ? 'left' : 'right';
  const [more, fewer] = [Math.max(right, left), Math.min(right, left)];
  return {
    kind: 'crossRhythm',
    hand: 'both',
    spots: group,
    severity: 0.5 + 0.4 * between(more * fewer, 6, 20),
    sentence: `The ${quick} hand has ${countInWords(more)} notes to the ${slow} hand's ${countInWords(fewer)}, and one hand will bend to the other.`,
    practise: spokenCross(more, fewer, quick) ?? 'Each hand alone to a steady beat, then together, aiming only at the places where they meet.',
  };
}

/** The sayings of the trade for 3:2 and 4:3, with the order in which the hands come. */
function spokenCross(more: number, fewer: number, quick: OneHand): string | null {
  const slow = quick === 'right' ? 'left' : 'right';
  // onsets on the common grid: 3:2 strikes together, quick, slow, quick; 4:3 together, quick, slow, quick, slow, quick
  if (more === 3 && fewer === 2) return `Tap "nice cup of tea" on the knees: together, ${quick}, ${slow}, ${quick}.`;
  if (more === 4 && fewer === 3) return `Tap "pass the bread and butter" on the knees: together, ${quick}, ${slow}, ${quick}, ${slow}, ${quick}.`;
  return null;
}

/** Dotted pairs against triplets. */
function dotsAgainstTriplets(group: readonly Of<'dotsAgainstTriplets'>[]): PitfallDraft {
  return {
    kind: 'dotsAgainstTriplets',
    hand: 'both',
    spots: group,
    severity: 0.6,
    sentence: 'Dotted pairs stand against triplets, and the short note will fall now with the last of the three, now after it.',
    practise: 'Decide which it shall be in this piece, and keep to it.',
  };
}

/** Two divisions side by side in one hand. */
function divisionChange(group: readonly [Of<'divisionChange'>, ...Of<'divisionChange'>[]]): PitfallDraft {
  const [{ hand, between: [first, second] }] = group;
  return {
    kind: 'divisionChange',
    hand,
    spots: group,
    severity: second === 'triplet' ? 0.65 : 0.5,
    sentence: `${DIVISION_WORDS[second].replace(/^./, (letter) => letter.toUpperCase())} stand beside ${DIVISION_WORDS[first]}, and the one will colour the other.`,
    practise: 'Tap a steady beat with the other hand and speak the rhythm before playing it.',
  };
}

/** The dotted pairs of one hand, where the other hand does not fill them in; null where there are few. */
function dottedPairs({ score, lines, language }: PitfallGround, hand: OneHand): PitfallDraft | null {
  const metres = barMetres(score);
  const others = new Set(lines[hand === 'right' ? 'left' : 'right'].map((event) => event.onsetTick));
  const beatOf = (event: HandEvent): number => {
    const metre = metres[event.barIndex];
    if (metre === undefined) return event.onsetTick;
    const offset = offsetInBar(metre, event.onsetTick);
    return event.onsetTick - (offset % metre.beatTicks);
  };
  // one group a beat: the strikes that fall into it
  const dotted = groupsOf(lines[hand], (event) => `${String(event.barIndex)} ${String(beatOf(event))}`).filter(([first, ...rest]) => {
    const metre = metres[first.barIndex];
    if (metre === undefined || !metre.regular || rest.length !== (metre.compound ? 2 : 1) || !first.notes.some((one) => one.note.dots > 0)) return false;
    const start = beatOf(first);
    // the second or third quarter of the beat struck by the other hand
    const filled = [1, 2].some((quarter) => others.has(start + (quarter * metre.beatTicks) / 4));
    const name = divisionName([first, ...rest].map((event) => event.onsetTick - start), metre.beatTicks, metre.compound);
    return name === 'lilt' || (name === 'dotted' && !filled);
  });
  const [first] = dotted;
  if (first === undefined || dotted.length < LEAST_DOTTED) return null;
  const compound = metres[first[0].barIndex]?.compound === true;
  const unit = valueInWords({ score, language }, (metres[first[0].barIndex]?.beatTicks ?? 0) / (compound ? 6 : 4));
  return {
    kind: 'dottedPairs',
    hand,
    spots: dotted.map(([one]) => ({ fromBar: one.barIndex, toBar: one.barIndex })),
    severity: 0.4 + 0.2 * between(dotted.length, LEAST_DOTTED, 20),
    sentence: compound
      ? 'The short notes of the dotted figures will come too early and too long.'
      : 'The short notes of the dotted pairs will come too early and too long, as if in threes.',
    practise: compound
      ? `Count six ${unit === null ? 'to the beat' : `${unit}s`} and place the short note on the fourth.`
      : `Count four ${unit === null ? 'to the beat' : `${unit}s`} and place the short note on the last.`,
  };
}
