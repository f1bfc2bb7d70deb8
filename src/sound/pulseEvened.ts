/*
 * The pulse evened: her notes, her dynamics, her touch; only when things come is changed.
 *
 * Conventions: seconds. All moments of a stretch, keys and feet alike, are moved by one clock: every beat lasts as long as the middle beat under its
 *   tempo mark. What lies within a beat keeps its share of it, so that early and late notes stay as early and late. Where the score lets
 *   time bend (ritardando, fermata, breath, free time, the close) it bends as she bent it. A wait inside a beat is taken out where it is.
 * Source: our own rule.
 * What it does not tell: that music should be played so; a clock without any bend is for hearing where it bends.
 */
import type { ControlPoint } from '../recording/index.js';
import { beatTicks, visitAtTick } from '../score/index.js';
import type { BendReason } from '../measure/index.js';
import { clockOf } from './clock.js';
import { draftOf, versionOf } from './draft.js';
import { waitsInWords } from './pulseWords.js';
import { middleSpeed, reachedAt, stretchPoints, type StretchPoints } from './spanTempo.js';
import type { ClockPoint, SoundInput, Version } from './types.js';

/** What the score writes that lets time bend; phrase ends and new sections are the player's own. */
const WRITTEN_BENDS: ReadonlySet<BendReason> = new Set(['free', 'fermata', 'breath', 'close', 'bendWord']);

/** A gap is a wait of its own from so many times (>=) what the pulse gives it, and so much longer (>=), seconds: what is just heard in a single interval (Drake and Botte 1993: 6 %) is far less, so that small lateness stays in its beat. */
const WAIT_TIMES = 1.3;
const WAIT_S = 0.1;

/** Her playing with every beat as long as the middle one. */
export function pulseEvened(input: SoundInput): Version {
  const clock = evenClock(input);
  const moved = clockOf(clock);
  const notes = draftOf(input.recording).map((note) => ({ ...note, onsetS: moved(note.onsetS), releaseS: moved(note.releaseS) }));
  const pedal = (points: readonly ControlPoint[]): readonly ControlPoint[] => points.map(({ timeS, value }) => ({ timeS: moved(timeS), value }));
  const version = versionOf('pulse', input.recording, { notes, sustain: pedal(input.recording.sustain), clock, changes: waitsInWords(input, clock) });
  const { sostenuto, soft, durationS } = input.recording;
  return { ...version, recording: { ...version.recording, sostenuto: pedal(sostenuto), soft: pedal(soft), durationS: moved(durationS) } };
}

/** Her moments and the even ones, stretch by stretch; between stretches she takes her own time. */
function evenClock(input: SoundInput): readonly ClockPoint[] {
  const clock: ClockPoint[] = [];
  stretchPoints(input).forEach((points, stretch) => {
    const steps = stepsOf(input, points, stretch);
    const [first] = steps;
    if (first === undefined) return;
    const last = clock.at(-1);
    // a stretch may begin while the one before it still sounds
    if (last !== undefined && first.fromS <= last.playedS) return;
    let now = last === undefined ? first.fromS : last.versionS + first.fromS - last.playedS;
    clock.push({ playedS: first.fromS, versionS: now });
    for (const { toS, evenS } of steps) {
      now += evenS;
      clock.push({ playedS: toS, versionS: now });
    }
  });
  return clock;
}

/** From one anchor to the next: as played, and as long as it lasts evenly. */
interface Step {
  readonly fromS: number;
  readonly toS: number;
  readonly evenS: number;
}

/** The steps of one stretch. */
function stepsOf(input: SoundInput, points: StretchPoints, stretch: number): readonly Step[] {
  const ticks = anchorTicks(input, points, stretch);
  const bends = new Map(input.measures.bars.map((bar, i) => [`${bar.stretch} ${bar.visitIndex}`, (input.measures.pulse.bars[i]?.bends ?? []).some((bend) => WRITTEN_BENDS.has(bend))]));
  return ticks.slice(1).map((tick, i) => {
    const from = ticks[i] ?? tick;
    const visitIndex = visitAtTick(input.score, from).index;
    const speed = middleSpeed(input, points, { stretch, visitIndex });
    const [fromS, toS] = [reachedAt(points, from, speed), reachedAt(points, tick, speed)];
    return { fromS, toS, evenS: bends.get(`${stretch} ${visitIndex}`) === true ? toS - fromS : (tick - from) * speed };
  });
}

/** Beats between the first and the last moment, both of these, and both ends of every wait. */
function anchorTicks(input: SoundInput, points: StretchPoints, stretch: number): readonly number[] {
  const [first, last] = [points[0], points.at(-1)];
  const route = input.alignment.route[stretch];
  if (first === undefined || last === undefined || route === undefined || first === last) return [];
  const { score } = input;
  const beats = score.order.slice(route.fromVisit, route.toVisit + 1).flatMap(({ barIndex, startTick }) => {
    const bar = score.bars[barIndex];
    const beat = bar === undefined ? 0 : beatTicks(score, bar);
    return bar === undefined ? [] : Array.from({ length: Math.ceil(bar.lengthTicks / beat) }, (_, i) => startTick + i * beat);
  });
  const waits = points.slice(1).flatMap((point, i) => {
    const before = points[i] ?? point;
    const evenS = (point.tick - before.tick) * middleSpeed(input, points, { stretch, visitIndex: visitAtTick(score, before.tick).index });
    const gapS = point.onsetS - before.onsetS;
    return gapS >= WAIT_TIMES * evenS && gapS - evenS >= WAIT_S ? [before.tick, point.tick] : [];
  });
  const inside = beats.filter((tick) => tick > first.tick && tick < last.tick);
  return [...new Set([first.tick, ...inside, ...waits, last.tick])].sort((a, b) => a - b);
}
