/*
 * Slurs: are the notes under them joined, and does a two-note slur end with a lift?
 *
 * What is a fault: notes under a slur with silence between them, for a third of the way to the next, and more than the player leaves
 * elsewhere: who always plays a little detached has his own legato. Gaps below 30 ms pass as legato; of double notes one
 * voice joined is enough; repeated notes need their gap (teachers' common practice). Under the pedal the fingers may let go (they do, in
 * the hands of professionals, at half the interval), and nothing is said.
 * A two-note slur asks a lift at its end, a long one none: a habit of joining all of them on is worth a word, no more.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { HANDS, JOINED_GAP_S, PEDAL_LINGERS, type BarFacts, type Hand } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import { lapses, type LapseRule } from './lapses.js';
import type { Finding } from './types.js';

/** From this share (>=) of the way to the next note on a silence breaks the line. Our own rule: a third; what is left is still no portato. */
export const BROKEN_SHARE = 1 / 3;

/** No gap below this (<) breaks a line, seconds: three times what passes as legato. */
export const BROKEN_GAP_S = 3 * JOINED_GAP_S;

/** Notes that follow within less (<) than this are too quick for their gaps to be heard, seconds. Our own rule. */
const LEAST_INTERVAL_S = 0.1;

/** So many broken joins of so many are heard as one thing. Our own rule. */
const RULE: LapseRule = { least: 3, share: 0.6 };

/** A passage is more detached than the player's own legato where its notes last less (<=) than this share of what his others do. Our own rule. */
const OWN_SHARE = 0.75;

/** Fewest joins (>=) from which a player's own legato is told. */
const OWN_LEAST = 8;

/** The player's own legato is no excuse where his notes last less (<) than this share of the way: then it is the habit that is detached. */
const HABIT_SHARE = 0.6;

/** Fewest two-note slurs (>=), and what share (>=) of them joined on, make a habit. Our own rule; professionals join on many. */
const ENDS_LEAST = 6;
const ENDS_SHARE = 0.8;

/** How sure the program is that a slur's end that is joined on is no choice of phrasing. */
const ENDS_CONFIDENCE = 0.6;

/** One chord under a slur and the way to the next, without pedal. */
export interface SlurJoin {
  readonly bar: BarFacts;
  readonly hand: Hand;
  /** Key-down share of the way to the next note: of double notes the longest. */
  readonly share: number;
  /** Silence before the next note, seconds, of double notes the shortest; negative where they overlap. */
  readonly gapS: number;
  readonly bad: boolean;
  readonly notes: readonly HeldNote[];
}

/** Every join under a slur that the fingers alone decided. */
export function slurJoins(ground: HeldGround): readonly SlurJoin[] {
  return joinsOf(ground.notes.filter(({ asked }) => asked.joined));
}

/** The joins of some notes, chord by chord; those under the pedal, of repeated and of very quick notes left out. */
export function joinsOf(notes: readonly HeldNote[]): readonly SlurJoin[] {
  return [...groupBy(notes, ({ chord }) => chord).values()].flatMap((chord): readonly SlurJoin[] => {
    const [first] = chord;
    const joins = chord.flatMap(({ holding: { join } }) => (join.measured ? [join.value] : []));
    if (first === undefined || joins.length === 0) return [];
    if (joins.some(({ pedal, repeated, intervalS }) => pedal >= PEDAL_LINGERS || repeated || intervalS < LEAST_INTERVAL_S)) return [];
    const share = Math.max(...joins.map(({ overlapS, intervalS }) => 1 + overlapS / intervalS));
    const gapS = Math.min(...joins.map(({ overlapS }) => -overlapS));
    return [{ bar: first.bar, hand: first.hand, share, gapS, bad: 1 - share >= BROKEN_SHARE && gapS >= BROKEN_GAP_S, notes: chord }];
  });
}

/** Bars in which the line under slurs is broken, each hand by itself. */
export function slurFindings(ground: HeldGround, joins: readonly SlurJoin[]): readonly Finding[] {
  return HANDS.flatMap((hand) => {
    const own = joins.filter((join) => join.hand === hand);
    const usual = own.length < OWN_LEAST ? 1 : Math.min(1, median(own.map(({ share }) => share)));
    const limit = usual < HABIT_SHARE ? 1 : OWN_SHARE * usual;
    return lapses(own, RULE, (window) => median(window.map(({ share }) => share)) <= limit).map(({ bar, bad }) => {
      const share = median(bad.map((join) => join.share));
      return heldFinding(ground, {
        aspect: 'touch', kind: 'slurBroken', hand, bar, notes: bad.flatMap(({ notes }) => notes), value: percent(share), unit: '%', threshold: percent(1 - BROKEN_SHARE),
        ratio: (1 - share) / BROKEN_SHARE, confidence: 1,
      });
    });
  });
}

/** Two-note slurs that are all joined on to what follows, each hand by itself. */
export function slurEndFindings(ground: HeldGround): readonly Finding[] {
  const ends = joinsOf(ground.notes.filter(({ asked }) => asked.slurEnds === 2 && !asked.joined && asked.touch === null));
  return HANDS.flatMap((hand) => {
    const own = ends.filter((end) => end.hand === hand);
    const joinedOn = own.filter(({ notes }) => notes.some(({ holding: { join } }) => join.measured && join.value.overlapS >= JOINED_GAP_S));
    const share = joinedOn.length / own.length;
    if (own.length < ENDS_LEAST || share < ENDS_SHARE) return [];
    return joinedOn.map(({ bar, notes }) => heldFinding(ground, {
      aspect: 'touch', kind: 'slurEndJoined', hand, bar, notes, value: percent(share), unit: '%', threshold: percent(ENDS_SHARE), ratio: share / ENDS_SHARE, confidence: ENDS_CONFIDENCE,
    }));
  });
}
