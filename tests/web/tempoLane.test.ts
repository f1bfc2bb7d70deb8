import { describe, expect, it } from 'vitest';
import type { BarFacts, BeatMoment } from '../../src/measure/index.js';
import { barNames, type BeatUnit } from '../../src/score/index.js';
import { tempoCurve } from '../../src/web/tempoLane.js';
import { visit } from '../engrave/playing.js';
import { run, right, scoreOf, TICKS } from '../measure/piece.js';

const CROTCHET: BeatUnit = { name: 'crotchet', crotchets: 1 };

/** Three bars of four crotchets. */
const score = scoreOf(run(right, 12));

/** Beats of the first bars in their order, with the seconds at which each came. */
function beatsAt(seconds: readonly number[], stretch = 0): readonly BeatMoment[] {
  return seconds.map((onsetS, i) => ({ stretch, visitIndex: Math.floor(i / 4), tick: i * TICKS, onsetS }));
}

/** A visit with the tempo of its bar, crotchets a minute. */
function bar(index: number, tempo: number, stretch = 0): BarFacts {
  return { ...visit(index, 1, stretch), tempo: { measured: true, value: tempo } };
}

interface Shown {
  readonly bars: readonly BarFacts[];
  readonly beats: readonly BeatMoment[];
  readonly unit?: BeatUnit;
  readonly marked?: number | null;
}

function curve({ bars, beats, unit = CROTCHET, marked = null }: Shown): ReturnType<typeof tempoCurve> {
  return tempoCurve({ score, shown: new Map(bars.map((one) => [one.barIndex, one])), beats, names: barNames(score), unit, marked, language: 'british' });
}

const values = ({ curves: [first] }: ReturnType<typeof tempoCurve>): readonly number[] => (first?.points ?? []).map(({ value }) => Math.round(value));

describe('the lane of tempo', () => {
  // 0.5 s a beat is 120, 0.6 s 100, 1 s 60; the last beat has nothing after it to tell its length
  const beats = beatsAt([0, 0.5, 1, 1.5, 2, 2.6, 3.2, 3.8, 4.4, 5.4, 6.4, 7.4]);
  const bars = [bar(0, 120), bar(1, 100), bar(2, 60)];

  it('has one point a beat, each read out with its bar and its place', () => {
    const lane = curve({ bars, beats });
    expect(lane.title).toBe('Tempo by the beat');
    expect(values(lane)).toEqual([120, 120, 120, 120, 100, 100, 100, 100, 60, 60, 60]);
    expect(lane.curves[0]?.points.slice(4, 6).map(({ title, tick }) => [title, tick / TICKS])).toEqual([['bar 2, 1: 100', 4], ['bar 2, 2: 100', 5]]);
  });

  it('in the beat of the marking: minims are half as many', () => {
    expect(values(curve({ bars, beats, unit: { name: 'minim', crotchets: 2 } })).slice(0, 2)).toEqual([60, 60]);
  });

  it('one point a bar where its beats are not known', () => {
    const lane = curve({ bars, beats: beats.filter(({ visitIndex }) => visitIndex !== 1) });
    expect(values(lane)).toEqual([120, 120, 120, 100, 60, 60, 60]);
    expect(curve({ bars, beats: [] }).title).toBe('Tempo by bar');
    expect(values(curve({ bars, beats: [] }))).toEqual([120, 100, 60]);
  });

  it('shows only the tries that are shown, and is broken between two of them', () => {
    // bar 2 was played again, in a stretch of its own, at 75
    const again = [4, 5, 6, 7, 8].map((beat, i): BeatMoment => ({ stretch: 1, visitIndex: Math.floor(beat / 4), tick: beat * TICKS, onsetS: 20 + 0.8 * i }));
    const lane = curve({ bars: [bar(0, 120), bar(1, 75, 1), bar(2, 60)], beats: [...beats, ...again] });
    expect(values(lane)).toEqual([120, 120, 120, 120, 75, 75, 75, 75, 60, 60, 60]);
    expect(lane.curves[0]?.points.map(({ apart }, i) => (apart ? i : -1)).filter((i) => i >= 0)).toEqual([0, 4, 8]);
  });

  it('a wait of two seconds stands at the edge and does not squeeze the rest', () => {
    const lane = curve({ bars: [bar(0, 120), bar(1, 120), bar(2, 120)], beats: beatsAt([0, 0.5, 1, 1.5, 2, 4.5, 5, 5.5, 6, 6.5, 7, 7.5]) });
    // 60 / 2.5 = 24 is under the lower edge of 120 less its room
    expect(Math.min(...values(lane))).toBe(24);
    expect(lane.low).toBeGreaterThan(100);
  });

  it('has the marked tempo for its line, else the middle one', () => {
    expect(curve({ bars, beats, marked: 96 }).rules).toEqual([{ value: 96, text: '96, marked' }]);
    expect(curve({ bars, beats }).rules.map(({ text }) => text)).toEqual(['100']);
  });
});
