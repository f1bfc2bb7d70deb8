/**
 * The question: which chords and rows will a hand not manage as written?
 * Conventions: intervals by the letters of the written notes; several chords of one kind are named by the widest.
 * Method: wide chords and octaves from handChords.ts. What only small hands mind is kept apart and weighs little. Where the
 * other hand can help, the sentence speaks of the stave, since in music of many voices the stave is not the hand.
 * Source: common practice of the trade; severities are our own rule.
 * It does not know the pupil's hand.
 */
import { countInWords } from '../base/index.js';
import type { HandPlace } from './handTypes.js';
import { between, greatest, groupsOf, intervalInWords, noteName } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Of<K extends HandPlace['kind']> = Extract<HandPlace, { kind: K }>;
type Chord = Of<'stretch' | 'smallHandStretch' | 'wideChord'>;

/** Drafts of everything about reach. */
export function reachPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const chords = ground.hands.filter((place): place is Chord => place.kind === 'stretch' || place.kind === 'smallHandStretch' || place.kind === 'wideChord');
  const rows = ground.hands.filter((place): place is Of<'octaves'> => place.kind === 'octaves');
  return [
    ...groupsOf(chords, (place) => `${place.hand} ${place.kind} ${place.kind === 'wideChord' && place.marked ? 'marked' : String(place.helped)}`).map((group) => chord(ground, group)),
    ...groupsOf(rows, (place) => place.hand).map(octaves),
  ];
}

/** Chords of one kind and hand. */
function chord({ score }: PitfallGround, group: readonly [Chord, ...Chord[]]): PitfallDraft {
  const [first] = group;
  const widest = group.reduce((most, place) => (place.semitones > most.semitones ? place : most), first);
  const interval = intervalInWords(score, widest.notes[0], widest.notes[widest.notes.length - 1]);
  const spelled = (place: Chord): string => place.notes.map((note) => noteName(score, note)).join();
  const same = group.every((place) => spelled(place) === spelled(widest));
  const ends = `from ${noteName(score, widest.notes[0])} to ${noteName(score, widest.notes[widest.notes.length - 1])}`;
  const what = same ? `${interval} ${ends}` : `chords of ${interval.startsWith('more') ? '' : 'up to '}${interval}`;
  const shared = { kind: first.kind, hand: first.hand, spots: group };
  const { helped } = first;
  const other = first.hand === 'left' ? 'right' : 'left';
  if (first.kind === 'smallHandStretch')
    return {
      ...shared,
      severity: 0.4,
      sentence: `The hand has ${what}, beyond a small hand.`,
      practise: 'For a small hand leave out an inner or a doubled note, or break the chord quickly.',
    };
  // marked to be broken: the edition has decided
  if (helped && !(first.kind === 'wideChord' && first.marked))
    return {
      ...shared,
      severity: first.kind === 'stretch' ? 0.4 : 0.6,
      sentence: `The stave has ${what}, more than most hands take at once, and a note will be missed unless the hands share it.`,
      practise: `Mark which note the ${other} hand takes, and learn the place so from the first reading.`,
    };
  if (first.kind === 'stretch')
    return {
      ...shared,
      severity: 0.6,
      sentence: `The hand has ${what}, which most hands cannot strike at once, and a note will be missed or the wrist will lock.`,
      practise: 'Break it quickly from below, with the top note on the beat where it carries the tune.',
    };
  return {
    ...shared,
    severity: first.marked ? 0.45 : 0.75,
    sentence: first.marked
      ? `The hand has ${what} to break, and the top note will come late.`
      : `The hand has ${what}, too wide to strike at once, and without a plan the lowest note will be lost.`,
    practise: first.marked
      ? 'Break it upwards with a turning wrist, and let the pedal catch the lowest note.'
      : 'See whether the other hand can take a note; if not, break it upwards with a turning wrist.',
  };
}

/** Rows of octaves of one hand. */
function octaves(group: readonly [Of<'octaves'>, ...Of<'octaves'>[]]): PitfallDraft {
  const count = greatest(group, (place) => place.count);
  const speed = greatest(group, (place) => place.perSecond);
  const [{ hand }] = group;
  return {
    kind: 'octaves',
    hand,
    spots: group,
    severity: 0.3 + 0.5 * between(speed, 1, 6),
    sentence: group.length > 1
      ? `Up to ${countInWords(count)} octaves follow one another, which stiffens the wrist, and a small hand will tire.`
      : `The hand has ${countInWords(count)} octaves in a row, which stiffen the wrist, and a small hand will tire.`,
    practise: 'Practise the thumb alone, then the little finger alone, then both with a loose wrist; stop before it tires.',
  };
}
