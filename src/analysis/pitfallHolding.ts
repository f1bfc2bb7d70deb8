/**
 * The question: where will a held note be struck again, or pushed onto the beat?
 * Conventions: the place of a tie is the bar that it leads into; one draft a hand, ties with and without other notes apart.
 * Method: ties over bar lines and runs of syncopated notes. A tie is worst where the same hand strikes other notes at its end:
 * striking a tied note again is a frequent slip even of good players (Repp 1996, Music Perception 14:161-184). Severities are
 * our own rule.
 * It does not tell syncopation of an inner voice under notes on the beat.
 */
import { sentenceCase } from '../base/index.js';
import type { BeatPlace } from './beatTypes.js';
import { between, greatest, groupsOf, noteName, theHand, withArticle } from './pitfallWords.js';
import type { PitfallDraft, PitfallGround } from './pitfallTypes.js';

type Tie = Extract<BeatPlace, { kind: 'tieAcross' }>;
type Syncopation = Extract<BeatPlace, { kind: 'syncopation' }>;

/** Syncopated notes of a run from which it is as hard as it gets. */
const LONG_RUN = 8;

/** Drafts of ties and syncopation. */
export function holdingPitfalls(ground: PitfallGround): readonly PitfallDraft[] {
  const ties = ground.beats.filter((place): place is Tie => place.kind === 'tieAcross');
  const runs = ground.beats.filter((place): place is Syncopation => place.kind === 'syncopation' && !place.tiesOnly);
  return [
    ...groupsOf(ties, (place) => `${place.hand} ${String(place.partial)}`).map((group) => tied(ground, group)),
    ...groupsOf(runs, (place) => `${place.hand} ${String(place.otherOnBeat)}`).map(syncopated),
  ];
}

/** Ties of one hand, with or without other notes to strike. */
function tied({ score }: PitfallGround, group: readonly [Tie, ...Tie[]]): PitfallDraft {
  const [{ hand, partial, counting }] = group;
  const names = [...new Set(group.map((place) => noteName(score, place.noteIndex)))];
  const [name = 'note'] = names;
  const what = group.length === 1 ? `The ${name} is` : names.length === 1 ? `${sentenceCase(withArticle(name))} is` : 'Notes are';
  const off = group.some((place) => place.struckOff);
  const [again, it] = names.length === 1 ? ['it is', 'it'] : ['they are', 'them'];
  return {
    kind: 'tieAcross',
    hand,
    spots: group,
    severity: partial ? 0.75 : off ? 0.6 : 0.35,
    sentence: partial
      ? `${what} tied over the bar line while the same hand strikes other notes, and ${again} easily struck again with them.`
      : `${what} tied over the bar line, and ${again} easily struck again on one.`,
    practise: partial ? `Play the other notes alone while the finger stays down, and say "hold" on one.` : `Hold ${it}, and say "hold" on one.`,
    counting: off ? counting : null,
  };
}

/** Syncopated runs of one hand. */
function syncopated(group: readonly [Syncopation, ...Syncopation[]]): PitfallDraft {
  const [{ hand, otherOnBeat, counting }] = group;
  const length = between(greatest(group, (place) => place.notes), 1, LONG_RUN);
  const other = hand === 'right' ? 'left' : 'right';
  return {
    kind: 'syncopation',
    hand,
    spots: group,
    severity: 0.45 + 0.3 * length + (otherOnBeat ? 0.15 : 0),
    sentence: otherOnBeat
      ? `${sentenceHand(hand)} holds notes across beats that the ${other} hand strikes, and will slip onto those beats.`
      : `${sentenceHand(hand)} strikes between the beats and holds over them, and nothing marks those beats.`,
    practise: otherOnBeat ? `Tap the ${other} hand's beats on a knee while ${theHand(hand)} plays; then play both.` : 'Count aloud, and nod on every beat that is held.',
    counting,
  };
}

/** "The right hand". */
function sentenceHand(hand: Syncopation['hand']): string {
  return hand === 'both' ? 'The hands' : `The ${hand} hand`;
}
