/**
 * The question: where do notes push against the metre?
 * Conventions: one place a run of syncopated notes of one hand; strength as in beatSyncopation.ts, at least LEAST_STRENGTH.
 * Method: Longuet-Higgins & Lee 1984 on what one hand strikes, and only where a note sounds through the stronger place: where
 * that place is silent, the next entry is the difficulty, not this note. Only beats count as passed: a note held across the
 * half of a beat is read as one figure.
 * It does not tell syncopation of an inner voice under a hand that strikes the beat.
 */
import { barAtTick } from '../score/index.js';
import { metreDivisions, offsetInBar } from './beatMetre.js';
import { countingOf, otherHand, spotAt, type BeatContext } from './beatContext.js';
import { metreSpans, strongestBetween, syncopationStrength } from './beatSyncopation.js';
import type { BeatPlace } from './beatTypes.js';
import { BOTH_HANDS, type HandEvent, type OneHand } from './handLines.js';

/** Strength from which a note counts (inclusive): 0 is no more than a weak-beat note held over its equal. */
const LEAST_STRENGTH = 1;

/** A syncopated note. */
interface Offbeat {
  readonly event: HandEvent;
  readonly strength: number;
  /** Written tick of the stronger place that it sounds through. */
  readonly throughTick: number;
}

/** Runs of syncopated notes, of each hand. */
export function syncopatedRuns(context: BeatContext): readonly BeatPlace[] {
  return BOTH_HANDS.flatMap((hand) => runsOf(context, hand));
}

/** Runs of one hand: syncopated notes in the same bar or the next belong together. */
function runsOf(context: BeatContext, hand: OneHand): readonly BeatPlace[] {
  const line = context.lines[hand];
  const runs: Offbeat[][] = [];
  line.forEach((event, i) => {
    const offbeat = offbeatOf(context, event, line[i + 1]);
    if (offbeat === null) return;
    const run = runs[runs.length - 1];
    const lastBar = run?.[run.length - 1]?.event.barIndex;
    if (run !== undefined && lastBar !== undefined && event.barIndex - lastBar <= 1) run.push(offbeat);
    else runs.push([offbeat]);
  });
  const other = new Set(context.lines[otherHand(hand)].map((event) => event.onsetTick));
  return runs.flatMap((run) => placeOf(context, run, other) ?? []);
}

/** Whether a note is syncopated, up to the next one of its hand. */
function offbeatOf(context: BeatContext, event: HandEvent, next: HandEvent | undefined): Offbeat | null {
  const metre = context.metres[event.barIndex];
  if (metre === undefined || !metre.regular) return null;
  const spans = metreSpans(metre.bar.nominalTicks, metreDivisions(metre.bar.time));
  const from = offsetInBar(metre, event.onsetTick);
  // a change of metre or the end of the piece is looked at no further than the note's own sound
  const to = from + Math.min(next?.onsetTick ?? event.endTick, event.endTick) - event.onsetTick;
  const strength = syncopationStrength(from, to, spans);
  const passed = strongestBetween(from, to, spans);
  if (strength === null || passed === null || strength < LEAST_STRENGTH) return null;
  // notes of triplets stand on no place of the metre; and what passes between two beats crosses none
  const [finest] = spans.slice(-1);
  if (from % (finest ?? 1) !== 0 || passed.position % metre.beatTicks !== 0) return null;
  return { event, strength, throughTick: event.onsetTick + passed.position - from };
}

/** The place of a run. */
function placeOf(context: BeatContext, run: readonly Offbeat[], other: ReadonlySet<number>): BeatPlace | null {
  const [first] = run;
  const last = run[run.length - 1];
  if (first === undefined || last === undefined) return null;
  const { barIndex, onsetTick: tick, hand } = first.event;
  return {
    ...spotAt(context, { barIndex, tick, hand }),
    // the bar whose beat is held through shows best where the beat is
    counting: countingOf(context, barAtTick(context.score, first.throughTick).barIndex, hand),
    toBar: Math.max(last.event.barIndex, barAtTick(context.score, last.throughTick).barIndex),
    kind: 'syncopation',
    strength: run.reduce((most, one) => Math.max(most, one.strength), 0),
    notes: run.length,
    otherOnBeat: run.some((one) => other.has(one.throughTick)),
    tiesOnly: run.every((one) => isPlainTie(context, one)),
  };
}

/** Whether a note begins on a beat and goes through a bar line by a tie: the finder of ties tells it. */
function isPlainTie({ metres, score }: BeatContext, { event, throughTick }: Offbeat): boolean {
  const metre = metres[event.barIndex];
  const onBeat = metre !== undefined && offsetInBar(metre, event.onsetTick) % metre.beatTicks === 0;
  return onBeat && score.bars[barAtTick(score, throughTick).barIndex]?.startTick === throughTick;
}
