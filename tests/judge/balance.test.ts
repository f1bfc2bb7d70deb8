import { describe, expect, it } from 'vitest';
import { notMeasured } from '../../src/base/index.js';
import { judgeBalance } from '../../src/judge/balance.js';
import type { Observation } from '../../src/judge/index.js';
import type { Occurrence } from '../../src/score/index.js';
import { barOf, beatOf } from '../measure/loudness.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { left, right, scoreOf, type Written } from '../measure/piece.js';
import { playedBy, shareOf, songOf } from './levelPlayers.js';

const SEEDS = 20;
const song = songOf(16, { bar: 1, text: 'mf' });

/** How far the tune is struck over the accompaniment in bars 5-10; elsewhere 15 units. */
const inBars = (units: number) => (one: Occurrence): number => (barOf(one) >= 5 && barOf(one) <= 10 ? units : 15);

const observed = (under: (one: Occurrence) => number, seed = 1, scatter = 4): readonly Observation[] => judgeBalance(playedBy(song, { seed, level: () => 60, under, scatter })).observations;
const shareSaid = (kind: string, under: (one: Occurrence) => number): number => shareOf(SEEDS, (seed) => observed(under, seed).some((one) => one.kind === kind));

describe('a covered tune', () => {
  it.each([20, 15, 10, 5])('the tune struck %i units over its accompaniment is left alone', (units) => {
    expect(shareSaid('tuneCovered', inBars(units))).toBe(0);
  });

  it.each([-5, -10, -20])('the tune struck %i units over it is found, at its bars', (units) => {
    expect(shareOf(SEEDS, (seed) => observed(inBars(units), seed).some(({ kind, places }) => kind === 'tuneCovered' && places.some(({ fromBar, toBar }) => fromBar <= 5 && toBar >= 8 && toBar - fromBar <= 7)))).toBeGreaterThanOrEqual(0.95);
  });

  it('is told with the hand that covers it, and what to do', () => {
    expect(observed(inBars(-15), 1, 0).map(({ text, advice, hand }) => [text, advice, hand])).toEqual([
      ['Bars 5–10: the left hand covers the tune.', 'Let the left hand only touch its keys while the right hand sings, then add it pp.', 'left'],
    ]);
  });

  it('one bar alone is no fault of balance', () => {
    expect(observed((one) => (barOf(one) === 5 ? -15 : 15), 1, 0)).toEqual([]);
  });

  it('in the left hand is covered by the right', () => {
    // the song upside down: the tune two octaves lower in the left hand, repeated chords on the off-beats above it
    const tune = song.notes.filter(({ staff }) => staff === 1).map((note): Written => left(note.barIndex + 1, 1 + (note.onsetTick % 1920) / 480, note.pitch.midi - 24, note.lengthTicks / 480));
    const chords = Array.from({ length: 64 }, (_, i) => [67, 71, 74].map((pitch) => right(1 + Math.floor(i / 4), 1.5 + (i % 4), pitch, 0.5))).flat();
    const score = scoreOf([...tune, ...chords]);
    const covered = judgeBalance(playedBy(score, { seed: 1, scatter: 0, level: (one) => (one.staff === 1 ? 75 : 60), under: () => 0 })).observations;
    expect(covered[0]?.text).toMatch(/^The right-hand chords cover the tune, most in bars /);
    expect(judgeBalance(playedBy(score, { seed: 1, scatter: 0, level: (one) => (one.staff === 1 ? 45 : 60), under: () => 0 })).observations).toEqual([]);
  });
});

describe('hands alike', () => {
  it('is one remark on the whole, at the worst bars', () => {
    const [one, ...others] = observed(() => 4, 1, 0);
    expect(others).toEqual([]);
    expect([one?.kind, one?.hand]).toEqual(['handsAlike', 'left']);
    expect(one?.text).toMatch(/^The tune stands hardly over its accompaniment, least in bars? \d/);
    expect(one?.places.length).toBeLessThanOrEqual(4);
  });

  it.each([20, 15, 10])('%i units throughout are left alone', (units) => {
    expect(shareOf(SEEDS, (seed) => observed(() => units, seed).length > 0)).toBe(0);
  });

  it.each([2, 0, -8])('%i units throughout are one remark', (units) => {
    // what a long tune note loses while the accompaniment goes on may make alike into covered
    const kinds = ['handsAlike', 'coveredThroughout'];
    expect(shareOf(SEEDS, (seed) => observed(() => units, seed).map(({ kind }) => kind).filter((kind) => kinds.includes(kind)).length === 1)).toBeGreaterThanOrEqual(0.95);
  });
});

describe('chords', () => {
  const chords: Written[] = Array.from({ length: 32 }, (_, i) => [[60, 64, 67], [60, 65, 69]][i % 2]?.map((pitch) => right(1 + Math.floor(i / 4), 1 + (i % 4), pitch)) ?? []).flat();
  const found = (top: number): readonly string[] => judgeBalance(playedBy(scoreOf(chords), { seed: 1, scatter: 0, level: ({ midi }) => 50 + (midi >= 67 ? top : 0) })).observations.map(({ kind }) => kind);

  it('whose tops are softer than the rest are told; as loud as the rest, and louder, are not', () => {
    expect([-6, 0, 8].map(found)).toEqual([['chordsNotVoiced'], [], []]);
  });
});

describe('praise', () => {
  const praised = (under: (one: Occurrence) => number): readonly string[] => (judgeBalance(playedBy(song, { seed: 1, scatter: 0, level: () => 60, under })).praise ?? []).map(({ text }) => text);

  it('is for the longest stretch of four bars or more in which the tune sings, where nothing is to be said', () => {
    expect(praised((one) => (barOf(one) >= 5 && barOf(one) <= 10 ? 26 : 8))).toEqual(['Bars 5–10: the tune sings over its accompaniment.']);
    expect(praised((one) => (barOf(one) >= 5 && barOf(one) <= 7 ? 26 : 8))).toEqual([]);
    expect(praised((one) => (barOf(one) >= 5 && barOf(one) <= 10 ? 26 : -15))).toEqual([]);
  });
});

describe('the whole', () => {
  it('concern rises as the tune sinks', () => {
    const order = [20, 14, 8, 2, -6].map((units) => {
      const judged = judgeBalance(playedBy(song, { seed: 2, level: () => 60, under: () => units })).concern;
      return judged.measured ? judged.value : -1;
    });
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(new Set(order).size).toBe(5);
  });

  it('nothing is judged that was not measured, nor one hand alone', () => {
    const input = playedBy(song, { seed: 1, level: () => 60 });
    const none = notMeasured('too few notes were played');
    expect(judgeBalance({ ...input, measures: { ...NO_MEASURES, levels: none } })).toEqual({ aspect: 'balance', concern: none, summary: '', observations: [] });
    const alone = scoreOf(song.notes.filter(({ staff }) => staff === 1).map((note): Written => right(note.barIndex + 1, 1 + (note.onsetTick % 1920) / 480, note.pitch.midi, note.lengthTicks / 480)));
    expect(judgeBalance(playedBy(alone, { seed: 1, level: () => 60 })).concern).toEqual(notMeasured('too little is heard of a tune and an accompaniment together'));
  });

  it('the accent on the first beat moves nothing', () => {
    expect(observed((one) => (beatOf(one) === 1 ? 12 : 15), 1, 0)).toEqual([]);
  });
});
