/*
 * One figure, one touch: is what comes again, in the other hand or later, played alike?
 *
 * What is a fault: a figure without any mark that one hand joins and the other detaches, each of them every time; or that is played one
 * way nearly always and the other way once or twice. Unmarked notes have no required touch, so that either is right, and a change
 * between two halves of a piece is a choice. Joined and detached are as for slurs: gaps below 30 ms pass as legato, and a third of
 * the way silent breaks the line. Under the pedal nothing is said.
 */
import { median } from 'simple-statistics';
import { HANDS, JOINED_GAP_S, sameFigures, type Hand } from '../measure/index.js';
import { heldFinding, percent, type HeldGround } from './heldNotes.js';
import { BROKEN_SHARE, joinsOf, type SlurJoin } from './touchSlurs.js';
import type { Finding } from './types.js';

/** This part (>=) of the ways from note to note must be alike for a figure to have a touch. Our own rule: four of five. */
const ALIKE_PART = 0.8;

/** Fewest ways (>=) of a figure that must have been measured. */
const LEAST_JOINS = 4;

/** Each hand must have played it so often (>=) to have a touch for it. Our own rule. */
const HAND_LEAST = 2;

/** A hand must have played it so often (>=), and no more than this part (<=) otherwise, for the rest to be slips. Our own rules. */
const RETURNS_LEAST = 5;
const ODD_PART = 0.25;

/** How sure the program is that it is no choice. */
const CONFIDENCE = 0.65;

/** How a figure was played once. */
interface FigurePlayed {
  readonly hand: Hand;
  readonly detached: boolean;
  readonly joins: readonly SlurJoin[];
}

/** Every figure that comes again unmarked, with how it was played each time that tells. */
export function figuresPlayed(ground: HeldGround): readonly (readonly FigurePlayed[])[] {
  const unmarked = joinsOf(ground.notes.filter(({ asked }) => asked.touch === null && !asked.joined));
  const byNote = new Map(unmarked.flatMap((join) => join.notes.map((note) => [`${note.bar.stretch} ${note.occurrence.index}`, join] as const)));
  const stretches = [...new Set(unmarked.map(({ bar }) => bar.stretch))];
  return sameFigures(ground.input.score).map((times) => times.flatMap(({ chords }) => stretches.flatMap((stretch) => {
    const joins = chords.slice(0, -1).flatMap((chord) => chord.map((index) => byNote.get(`${stretch} ${index}`)).find((join) => join !== undefined) ?? []);
    return playedAs(joins);
  })));
}

/** How a figure was played, where that is plain. */
function playedAs(joins: readonly SlurJoin[]): readonly FigurePlayed[] {
  const [first] = joins;
  if (first === undefined || joins.length < LEAST_JOINS) return [];
  const detached = joins.filter(({ bad }) => bad).length >= ALIKE_PART * joins.length;
  const joined = joins.filter(({ gapS }) => gapS < JOINED_GAP_S).length >= ALIKE_PART * joins.length;
  return detached || joined ? [{ hand: first.hand, detached, joins }] : [];
}

/** Figures that the hands play differently; where there are none, figures that slip at a return. */
export function figureFindings(ground: HeldGround, figures: readonly (readonly FigurePlayed[])[]): readonly Finding[] {
  const between = figures.flatMap(betweenHands);
  if (between.length > 0) return between.flatMap((one) => findings(ground, one, 'hands'));
  return figures.flatMap((times) => HANDS.flatMap((hand) => oddOnes(times.filter((one) => one.hand === hand)))).flatMap((one) => findings(ground, one, one.detached ? 'detached' : 'joined'));
}

/** Of a figure that one hand joins and the other detaches, the times it was detached. */
function betweenHands(times: readonly FigurePlayed[]): readonly FigurePlayed[] {
  const [right, left] = HANDS.map((hand) => times.filter((one) => one.hand === hand));
  if (right === undefined || left === undefined || right.length < HAND_LEAST || left.length < HAND_LEAST) return [];
  const [ofRight, ofLeft] = [new Set(right.map(({ detached }) => detached)), new Set(left.map(({ detached }) => detached))];
  const apart = ofRight.size === 1 && ofLeft.size === 1 && ofRight.has(true) !== ofLeft.has(true);
  return apart ? times.filter(({ detached }) => detached) : [];
}

/** The few times that a hand played its figure otherwise than it does. */
function oddOnes(times: readonly FigurePlayed[]): readonly FigurePlayed[] {
  if (times.length < RETURNS_LEAST) return [];
  return [true, false].flatMap((detached) => {
    const odd = times.filter((one) => one.detached === detached);
    return odd.length <= ODD_PART * times.length ? odd : [];
  });
}

/** One finding for a time that a figure was played. */
function findings(ground: HeldGround, { hand, detached, joins }: FigurePlayed, topic: string): readonly Finding[] {
  const [first] = joins;
  if (first === undefined) return [];
  const share = median(joins.map((join) => join.share));
  return [heldFinding(ground, {
    aspect: 'touch', kind: 'figureUnlike', topic, hand, bar: first.bar, notes: joins.flatMap(({ notes }) => notes), value: percent(share), unit: '%', threshold: percent(1 - BROKEN_SHARE),
    ratio: detached ? Math.max(1, (1 - share) / BROKEN_SHARE) : 1, confidence: CONFIDENCE,
  })];
}
