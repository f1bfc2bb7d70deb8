/**
 * The question: where will a hand arrive late, on a wrong key, or in the other hand's way?
 * Conventions: one draft a hand and kind; distances in the words of the keyboard, times as note values, never in seconds.
 * Method: jumps, crossings, shared keys and moving positions from the finders of hands. A jump is the worse the faster it has to
 * go, a crossing the deeper it reaches. Our own rule.
 * It does not tell which fingers to use; printed fingering is for the page to show.
 */
import { listInWords } from '../base/index.js';
import type { HandPlace } from './handTypes.js';
import { between, distanceInWords, greatest, groupsOf, noteName, valueInWords } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Of<K extends HandPlace['kind']> = Extract<HandPlace, { kind: K }>;

/** Speeds of a hand, semitones a second: there is time to look, and there is hardly time to go. */
const SPEEDS = { slow: 9, quick: 70 };

/** Hands that overlap by less are merely close (exclusive), semitones. */
const REAL_CROSSING = 3;

/** No more keys than this are named. */
const MOST_NAMES = 3;

/** Drafts of everything about places on the keyboard. */
export function travelPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const { hands } = ground;
  const jumps = hands.filter((place): place is Of<'jump'> => place.kind === 'jump');
  const crossings = hands.filter((place): place is Of<'crossing'> => place.kind === 'crossing' && place.semitones >= REAL_CROSSING);
  const keys = hands.filter((place): place is Of<'sharedKey'> => place.kind === 'sharedKey');
  const moves = hands.filter((place): place is Of<'positionChange'> => place.kind === 'positionChange');
  return [
    ...groupsOf(jumps, (place) => place.hand).map((group) => jump(ground, group)),
    ...groupsOf(crossings, (place) => place.crossing).map(crossing),
    ...groupsOf(keys, (place) => place.how).map((group) => sharedKey(ground, group)),
    ...groupsOf(moves, (place) => place.hand).map(moving),
  ];
}

/** Jumps of one hand. */
function jump(ground: PitfallGround, group: readonly [Of<'jump'>, ...Of<'jump'>[]]): PitfallDraft {
  const [first] = group;
  const hardest = group.reduce((most, place) => (place.semitones / place.seconds > most.semitones / most.seconds ? place : most), first);
  const distance = distanceInWords(hardest.semitones);
  const value = valueInWords(ground, hardest.ticks);
  // distance and time are both those of the hardest jump
  const alone = group.length === 1;
  const time = value === null ? '' : ` within a ${value}`;
  const way = alone ? (hardest.up ? ' upwards' : ' downwards') : group.every((place) => place.up) ? ' upwards' : group.every((place) => !place.up) ? ' downwards' : '';
  return {
    kind: 'jump',
    hand: first.hand,
    spots: group,
    severity: between(hardest.semitones / hardest.seconds, SPEEDS.slow, SPEEDS.quick),
    sentence: alone
      ? `The hand jumps ${distance}${way}${time}, and will be late or land beside it.`
      : `The hand has to jump ${group.length === 2 ? 'twice' : 'again and again'}${way}, ${distance}${time} at worst, and the landing will be late or beside the key.`,
    practise: 'Practise the jump alone: move early, be over the keys, look, then play.',
  };
}

/** Crossings of one hand. */
function crossing(group: readonly [Of<'crossing'>, ...Of<'crossing'>[]]): PitfallDraft {
  const [{ crossing: hand }] = group;
  const depth = greatest(group, (place) => place.semitones);
  const beyond = hand === 'left' ? 'The left hand plays above the right' : 'The right hand plays below the left';
  const far = depth >= 12;
  return {
    kind: 'crossing',
    hand,
    spots: group,
    severity: 0.35 + 0.4 * between(depth, REAL_CROSSING, 24),
    sentence: `${beyond}, and ${far ? 'the arm will swing over late' : "the two will get in each other's way"}.`,
    practise: far ? 'Practise the crossing without sound: out and back, eyes on the key to land on.' : 'Settle which hand lies nearer the lid, and let each note go in time for the other hand.',
  };
}

/** Keys that both hands need. */
function sharedKey({ score }: PitfallGround, group: readonly [Of<'sharedKey'>, ...Of<'sharedKey'>[]]): PitfallDraft {
  const [{ how }] = group;
  const names = [...new Set(group.map((place) => noteName(score, place.notes[0])))];
  const which = names.length > MOST_NAMES ? 'the same key' : `the same ${names.length === 1 ? '' : 'key, '}${listInWords(names)}`;
  const held = how === 'held';
  return {
    kind: 'sharedKey',
    hand: 'both',
    spots: group,
    severity: held ? 0.5 : 0.3,
    sentence: held
      ? `One hand has to strike ${which} while the other still has it down, and it will not sound.`
      : `Both hands have ${which} at once and will collide on it.`,
    practise: held ? 'Let the hand that holds it go a little early, so that the key is up in time.' : 'Settle which hand takes it and leave it out in the other.',
  };
}

/** Bars in which a hand keeps moving. */
function moving(group: readonly [Of<'positionChange'>, ...Of<'positionChange'>[]]): PitfallDraft {
  const most = greatest(group, (place) => place.moves);
  const [{ hand }] = group;
  return {
    kind: 'positionChange',
    hand,
    spots: group,
    severity: 0.2 + 0.5 * between(most, 3, 8),
    sentence: 'The hand changes its place again and again within the bar, and the line will break at the changes.',
    practise: 'Play the notes of each position together as a chord, moving from chord to chord; then as written.',
  };
}
