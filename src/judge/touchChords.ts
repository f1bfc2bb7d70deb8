/*
 * Long notes struck again and again, an accompaniment in minims for instance: does the hand stay on the keys?
 *
 * What is a fault: a hand that lets them all go at about half their value, all through the piece, by finger and by ear (teachers speak of
 * detached, choppy or short chords). Repeated notes need their gap, about two fifths of the way to the next in quick playing (Bresin and
 * Battel 2000), much less in long values. Unmarked short notes have no required touch.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { HANDS, type BarFacts, type Hand } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import { isLong } from './lengthsShort.js';
import type { Finding } from './types.js';

/** A hand whose repeated long chords sound for no more than this share (<=) of their length is detached. Our own rule: half, less than professionals give even quick repeated notes (60 %, Bresin and Battel 2000). */
export const CHORDS_SHORT_SHARE = 0.5;

/** Fewest such chords (>=) that make a habit. Our own rule. */
const LEAST_CHORDS = 8;

/** The worst chords: those that stand for the habit. */
const WORST_SHARE = 0.45;

/** One long chord that is struck again at once. */
export interface RepeatedChord {
  readonly bar: BarFacts;
  readonly hand: Hand;
  /** Share of its length for which it sounded, of its longest note. */
  readonly share: number;
  readonly notes: readonly HeldNote[];
}

/** All long unmarked chords of which a key is struck again at once. */
export function repeatedChords(ground: HeldGround): readonly RepeatedChord[] {
  const long = ground.notes.filter((one) => isLong(ground, one) && one.asked.touch === null);
  return [...groupBy(long, ({ chord }) => chord).values()].flatMap((notes) => {
    const [first] = notes;
    const shares = notes.flatMap(({ holding: { length } }) => (length.measured ? [length.value.soundS / length.value.writtenS] : []));
    const again = notes.some(({ holding: { join } }) => join.measured && join.value.repeated);
    return first === undefined || shares.length === 0 || !again ? [] : [{ bar: first.bar, hand: first.hand, share: Math.max(...shares), notes }];
  });
}

/** Hands that are detached throughout in this way. */
export function detachedHands(chords: readonly RepeatedChord[]): ReadonlySet<Hand> {
  return new Set(HANDS.filter((hand) => {
    const own = chords.filter((chord) => chord.hand === hand);
    return own.length >= LEAST_CHORDS && median(own.map(({ share }) => share)) <= CHORDS_SHORT_SHARE;
  }));
}

/** One finding a bar that shows it. */
export function chordFindings(ground: HeldGround, chords: readonly RepeatedChord[]): readonly Finding[] {
  return [...detachedHands(chords)].flatMap((hand) => {
    const own = chords.filter((chord) => chord.hand === hand);
    const usual = median(own.map(({ share }) => share));
    const worst = own.filter(({ share }) => share <= Math.max(WORST_SHARE, usual));
    return [...groupBy(worst, ({ bar }) => bar)].map(([bar, some]) => heldFinding(ground, {
      aspect: 'touch', kind: 'chordsShort', hand, bar, notes: some.flatMap(({ notes }) => notes), value: percent(usual), unit: '%', threshold: percent(CHORDS_SHORT_SHARE),
      ratio: (1 - usual) / (1 - CHORDS_SHORT_SHARE), confidence: 1,
    }));
  });
}
