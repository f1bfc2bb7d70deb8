/*
 * Long notes: do they sound for as long as they are written?
 *
 * What is a fault: a long note, or all of a chord, that is silent for half of its length or more, finger and pedal gone. Within one
 * chord, inner notes let go while the others hold are a fault where it happens again and again. No fault, and not looked at:
 * notes whose key another voice needs (measured no further than that), notes that the hand cannot span while it plays on, last notes before
 * the pupil broke off.
 * A tie is broken by silence before its second note is reached, not by a key let up while the pedal holds.
 */
import { firstIndex, groupBy } from '../base/index.js';
import type { NoteLength } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import type { Finding } from './types.js';

/** A note is long from this value on (>=), crotchets … */
export const LONG_CROTCHETS = 1.5;

/** … and from this share (>=) of its bar … */
export const LONG_BAR_SHARE = 0.5;

/** … where it lasts at least this (>=) by the pulse, seconds: shorter ones are touch. Our own rules. */
export const LONG_S = 0.6;

/** A long note that sounds for less than this share (<) of its length is too short. Our own rule: half is what a listener counts as gone. */
export const SHORT_SHARE = 0.5;

/** What is lost must be at least this (>=), seconds. Our own rule. */
export const SHORT_LOST_S = 0.3;

/** Wider than this (>), semitones, no hand spans what it holds and what it plays: a ninth is what adults reach (common practice). */
const HAND_SPAN = 14;

/** So many chords (>=) with an inner note let go make a habit. Our own rule. */
const INNER_LEAST = 3;

/** How much an inner note that is gone weighs against a chord that is gone, and how sure the program is that it was not shared out to the other hand. */
const INNER_CONFIDENCE = 0.6;

/** A long note with its length. */
interface LongNote extends HeldNote {
  readonly length: NoteLength;
  /** Share of its length for which it sounded. */
  readonly share: number;
}

/** True for a note that is long enough to be held to its length and has no mark that shortens it. */
export function isLong({ input: { score } }: HeldGround, { occurrence, note, asked, holding: { length } }: HeldNote): boolean {
  const ticks = occurrence.endTick - occurrence.onsetTick;
  const barTicks = score.bars[occurrence.barIndex]?.nominalTicks ?? Infinity;
  const held = asked.touch === null || asked.touch === 'slurred' || asked.touch === 'tenuto';
  return held && note.grace === null && length.measured && length.value.writtenS >= LONG_S && ticks >= LONG_CROTCHETS * score.ticksPerQuarter && ticks >= LONG_BAR_SHARE * barTicks;
}

/** The long notes of a recording that can be judged, chord by chord of a hand. */
export function longChords(ground: HeldGround): readonly (readonly LongNote[])[] {
  const { alignment, score } = ground.input;
  const beyond = outOfReach(ground);
  const long = ground.notes.flatMap((one): readonly LongNote[] => {
    const { length } = one.holding;
    const stretch = alignment.route[one.bar.stretch];
    const brokenOff = stretch !== undefined && one.bar.visitIndex === stretch.toVisit && stretch.toVisit < score.order.length - 1;
    if (!length.measured || !isLong(ground, one) || brokenOff || beyond(one)) return [];
    return [{ ...one, length: length.value, share: length.value.soundS / length.value.writtenS }];
  });
  return [...groupBy(long, ({ bar, hand, occurrence }) => `${bar.stretch} ${hand} ${occurrence.onsetTick}`).values()];
}

/** Long notes let go, ties broken, inner notes let go. */
export function shortFindings(ground: HeldGround, chords: readonly (readonly LongNote[])[]): readonly Finding[] {
  const gone = chords.filter((chord) => chord.every(isShort));
  const inner = chords.map((chord) => (chord.every(isShort) ? [] : chord.filter(isShort))).filter((notes) => notes.length > 0);
  return [...gone.map((chord) => shortFinding(ground, chord)), ...(inner.length < INNER_LEAST ? [] : inner.map((notes) => innerFinding(ground, notes)))];
}

/** True for a note that is too short. */
function isShort({ share, length }: LongNote): boolean {
  return share < SHORT_SHARE && length.writtenS - length.soundS >= SHORT_LOST_S;
}

/** A chord, or single note, that is gone. */
function shortFinding(ground: HeldGround, chord: readonly LongNote[]): Finding {
  const longest = chord.reduce((a, b) => (b.share > a.share ? b : a));
  const tie = chord.every(tieIsBroken);
  return heldFinding(ground, {
    aspect: 'lengths', kind: tie ? 'tieBroken' : 'shortNote', hand: longest.hand, bar: longest.bar, notes: chord, value: percent(longest.share), unit: '%', threshold: percent(SHORT_SHARE),
    ratio: (1 - longest.share) / (1 - SHORT_SHARE), confidence: 1,
  });
}

/** Inner notes that are gone while the others hold. */
function innerFinding(ground: HeldGround, notes: readonly LongNote[]): Finding {
  const worst = notes.reduce((a, b) => (b.share < a.share ? b : a));
  return heldFinding(ground, {
    aspect: 'lengths', kind: 'innerLetGo', hand: worst.hand, bar: worst.bar, notes, value: percent(worst.share), unit: '%', threshold: percent(SHORT_SHARE),
    ratio: (1 - worst.share) / (1 - SHORT_SHARE), confidence: INNER_CONFIDENCE,
  });
}

/** True for a tie that fell silent before its second note. */
function tieIsBroken({ occurrence, note, share }: LongNote): boolean {
  return occurrence.tied.length > 1 && share < note.lengthTicks / (occurrence.endTick - occurrence.onsetTick);
}

/** Tells of a note whether the hand must play what it cannot reach from it before half of it is over. */
function outOfReach({ notes }: HeldGround): (held: HeldNote) => boolean {
  const key = ({ bar, hand }: HeldNote): string => `${bar.stretch} ${hand}`;
  const byHand = groupBy(notes.toSorted((a, b) => a.occurrence.onsetTick - b.occurrence.onsetTick), key);
  return (held) => {
    const own = byHand.get(key(held)) ?? [];
    const { onsetTick, endTick, midi } = held.occurrence;
    const onsetAt = (i: number): number => own[i]?.occurrence.onsetTick ?? Infinity;
    const from = firstIndex(own.length, (i) => onsetAt(i) > onsetTick);
    const to = firstIndex(own.length, (i) => onsetAt(i) >= (onsetTick + endTick) / 2, from);
    return own.slice(from, to).some(({ occurrence }) => Math.abs(occurrence.midi - midi) > HAND_SPAN);
  };
}
