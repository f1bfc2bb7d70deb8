import { describe, expect, it } from 'vitest';
import { type Measured } from '../../src/base/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { measureAll } from '../../src/measure/index.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { AWKWARD } from './awkward.js';
import { analysed, left, played, right, run, scoreOf, steady } from './piece.js';

/** Every number finite, every reason a sentence's end. */
function expectSound<T>(value: Measured<T>): void {
  if (!value.measured) {
    expect(value.reason).toMatch(/^[a-z].{10,}[^.]$/);
    return;
  }
  const numbers = typeof value.value === 'object' && value.value !== null ? Object.values(value.value) : [value.value];
  for (const number of numbers) expect(Number.isFinite(number)).toBe(true);
}

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('onset deviation: one entry a pair, in order, numbers finite', () => {
    const onsets = onsetDeviations(piece);
    expect(onsets.map((one) => one.pair)).toEqual(piece.alignment.pairs.map((_, i) => i));
    for (const { deviationMs } of onsets) expectSound(deviationMs);
  });

  it('bar facts: one entry a visit of the route, nothing counted twice or lost', () => {
    const bars = barFacts(piece, onsetDeviations(piece));
    const { route, pairs, missed, added } = piece.alignment;
    expect(bars.map((one) => [one.stretch, one.visitIndex])).toEqual(route.flatMap((stretch, i) => Array.from({ length: stretch.toVisit - stretch.fromVisit + 1 }, (_, k) => [i, stretch.fromVisit + k])));
    for (const one of bars) {
      expect(Number.isFinite(one.startS) && one.endS >= one.startS).toBe(true);
      for (const value of [one.tempo, one.right, one.left]) expectSound<unknown>(value);
    }
    const total = (pick: (one: (typeof bars)[number]) => number): number => bars.map(pick).reduce((a, b) => a + b, 0);
    expect(total((one) => one.played)).toBe(pairs.length);
    expect(total((one) => one.missed + one.wrong)).toBe(missed.length);
    expect(total((one) => one.wrong + one.added)).toBe(added.length);
  });
});

it('the same piece gives the same facts', () => {
  for (const { piece } of AWKWARD) expect(measureAll(analysed(piece))).toEqual(measureAll(analysed(piece)));
});

describe('ten thousand notes', () => {
  it.each([
    ['in both hands', scoreOf([...run(right, 5000, 0.5), ...run(left, 5000, 0.5)])],
    ['in one bar', scoreOf(Array.from({ length: 10_000 }, (_, i) => right(1, 1 + i / 8, 60)), { beats: 1250 })],
  ])('%s are all measured', (_, score) => {
    const { recording, alignment } = played(score, { clock: steady(0.4) });
    expect(measureAll(analysed({ score, recording, alignment })).onsets).toHaveLength(10_000);
  });
});
