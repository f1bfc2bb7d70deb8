/*
 * Runs that stumble, chords that do not speak as one, crushed notes that are not.
 *
 * What is a fault: a run whose notes scatter more than twice as much as good players' do, one wait in it left out, as that is a hesitation; the
 * chords of a bar apart by more than is ever heard as one, where they are not rolled; a small note with a stroke as long as a note of the
 * bar. Small notes without a stroke may be long or short, on the beat or before it.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import type { ChordSpread, EvenRun, GraceGroup } from '../measure/index.js';
import { findingOf, LEAST_OFF_MS, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** Coefficient of variation (>=) from which a run is uneven: nineteen of twenty runs of good players are below 0.18, scales of professionals at 0.07 (Jabusch 2006). */
export const UNEVEN_VARIATION = 0.3;

/** Runs slower (>) than this, ms a note, are a line and no run. */
const RUN_SLOWEST_MS = 400;

/** From this spread (>=) on the chords of a bar fall apart, ms: three times the 30 ms that are normal (Goebl 2001); ninety-nine of a hundred bars of good players stay below 70. */
export const RAGGED_MS = 90;

/** Chords (>=) of a bar that make a habit. */
const LEAST_CHORDS = 3;

/** From this (>=) on a crushed note is a note of its own, ms; nineteen of twenty of good players' are below 170. */
export const LONG_GRACE_MS = 300;

/** How sure we are: leaning, lingering and spreading may be meant. */
const CONFIDENCE = { run: 0.7, chords: 0.6, grace: 0.6 } as const;

/** Findings of uneven runs. */
export function runFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.runs.flatMap((run) => runFinding(ground, run));
}

/** What one run shows. */
function runFinding(ground: RhythmGround, { stretch, fromVisit, toVisit, hand, pairs, intervalMs, variationButLilt }: EvenRun): readonly Finding[] {
  const visits = [fromVisit, toVisit].map((visit) => ground.visit(stretch, visit)).filter((visit) => visit !== undefined);
  if (visits.length < 2 || intervalMs > RUN_SLOWEST_MS || variationButLilt < UNEVEN_VARIATION || variationButLilt * intervalMs < LEAST_OFF_MS) return [];
  return findingOf(ground, {
    kind: 'unevenRun', hand, visits, pairs, value: 100 * variationButLilt, unit: '%', threshold: 100 * UNEVEN_VARIATION, ratio: variationButLilt / UNEVEN_VARIATION, confidence: CONFIDENCE.run,
  });
}

/** Findings of chords that fall apart. */
export function chordFindings(ground: RhythmGround): readonly Finding[] {
  const plain = ground.facts.chords.filter(({ rolled }) => !rolled);
  return [...groupBy(plain, ({ hand, stretch, visitIndex }) => `${hand} ${stretch} ${visitIndex}`).values()].flatMap((chords) => chordFinding(ground, chords));
}

/** What the chords of one hand in one bar show. */
function chordFinding(ground: RhythmGround, chords: readonly ChordSpread[]): readonly Finding[] {
  const [first] = chords;
  const visit = first === undefined ? undefined : ground.visit(first.stretch, first.visitIndex);
  if (first === undefined || visit === undefined || chords.length < LEAST_CHORDS) return [];
  const spreadMs = median(chords.map((chord) => chord.spreadMs));
  const apart = chords.filter((chord) => chord.spreadMs >= RAGGED_MS);
  return findingOf(ground, {
    kind: 'raggedChords', hand: first.hand, visits: [visit], pairs: apart.flatMap(({ pairs }) => pairs), value: spreadMs, unit: 'ms', threshold: RAGGED_MS, ratio: spreadMs / RAGGED_MS, confidence: CONFIDENCE.chords,
  });
}

/** Findings of crushed notes that are long. */
export function graceFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.graces.flatMap((grace) => graceFinding(ground, grace));
}

/** What one crushed note shows; several in a row take their time. */
function graceFinding(ground: RhythmGround, { stretch, visitIndex, hand, pairs, count, slash, leadMs }: GraceGroup): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined || !slash || count > 1) return [];
  return findingOf(ground, { kind: 'longGrace', hand, visits: [visit], pairs, value: leadMs, unit: 'ms', threshold: LONG_GRACE_MS, ratio: leadMs / LONG_GRACE_MS, confidence: CONFIDENCE.grace });
}
