/*
 * Beats: long notes cut or doubled, rests swallowed, entries early or late, and runs that stumble.
 *
 * What is a fault: a hand gives a long note or a rest another number of beats than is written while the other hand counts on, or
 * both come in early by a beat. Both waiting longer is a hesitation or a breath and none of the rhythm. A run is uneven where its
 * notes scatter more than twice as much as good players' do, one wait in it left out.
 */
import type { EvenRun, LongDistance } from '../measure/index.js';
import { findingOf, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** From this much (>=) of a beat on it is counted amiss: over half a beat, and more than rubato takes. */
export const BEAT_OFF = 0.6;

/** The tempos before and after must not differ by more than this (<=): else there is no beat to count by. */
const TEMPO_TIMES = 1.35;

/** Coefficient of variation (>=) from which a run is uneven: nineteen of twenty runs of good players are below 0.18, scales of professionals at 0.07 (Jabusch 2006). */
export const UNEVEN_VARIATION = 0.25;

/** Runs slower (>) than this, ms a note, are a line and no run. */
const RUN_SLOWEST_MS = 400;

/** How sure we are: a hand alone is heard against the other. */
const CONFIDENCE = { alone: 0.75, both: 0.65, run: 0.7 } as const;

/** Findings of long notes, rests and entries. */
export function beatFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.distances.flatMap((distance) => beatFinding(ground, distance));
}

/** What one long distance shows. */
function beatFinding(ground: RhythmGround, { stretch, visitIndex, hand, pairs, writtenBeats, playedBeats, tempoTimes, rest, alone }: LongDistance): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  const offBeats = playedBeats - writtenBeats;
  const counts = alone ? Math.abs(offBeats) >= BEAT_OFF : offBeats <= -BEAT_OFF;
  if (visit === undefined || !counts || tempoTimes > TEMPO_TIMES) return [];
  const kind = offBeats < 0 ? (rest ? 'restSwallowed' : 'longNoteCut') : rest ? 'entryLate' : 'longNoteDoubled';
  return findingOf(ground, {
    kind, hand: alone ? hand : null, visits: [visit], pairs, value: Math.abs(offBeats), unit: 'beats', threshold: BEAT_OFF, ratio: Math.abs(offBeats) / BEAT_OFF,
    confidence: alone ? CONFIDENCE.alone : CONFIDENCE.both,
  });
}

/** Findings of uneven runs. */
export function runFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.runs.flatMap((run) => runFinding(ground, run));
}

/** What one run shows. */
function runFinding(ground: RhythmGround, { stretch, fromVisit, toVisit, hand, pairs, intervalMs, variationButOne }: EvenRun): readonly Finding[] {
  const visits = [fromVisit, toVisit].flatMap((visit) => ground.visit(stretch, visit) ?? []);
  if (visits.length < 2 || intervalMs > RUN_SLOWEST_MS || variationButOne < UNEVEN_VARIATION) return [];
  return findingOf(ground, {
    kind: 'unevenRun', hand, visits, pairs, value: 100 * variationButOne, unit: '%', threshold: 100 * UNEVEN_VARIATION, ratio: variationButOne / UNEVEN_VARIATION, confidence: CONFIDENCE.run,
  });
}
