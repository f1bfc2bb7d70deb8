import { describe, expect, it } from 'vitest';
import { expectedBends, reasonsAt } from '../../src/measure/expectedBends.js';
import { feltBeat } from '../../src/measure/waits.js';
import type { Measured } from '../../src/base/index.js';
import type { Score } from '../../src/score/index.js';
import { AWKWARD } from './awkward.js';
import { played, right, run, scoreOf, steady, TICKS } from './piece.js';
import { marked, measuredAll, tempoMark } from './pulsePiece.js';

const BAR = 4 * TICKS;

/** Eight bars of crotchets, invented. */
const score = scoreOf(run(right, 32));

const value = (one: Measured<number> | undefined): number => (one?.measured === true ? one.value : NaN);

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('pulse: one entry a visit, numbers finite, waits in order', () => {
    const { bars, pulse } = measuredAll(piece);
    expect(pulse.bars).toHaveLength(bars.length);
    for (const { tempo, againstAround, offNeighbours, drift, unevenness, waitBeats } of pulse.bars) {
      for (const one of [tempo, againstAround, offNeighbours, drift, unevenness]) {
        if (one.measured) expect(Number.isFinite(one.value)).toBe(true);
        else expect(one.reason).toMatch(/^[a-z].{10,}[^.]$/);
      }
      expect(Number.isFinite(waitBeats) && waitBeats >= 0).toBe(true);
    }
    for (const { waitS, beats, times } of pulse.waits) expect([waitS, beats, times].every((one) => Number.isFinite(one) && one > 0)).toBe(true);
    for (const { onsetS } of pulse.beats) expect(Number.isFinite(onsetS)).toBe(true);
    expect(pulse.spans.reduce((sum, { fromVisit, toVisit }) => sum + toVisit - fromVisit + 1, 0)).toBe(bars.length);
  });
});

describe('a bar', () => {
  it('keeps its tempo where the playing waits: the wait is told apart', () => {
    // 0.6 s before the third beat of bar 4, crotchets of 0.5 s: 1.2 beats
    const { pulse, bars } = measuredAll(played(score, { clock: (c) => 0.5 * c + (c >= 14 ? 0.6 : 0) }));
    expect(value(pulse.bars[3]?.tempo)).toBeCloseTo(120, 6);
    expect(pulse.bars[3]?.waitBeats).toBeCloseTo(1.2, 6);
    expect(value(bars[3]?.tempo)).toBeCloseTo(240 / 2.6, 6); // with the wait: four crotchets in 2.6 s
    expect(pulse.waits).toHaveLength(1);
    expect(pulse.waits[0]).toMatchObject({ visitIndex: 3, tick: 14 * TICKS, fromTick: 13 * TICKS, slip: false, elsewhere: [] });
  });

  it('by the bars around it, and by its neighbours', () => {
    // bar 4 in crotchets of 0.4 s, the others 0.5: 150 by 120 = 1.25
    const { pulse } = measuredAll(played(score, { clock: (c) => 0.5 * c - 0.1 * Math.min(4, Math.max(0, c - 12)) }));
    expect(value(pulse.bars[3]?.againstAround)).toBeCloseTo(1.25, 6);
    expect(value(pulse.bars[3]?.offNeighbours)).toBeCloseTo(0.25, 6);
    expect(value(pulse.bars[2]?.offNeighbours)).toBeCloseTo(Math.sqrt(1.25) - 1, 6); // half of the logarithm
  });

  it('drifts and is uneven by its beats', () => {
    // every second beat 0.6 s, the others 0.4: each is 0.2 from the mean of its neighbours, a third or a half of it
    const { pulse } = measuredAll(played(score, { clock: (c) => 0.5 * c + (c % 2 === 1 ? -0.1 : 0) }));
    const unevenness = value(pulse.bars[3]?.unevenness);
    expect(unevenness).toBeGreaterThanOrEqual(0.3);
    expect(unevenness).toBeLessThanOrEqual(0.5);
    expect(value(pulse.bars[3]?.drift)).toBeCloseTo(0.4 / 0.6, 6); // first beat 0.4 s, last 0.6
  });

  it('a smooth change of tempo is even', () => {
    // an even quickening: seconds fall by 2 ms a crotchet, so each beat is the mean of its neighbours
    const { pulse } = measuredAll(played(score, { clock: (c) => 0.5 * c - 0.001 * c * c }));
    for (const { unevenness } of pulse.bars) if (unevenness.measured) expect(unevenness.value).toBeCloseTo(0, 9);
  });
});

describe('the beat curve', () => {
  it('does not follow one late note: 40 ms at 500 ms', () => {
    const beats = measuredAll(played(score, { clock: steady(0.5), shiftMs: ({ index }) => (index === 13 ? 40 : 0) })).pulse.beats;
    expect(beats).toHaveLength(32);
    beats.slice(1, -1).forEach(({ onsetS }, i) => expect(onsetS).toBeCloseTo(0.5 * (i + 1), 9));
  });
});

describe('a beat as it is felt', () => {
  it.each([[0.6, 4, 0.6], [0.35, 3, 0.8], [0.25, 3, 0.75], [0.3, 4, 0.6], [0.2, 6, 0.6], [2, 4, 1.5], [0.1, 1, 0.5]])('%f s, %i in a bar: %f s', (beatS, beats, felt) => {
    expect(feltBeat(beatS, beats)).toBeCloseTo(felt, 9);
  });
});

describe('waits at one written place', () => {
  it('are set beside each other, in every try', () => {
    const waiting = (c: number): number => 0.5 * c + (c >= 14 ? 0.4 : 0);
    const { pulse } = measuredAll(played(score, { clock: waiting, visits: [0, 7] }, { clock: (c) => 30 + 0.5 * c, visits: [0, 7] }));
    expect(pulse.waits.map(({ stretch, elsewhere }) => [stretch, elsewhere.length])).toEqual([[0, 1]]);
    expect(pulse.waits[0]?.elsewhere[0]).toBeCloseTo(0, 6);
  });
});

describe('where the time may bend', () => {
  const at = (piece: Score, bar: number, beat: number): readonly string[] => {
    const tick = (bar - 1) * BAR + (beat - 1) * TICKS;
    return reasonsAt(expectedBends(piece, { sections: [], phrases: [] }), { fromTick: tick - TICKS, tick, visitIndex: bar - 1 });
  };
  const withNote = (index: number, change: object): Score => ({ ...score, notes: score.notes.map((note) => (note.index === index ? { ...note, ...change } : note)) });

  it('into and out of a note under a fermata', () => {
    const held = withNote(9, { fermata: true }); // second beat of bar 3
    expect([1, 2, 3, 4].map((beat) => at(held, 3, beat))).toEqual([[], ['fermata'], ['fermata'], ['fermata']]);
    expect(at(held, 4, 2)).toEqual([]);
  });

  it('after a breath mark', () => {
    expect(at(withNote(9, { articulations: ['breathMark'] }), 3, 3)).toEqual(['breath']);
  });

  it('under a ritardando until the next mark, and around a tempo', () => {
    const piece = marked(score, tempoMark('rit.', { bar: 3 }), tempoMark('a tempo', { bar: 4 }));
    expect(at(piece, 3, 3)).toEqual(['bendWord']);
    expect(at(piece, 4, 1)).toEqual(['bendWord', 'tempoWord']);
    expect(at(piece, 4, 4)).toEqual([]);
  });

  it('no more than two bars under a word that nothing takes back', () => {
    const piece = marked(score, tempoMark('rit.', { bar: 3 }));
    expect(at(piece, 4, 4)).toEqual(['bendWord']);
    expect(at(piece, 5, 3)).toEqual([]);
  });

  it('as the player likes ad libitum', () => {
    expect(at(marked(score, tempoMark('ad lib.', { bar: 3 })), 3, 2)).toEqual(['free']);
  });

  const lined = (barline: object): Score => ({ ...score, bars: score.bars.map((bar) => (bar.index === 2 ? { ...bar, barlines: [{ location: 'right', style: null, repeat: null, fermata: false, ...barline }] } : bar)) });

  it('at a repeat sign, in a double bar line, in the last bar', () => {
    expect(at(lined({ repeat: 'backward' }), 4, 1)).toEqual(['sectionStart']);
    expect(at(lined({ style: 'light-light' }), 4, 1)).toEqual(['sectionStart']);
    expect(at(lined({ style: 'light-heavy' }), 4, 1)).toEqual(['sectionStart']);
    expect(at(lined({ fermata: true }), 4, 1)).toEqual(['fermata']);
    expect(at(score, 8, 2)).toEqual(['close']);
    expect(at(score, 4, 1)).toEqual([]);
  });

  it('as the player likes where a new tempo begins at a double bar line, as between variations', () => {
    expect(at(marked(lined({ style: 'light-light' }), tempoMark('Allegro', { bar: 4 })), 4, 1)).toEqual(['free', 'tempoWord']);
    expect(at(marked(lined({ style: 'light-light' }), tempoMark('Allegro', { bar: 5 })), 4, 1)).toEqual(['sectionStart']);
  });

  it('from a beat before the last harmony of a phrase to the next phrase', () => {
    const place = (tick: number): { readonly tick: number; readonly barIndex: number; readonly offset: number } => ({ tick, barIndex: Math.floor(tick / BAR), offset: (tick % BAR) / TICKS });
    const bends = expectedBends(score, { sections: [], phrases: [{ from: place(0), to: place(3 * BAR), untilTick: 4 * BAR }] });
    const reasons = (tick: number): readonly string[] => reasonsAt(bends, { fromTick: tick - TICKS, tick, visitIndex: Math.floor(tick / BAR) });
    expect([3 * BAR - 2 * TICKS, 3 * BAR - TICKS, 4 * BAR, 4 * BAR + TICKS, 4 * BAR + 2 * TICKS].map(reasons)).toEqual([[], ['phraseEnd'], ['phraseEnd'], ['phraseEnd'], []]);
  });
});
