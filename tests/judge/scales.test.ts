import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import { analyseScore } from '../../src/analysis/index.js';
import { gaussian, seededRandom } from '../../src/base/index.js';
import { judgeAll, type AspectJudgement, type Judgement } from '../../src/judge/index.js';
import { measureAll, scaleRuns } from '../../src/measure/index.js';
import { readRecording, recordingBytes } from '../../src/recording/index.js';
import { isScale, readScore, scaleXml, type Score, type ScalePlan } from '../../src/score/index.js';

const PLAN: ScalePlan = { tonic: 'C', kind: 'major', octaves: 2, hands: 'together', tempo: 120, notesPerBeat: 4, touch: 'legato' };
const SEEDS = [1, 2, 3, 4, 5] as const;

const scoreOf = (plan: Partial<ScalePlan>): Score => readScore(new TextEncoder().encode(scaleXml({ ...PLAN, ...plan })), { fileName: 'scale.musicxml' });

/** A recording of a scale whose distances scatter by a planted standard deviation, ms; both hands strike at once. */
function played(score: Score, plan: Pick<ScalePlan, 'tempo' | 'notesPerBeat'>, { sdMs, seed }: { readonly sdMs: number; readonly seed: number }) {
  const normal = gaussian(seededRandom(seed));
  const unitS = 60 / plan.tempo / plan.notesPerBeat;
  const times = new Map<number, number>();
  let now = 1;
  for (const tick of [...new Set(score.occurrences.map(({ onsetTick }) => onsetTick))].sort((a, b) => a - b)) {
    times.set(tick, now);
    now += Math.max(0.02, unitS + (normal() * sdMs) / 1000);
  }
  const notes = score.occurrences.map(({ onsetTick, endTick, midi }) => ({ onsetS: times.get(onsetTick)!, releaseS: times.get(onsetTick)! + Math.max(1, (endTick - onsetTick) / (score.ticksPerQuarter / plan.notesPerBeat)) * unitS * 1.02, pitch: midi, velocity: 64 + Math.round(4 * normal()), releaseVelocity: 60 }));
  const recording = readRecording(recordingBytes({ notes, sustain: [] }, { name: 'made' }), { fileName: 'made.mid' });
  const whole = { score, recording, analysis: analyseScore(score), alignment: alignRecording(score, recording) };
  return { ...whole, measures: measureAll(whole) };
}

const judged = (plan: Partial<ScalePlan>, sdMs: number, seed: number): Judgement => {
  const score = scoreOf(plan);
  return judgeAll({ ...played(score, { ...PLAN, ...plan }, { sdMs, seed }), language: 'british' });
};
const rhythmOf = ({ aspects }: Judgement): AspectJudgement => aspects.find(({ aspect }) => aspect === 'rhythm')!;

// quick semiquavers as Jabusch (2006) had them, and two speeds of pupils
const SPEEDS = [{ tempo: 120, notesPerBeat: 4 }, { tempo: 120, notesPerBeat: 2 }, { tempo: 80, notesPerBeat: 2 }] as const;

describe.each(SPEEDS)('a scale at %o with planted unevenness', (speed) => {
  it('is ranked by it, from 10 to 80 ms', () => {
    const concerns = [0, 10, 20, 40, 80].map((sdMs) => {
      const all = SEEDS.map((seed) => rhythmOf(judged(speed, sdMs, seed)).concern);
      return all.map((concern) => (concern.measured ? concern.value : NaN));
    });
    // every recording of one step stands under every recording of the next but one, and the means rise from step to step
    for (let i = 1; i < concerns.length; i += 1) {
      const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
      expect(mean(concerns[i]!)).toBeGreaterThan(mean(concerns[i - 1]!));
      if (i > 1) expect(Math.min(...concerns[i]!)).toBeGreaterThan(Math.max(...concerns[i - 2]!));
    }
  });

  it('is praised where it is as even as professionals’, and nothing is found fault with', () => {
    for (const seed of SEEDS) {
      // 6.5 % of the distance (Jabusch 2006, up), the least planted step of them
      const unitMs = 60_000 / speed.tempo / speed.notesPerBeat;
      const judgement = judged(speed, 0.05 * unitMs, seed);
      expect(judgement.praise.map(({ text }) => text).join(' '), `seed ${seed}`).toMatch(/even from note to note/);
      expect(judgement.observations.map(({ kind }) => kind)).toEqual([]);
    }
  });

  it('is remarked on first of all where it is plainly uneven', () => {
    for (const seed of SEEDS) {
      const unitMs = 60_000 / speed.tempo / speed.notesPerBeat;
      const { observations, praise } = judged(speed, 0.3 * unitMs, seed);
      expect(observations[0]?.kind).toBe('unevenScale');
      expect(observations[0]?.text).toMatch(/^Both hands(, going (up|down))?: the notes are uneven, most in the (right|left) hand (going (up|down) )?at the [A-G], which comes (late|early)\.$/);
      expect(observations.filter(({ kind }) => kind === 'unevenScale')).toHaveLength(1);
      expect(praise.filter(({ text }) => text.includes('even'))).toEqual([]);
    }
  });
});

describe('evenness as measured', () => {
  it('is the standard deviation of the distances about their own line', () => {
    // right hand, one octave in quavers at 60: 500 ms; the distances up are 500 but for one of 560 and the next of 440
    const score = scoreOf({ octaves: 1, hands: 'right', tempo: 60, notesPerBeat: 2 });
    const onsets = score.occurrences.map((_, i) => 1 + 0.5 * i + (i === 3 ? 0.06 : 0));
    const notes = score.occurrences.map(({ midi }, i) => ({ onsetS: onsets[i]!, releaseS: onsets[i]! + 0.5, pitch: midi, velocity: 64, releaseVelocity: 60 }));
    const recording = readRecording(recordingBytes({ notes, sustain: [] }, { name: 'made' }), { fileName: 'made.mid' });
    const [up, down] = scaleRuns({ score, recording, alignment: alignRecording(score, recording) });
    // seven distances at places -3 … 3, off their mean by 60 at -1 and by -60 at 0: slope (-1 · 60) / 28 = -2.143 ms a place;
    // squares 2 · 3600 - 60² / 28 = 7071.4, divided by 5 = 1414.3, root 37.61
    expect(up!.sdMs).toBeCloseTo(37.61, 1);
    expect(up!.intervalMs).toBeCloseTo(500, 6);
    expect(score.occurrences[alignRecording(score, recording).pairs[up!.worst.pair]!.occurrence]!.midi).toBe(65);
    expect(down!.sdMs).toBeCloseTo(0, 3);
  });
});

describe('what a scale is', () => {
  it('is told by its notes alone', () => {
    expect(isScale(scoreOf({}))).toBe(true);
    expect(isScale(scoreOf({ kind: 'majorArpeggio', octaves: 1, hands: 'left', notesPerBeat: 3 }))).toBe(true);
    expect(isScale(scoreOf({ hands: 'contrary' }))).toBe(true);
    const { occurrences } = scoreOf({});
    expect(isScale({ occurrences: occurrences.slice(0, 5) })).toBe(false);
    expect(isScale({ occurrences: [] })).toBe(false);
    // a turn in the middle of the way up
    expect(isScale({ occurrences: occurrences.map((one, i) => (i === 10 ? { ...one, midi: one.midi - 7 } : one)) })).toBe(false);
  });

  it('leaves the balance of the hands alone', () => {
    const balance = judged({}, 5, 1).aspects.find(({ aspect }) => aspect === 'balance');
    expect(balance?.concern).toEqual({ measured: false, reason: 'in a scale both hands are meant to be alike' });
  });
});
