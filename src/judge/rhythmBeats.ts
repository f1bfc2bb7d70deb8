/*
 * Beats: long notes cut or doubled, rests swallowed, entries early or late, notes of one length halved and doubled.
 *
 * What is a fault: a hand gives a long note or a rest another number of beats than is written while the other hand counts on; both
 * lose or add whole beats with the tempo the same before and after. A note twice as long as its neighbours is a wait when it stands alone:
 * it is called a wrong length where its bar has more of them, or halved ones. At the edges of phrases players take time.
 */
import { groupBy } from '../base/index.js';
import type { BeatStep, LongDistance } from '../measure/index.js';
import { beatTicks } from '../score/index.js';
import { findingOf, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** From this much (>=) of a beat on it is counted amiss: over half a beat, and more than rubato takes. */
export const BEAT_OFF = 0.6;

/** A hand that is off by the other hand's count must be off by its own tempo too, by this much of a beat (>=): else it is the other hand. */
const OFF_BY_TEMPO = 0.4;

/** Where both lose or add beats there are at least two to count (>=), and what is added comes this near (<=) to whole beats. */
const COUNTED_BEATS = 2;
const WHOLE_WITHIN = 0.3;

/** The tempos before and after must not differ by more than this (<=): else there is no beat to count by. Beats added need more. */
const TEMPO_TIMES = 1.35;
const TEMPO_TIMES_ADDED = 1.2;

/** Least that a step played in no time counts as, to keep its logarithm finite. */
const LEAST_TIMES = 0.25;

/** Up to this (<=) a step is halved: the middle, as ratios, of one and a half is 0.71, a little further, as rubato takes of a beat too. */
export const HALVED_TIMES = 0.67;

/** From this (>=) on a step is doubled: likewise beyond 1.41, the middle of one and two, and further, as rubato gives more than it takes. */
export const DOUBLED_TIMES = 1.6;

/** Up to this (<=) a halved step is one alone as well: nearer, as ratios, to a half than to what counts in company. Nobody waits by hurrying, but one in four hundred steps of good players comes near. */
const HALVED_ALONE = 0.58;

/** An upbeat lasts too long from this on (>=): good players linger on it for up to twice its time. */
const UPBEAT_TIMES = 2.5;

/** Any other is a wrong length where its bar has this many (>=) that are halved or doubled. */
const WRONG_IN_BAR = 2;

/** How sure we are: a hand alone is heard against the other; beats added by both may be waited. */
const CONFIDENCE = { alone: 0.75, both: 0.65, added: 0.65, step: 0.8, upbeat: 0.6 } as const;

/** Findings of long notes, rests and entries. */
export function beatFindings(ground: RhythmGround): readonly Finding[] {
  const off = ground.facts.distances.flatMap((distance) => {
    const read = readingOf(ground, distance);
    return read === null ? [] : [{ distance, ...read }];
  });
  // what comes right after, the other way round, only makes up for it
  const key = ({ hand, stretch }: LongDistance, tick: number, sign: number): string => [hand, stretch, tick, sign].join(' ');
  const ends = new Set(off.map(({ distance, offBeats }) => key(distance, distance.toTick, Math.sign(offBeats))));
  const own = off.filter(({ distance, offBeats }) => !ends.has(key(distance, distance.fromTick, -Math.sign(offBeats))));
  return own.flatMap(({ distance, offBeats, alone }) => beatFinding(ground, distance, { offBeats, alone }));
}

/** By how many beats a distance is off, and whether one hand alone is. */
interface Reading {
  readonly offBeats: number;
  readonly alone: boolean;
}

/** What one long distance shows; null where it is right, or may be free. */
function readingOf(ground: RhythmGround, { writtenBeats, playedBeats, lateBeats, tempoTimes, filled, fromTick, toTick }: LongDistance): Reading | null {
  const byTempo = playedBeats - writtenBeats;
  if (tempoTimes > TEMPO_TIMES) return null;
  if (lateBeats !== null && Math.abs(lateBeats) >= BEAT_OFF) return Math.abs(byTempo) >= OFF_BY_TEMPO && byTempo * lateBeats > 0 ? { offBeats: lateBeats, alone: true } : null;
  if (filled || writtenBeats < COUNTED_BEATS) return null;
  if (byTempo <= -BEAT_OFF) return { offBeats: byTempo, alone: false };
  const whole = byTempo >= 1 - WHOLE_WITHIN && Math.abs(byTempo - Math.round(byTempo)) <= WHOLE_WITHIN;
  return whole && tempoTimes <= TEMPO_TIMES_ADDED && !mayBend(ground, fromTick, toTick) ? { offBeats: byTempo, alone: false } : null;
}

/** True where a phrase or section begins, be it with its upbeat, over the last harmony of a phrase, or where a fermata stands: there players take time. Unfolded ticks, both ends counted. */
function mayBend({ input: { score, analysis } }: RhythmGround, fromTick: number, toTick: number): boolean {
  const sections = analysis.sections.flatMap(({ fromBar, fromTick: startTick }) => {
    const bar = score.bars[fromBar];
    return bar === undefined ? [] : [[startTick - beatTicks(score, bar), startTick] as const];
  });
  const points = [...analysis.phrases.map(({ from }) => from.tick), ...score.notes.flatMap(({ fermata, onsetTick }) => (fermata ? [onsetTick] : []))];
  const free = [...sections, ...analysis.phrases.map(({ to, untilTick }) => [to.tick, untilTick] as const), ...points.map((tick) => [tick, tick] as const)];
  const visits = score.order.filter(({ startTick, barIndex }) => startTick <= toTick && startTick + (score.bars[barIndex]?.lengthTicks ?? 0) > fromTick);
  return visits.some(({ startTick, barIndex }) => {
    const bar = score.bars[barIndex];
    if (bar === undefined) return false;
    const shift = startTick - bar.startTick;
    const [from, to] = [Math.max(fromTick - shift, bar.startTick), Math.min(toTick - shift, bar.startTick + bar.lengthTicks - 1)];
    return free.some(([first, last]) => first <= to && last >= from);
  });
}

/** The finding of one long distance. */
function beatFinding(ground: RhythmGround, { stretch, visitIndex, hand, pairs, rest }: LongDistance, { offBeats, alone }: Reading): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined) return [];
  const early = rest ? 'restSwallowed' : 'longNoteCut';
  const late = rest ? 'entryLate' : 'longNoteDoubled';
  return findingOf(ground, {
    kind: offBeats < 0 ? early : alone ? late : 'beatAdded', hand: alone ? hand : null, visits: [visit], pairs,
    value: Math.abs(offBeats), unit: 'beats', threshold: BEAT_OFF, ratio: Math.abs(offBeats) / BEAT_OFF, confidence: alone ? CONFIDENCE.alone : offBeats < 0 ? CONFIDENCE.both : CONFIDENCE.added,
  });
}

/** Findings of notes of one length that are halved and doubled. */
export function stepFindings(ground: RhythmGround): readonly Finding[] {
  const steps = ground.facts.steps.filter(({ upbeat }) => !upbeat);
  const halved = steps.filter(({ times }) => times <= HALVED_TIMES);
  const doubled = steps.filter(({ times }) => times >= DOUBLED_TIMES);
  const inVisit = groupBy([...halved, ...doubled], ({ stretch, visitIndex }) => `${stretch} ${visitIndex}`);
  const several = ({ stretch, visitIndex }: BeatStep): boolean => (inVisit.get(`${stretch} ${visitIndex}`)?.length ?? 0) >= WRONG_IN_BAR;
  const wrong = [...halved.filter((step) => step.times <= HALVED_ALONE || several(step)), ...doubled.filter((step) => several(step) && !mayBend(ground, step.fromTick, step.toTick))];
  return wrong.flatMap((step) => stepFinding(ground, step));
}

/** Findings of an upbeat that is given the time of beats. */
export function upbeatFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.steps.filter(({ upbeat, times }) => upbeat && times >= UPBEAT_TIMES).flatMap(({ stretch, visitIndex, hand, pairs, times }) => {
    const visit = ground.visit(stretch, visitIndex);
    return visit === undefined ? [] : findingOf(ground, {
      kind: 'longUpbeat', hand, visits: [visit], pairs, value: times, unit: 'times', threshold: UPBEAT_TIMES, ratio: Math.log(times) / Math.log(UPBEAT_TIMES), confidence: CONFIDENCE.upbeat,
    });
  });
}

/** The finding of one step; the topic is its written length in crotchets. */
function stepFinding(ground: RhythmGround, { stretch, visitIndex, hand, pairs, times, fromTick, toTick }: BeatStep): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined) return [];
  const short = times < 1;
  return findingOf(ground, {
    kind: short ? 'halved' : 'doubled', hand, topic: String((toTick - fromTick) / ground.input.score.ticksPerQuarter), visits: [visit], pairs, value: times, unit: 'times',
    threshold: short ? HALVED_TIMES : DOUBLED_TIMES, ratio: Math.log(Math.max(times, LEAST_TIMES)) / Math.log(short ? HALVED_TIMES : DOUBLED_TIMES), confidence: CONFIDENCE.step,
  });
}
