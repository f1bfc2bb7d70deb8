/** Short pieces under a made foot: written notes, how long the keys are down, and when the pedal moves. Invented, all of them. */
import { withTeachersPlan, type TeachersPlan } from '../../src/analysis/index.js';
import { judgePedal } from '../../src/judge/pedal.js';
import { measureAll } from '../../src/measure/index.js';
import type { ControlPoint } from '../../src/recording/index.js';
import type { Direction, Score, ScoreNote, Step } from '../../src/score/index.js';
import type { AspectJudgement, JudgeInput } from '../../src/judge/index.js';
import { analysed, left, played, right, scoreOf, steady, TICKS, type Written } from '../measure/piece.js';

/** One movement of the foot: to a value, so many seconds after the first beat of a bar (from 1). */
export interface Movement {
  readonly bar: number;
  readonly afterS: number;
  readonly value: number;
}

/** A piece and how it is played. */
export interface Playing {
  readonly written: readonly Written[];
  /** Seconds a crotchet. */
  readonly crotchetS: number;
  readonly foot: readonly Movement[];
  /** The left foot, on the soft pedal; never used where left out. */
  readonly soft?: readonly Movement[];
  /** When the key of a note comes up, seconds after its onset, from its written length in seconds. */
  readonly keyS?: (note: Written, writtenS: number) => number;
  readonly marks?: readonly Pick<Direction, 'kind' | 'text' | 'onsetTick' | 'untilTick'>[];
  /** The teacher's own plan of the pedal. */
  readonly planned?: TeachersPlan;
}

const STEPS: readonly Step[] = ['C', 'C', 'D', 'E', 'E', 'F', 'F', 'G', 'A', 'A', 'B', 'B'];
const ALTERS: readonly number[] = [0, 1, 0, -1, 0, 0, 1, 0, -1, 0, -1, 0];

/** Notes with their names, as in C major. */
function spelled(note: ScoreNote): ScoreNote {
  const { midi } = note.pitch;
  return { ...note, pitch: { step: STEPS[midi % 12] ?? 'C', alter: ALTERS[midi % 12] ?? 0, octave: Math.floor(midi / 12) - 1, midi } };
}

/** The score of a playing. */
function scored({ written, marks = [] }: Playing): Score {
  const score = scoreOf(written);
  return { ...score, notes: score.notes.map(spelled), directions: marks.map((mark) => ({ barIndex: Math.floor(mark.onsetTick / (4 * TICKS)), staff: null, value: null, ...mark })) };
}

/** The judge's input. */
export function inputOf(playing: Playing): JudgeInput {
  const { crotchetS, foot, written, keyS = (_: Written, writtenS: number): number => writtenS } = playing;
  const score = scored(playing);
  const piece = played(score, { clock: steady(crotchetS, 1) });
  const of = new Map(piece.alignment.pairs.map(({ note, occurrence }) => [note, written[score.occurrences[occurrence]?.noteIndex ?? -1]]));
  const notes = piece.recording.notes.map((note) => {
    const one = of.get(note.index);
    return one === undefined ? note : { ...note, velocity: one.velocity ?? 70, releaseS: note.onsetS + keyS(one, one.length * crotchetS) };
  });
  const pedal = (moves: readonly Movement[]): readonly ControlPoint[] => moves.map(({ bar, afterS, value }) => ({ timeS: 1 + (bar - 1) * 4 * crotchetS + afterS, value })).sort((a, b) => a.timeS - b.timeS);
  const [sustain, soft] = [pedal(foot), pedal(playing.soft ?? [])];
  const recording = { ...piece.recording, notes, sustain, soft, durationS: Math.max(...notes.map(({ releaseS }) => releaseS), ...sustain.map(({ timeS }) => timeS)) + 1 };
  const plain = analysed({ ...piece, recording });
  const whole = playing.planned === undefined ? plain : { ...plain, analysis: withTeachersPlan(score, plain.analysis, playing.planned) };
  return { ...whole, measures: measureAll(whole), language: 'british' };
}

/** What is said of a playing. */
export function judged(playing: Playing): AspectJudgement {
  return judgePedal(inputOf(playing));
}

/** "blurred 3": kinds with the printed bars of their places, in order. */
export function namesOf({ observations }: AspectJudgement): readonly string[] {
  return observations.flatMap(({ kind, places }) => places.map(({ fromBar }) => `${kind} ${fromBar + 1}`)).sort();
}

/** Chords of the pieces: bass, then the notes above it. */
export const CHORDS = {
  C: [36, 55, 60, 64], F: [41, 57, 60, 65], G: [43, 55, 59, 62], Am: [45, 57, 60, 64], Dm: [38, 57, 62, 65],
  'C/E': [40, 55, 60, 64], 'C/G': [43, 55, 60, 64],
} as const satisfies Record<string, readonly number[]>;

/** Name of a chord. */
export type ChordName = keyof typeof CHORDS;

/** One chord a bar. The left hand has the bass and the chord as `style` says, the right hand a chord note as a tune. */
export function chorale(chords: readonly ChordName[], style: 'held' | 'jumping' | 'broken' | 'high'): readonly Written[] {
  return chords.flatMap((name, i) => {
    const [bass, ...upper] = CHORDS[name];
    const tune = right(i + 1, 1, (upper.at(-1) ?? 64) + 12, 4);
    if (style === 'held') return [left(i + 1, 1, bass, 4), ...upper.map((pitch) => left(i + 1, 1, pitch, 4)), tune];
    if (style === 'jumping') return [left(i + 1, 1, bass, 1), ...[2, 3, 4].flatMap((beat) => upper.map((pitch) => left(i + 1, beat, pitch, 1))), tune];
    if (style === 'high') return [bass + 48, ...upper.map((pitch) => pitch + 36)].map((pitch, k) => (k === 0 ? left : right)(i + 1, 1, pitch, 4));
    return [...[bass, ...upper, ...upper.slice(0, 2).reverse(), ...upper.slice(0, 2)].map((pitch, k) => left(i + 1, 1 + k / 2, pitch, 0.5)), tune];
  });
}

/** The legato change at every bar line from `from` to `to`: up with the chord, down again when it is clear. */
export function legato(from: number, to: number, { liftS = 0.02, pressS = 0.26 } = {}): readonly Movement[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i).flatMap((bar) => [...(bar === 1 ? [] : [{ bar, afterS: liftS, value: 0 }]), { bar, afterS: pressS, value: 127 }]);
}

/** A pedal mark over a stretch of bars, from 1, the last inclusive. */
export function marked(fromBar: number, toBar: number): Pick<Direction, 'kind' | 'text' | 'onsetTick' | 'untilTick'> {
  return { kind: 'pedal', text: 'start', onsetTick: (fromBar - 1) * 4 * TICKS, untilTick: toBar * 4 * TICKS };
}
