/**
 * The question: where will fingers stumble: runs, repeated notes, ornaments?
 * Conventions: speeds in whole notes a second, said with "about"; ornaments as note names in order.
 * Method: from the finders of hands. A speed is named only where the score prints a figure for its tempo, and only there a
 * sentence says that time is short. Ornaments of one sign are one pitfall, with at most two of them written out.
 * Source: shapes of ornaments as in handOrnaments.ts; severities are our own rule.
 * It does not tell which of several good ways an ornament should be played; so it says "could".
 */
import { listInWords } from '../base/index.js';
import { handTempo, type HandTempo } from './handTempo.js';
import type { HandPlace, OrnamentSign } from './handTypes.js';
import { barsInWords } from './teachingNotesBars.js';
import { between, greatest, groupsOf, speedInWords, valueInWords } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Of<K extends HandPlace['kind']> = Extract<HandPlace, { kind: K }>;

/** Notes a second: semiquavers at crotchet = 80, and what is quick for anybody. */
const SPEEDS = { brisk: 16 / 3, quick: 13 };

/** Strikes a second from which fingers have to change on one key (inclusive). Common practice, no source. */
const CHANGE_FINGERS = 6;

/** So many different ornaments are written out in one sentence. */
const MOST_WRITTEN_OUT = 2;

/** Signs in words, one and several. */
const SIGN_WORDS: Readonly<Record<OrnamentSign, readonly [string, string]>> = {
  trill: ['trill', 'trills'], mordent: ['mordent', 'mordents'], invertedMordent: ['upper mordent', 'upper mordents'], turn: ['turn', 'turns'],
  invertedTurn: ['inverted turn', 'inverted turns'], delayedTurn: ['turn after the note', 'turns after the note'], appoggiatura: ['appoggiatura', 'appoggiaturas'],
};

/** Drafts of everything about quick fingers. */
export function fingerPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const tempo = handTempo(ground.score);
  const runs = ground.hands.filter((place): place is Of<'fastRun'> => place.kind === 'fastRun');
  const repeats = ground.hands.filter((place): place is Of<'repeatedNotes'> => place.kind === 'repeatedNotes');
  const signs = ground.hands.filter((place): place is Of<'ornament'> => place.kind === 'ornament');
  return [
    ...groupsOf(runs, (place) => `${place.hand} ${String(place.stepwise)}`).map((group) => fastRun(ground, group, tempo)),
    ...groupsOf(repeats, (place) => `${place.hand} ${String(place.chord)}`).map((group) => repeated(group)),
    ...groupsOf(signs, (place) => `${place.hand} ${place.sign}`).map((group) => ornament(ground, group, tempo)),
  ];
}

/** Runs of one hand, stepwise or broken. */
function fastRun(ground: PitfallGround, group: readonly [Of<'fastRun'>, ...Of<'fastRun'>[]], tempo: HandTempo): PitfallDraft {
  const [first] = group;
  const fastest = group.reduce((most, place) => (place.perSecond > most.perSecond ? place : most), first);
  const value = valueInWords(ground, fastest.ticks);
  const what = first.stepwise ? 'runs' : 'broken chords';
  const upTo = group.length > 1 ? 'up to ' : '';
  const printed = tempo.sourceAt(fastest.fromTick) === 'printed';
  // without a printed figure the value stands for the speed: "the runs in semiquavers"
  const subject = `The ${what}${value === null || printed ? '' : ` in ${value}s`}`;
  const speed = printed ? ` go at ${upTo}${speedInWords(fastest.perSecond)} in the marked tempo, and` : '';
  return {
    kind: 'fastRun',
    hand: first.hand,
    spots: group,
    severity: 0.3 + 0.6 * between(fastest.perSecond, SPEEDS.brisk, SPEEDS.quick),
    sentence: `${subject}${speed} will hurry or turn uneven where the ${first.stepwise ? 'thumb passes' : 'hand shifts'}.`,
    practise: first.stepwise
      ? 'Start at half speed in groups that end on the next beat, then join the groups.'
      : 'Block each group as a chord first, then play it in rhythm, moving the hand as one.',
  };
}

/** Repeated notes of one hand. */
function repeated(group: readonly [Of<'repeatedNotes'>, ...Of<'repeatedNotes'>[]]): PitfallDraft {
  const [{ hand, chord }] = group;
  const speed = greatest(group, (place) => place.perSecond);
  return {
    kind: 'repeatedNotes',
    hand,
    spots: group,
    severity: 0.2 + 0.6 * between(speed, 4, 10),
    sentence: chord
      ? 'The same chord comes again and again in quick time, and the wrist will stiffen until notes fail to speak.'
      : 'The same key comes again and again in quick time, and some strikes will not speak.',
    practise: chord || speed < CHANGE_FINGERS
      ? 'Stay close to the keys and let them rise only as far as they must.'
      : 'Change fingers on the key, 3 2 1 or 4 3 2 1, from the first reading on.',
  };
}

/** Ornaments of one sign and hand. */
function ornament({ score, language }: PitfallGround, group: readonly [Of<'ornament'>, ...Of<'ornament'>[]], tempo: HandTempo): PitfallDraft {
  const [first] = group;
  const shapes = groupsOf(group, (place) => `${place.names.join(' ')}${String(place.goesOn)}`);
  const written = ([{ names, goesOn }]: readonly [Of<'ornament'>, ...Of<'ornament'>[]]): string => `${names.join(' ')}${goesOn ? ' and on' : ''}`;
  const [one, many] = SIGN_WORDS[first.sign];
  const tight = group.some((place) => !place.fits && tempo.sourceAt(place.fromTick) === 'printed');
  const inBar = ([{ fromBar }]: readonly [Of<'ornament'>, ...Of<'ornament'>[]]): string => barsInWords(score, { fromBar, toBar: fromBar }, language);
  const several = groupsOf(shapes.slice(0, MOST_WRITTEN_OUT), inBar).map((inOne) => `${listInWords(inOne.map(written))} in ${inBar(inOne[0])}`);
  const how = shapes.length === 1 ? written(shapes[0] ?? group) : listInWords(several);
  const subject = group.length === 1 ? `The ${one}` : `The ${many}`;
  return {
    kind: 'ornament',
    hand: first.hand,
    spots: group,
    severity: ORNAMENT_SEVERITY[first.sign] + (tight ? 0.2 : 0),
    sentence: `${subject} will hold up the beat: ${group.length === 1 ? 'it' : 'they'} could go ${how}${tight ? ', and at the marked tempo there is hardly time' : ''}.`,
    practise: first.sign === 'appoggiatura'
      ? 'Lean on the small note for half of the long one, then play the long one softer.'
      : 'Play the bar without the ornament in time, then fit it into that time.',
  };
}

/** How much an ornament holds up. */
const ORNAMENT_SEVERITY: Readonly<Record<OrnamentSign, number>> = {
  trill: 0.6, mordent: 0.45, invertedMordent: 0.45, turn: 0.55, invertedTurn: 0.55, delayedTurn: 0.6, appoggiatura: 0.35,
};
