import { describe, expect, it } from 'vitest';
import type { Stretch } from '../../src/align/index.js';
import { analyseScore } from '../../src/analysis/index.js';
import type { JudgeInput } from '../../src/judge/index.js';
import { compareRecordings, comparisonInWords, comparisonReport } from '../../src/progress/index.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { material, stretch } from '../review/material.js';

// visits 0-5 are bars 1 2 1 2 3 4; occurrences 6, 7, 8 are three F sharps of the right hand in bar 2 the first time
function input({ wrong = [], route = [stretch(0, 0, 5)], visits = [0, 1, 2, 3, 4, 5] }: { wrong?: readonly number[]; route?: readonly Stretch[]; visits?: readonly number[] } = {}): JudgeInput {
  const parts = material({
    route, keys: wrong.map(() => 65),
    bars: visits.map((visitIndex) => ({ visitIndex, barIndex: [0, 1, 0, 1, 2, 3][visitIndex] ?? 0, pass: visitIndex === 2 || visitIndex === 3 ? 2 : 1 })),
    missed: wrong.map((occurrence) => ({ occurrence, stretch: 0, attempt: 1 })),
    added: wrong.map((near, note) => ({ note, stretch: 0, near, instead: true })),
  });
  return { ...parts, analysis: analyseScore(parts.score), measures: { ...NO_MEASURES, bars: parts.measures.bars }, language: 'british' };
}

describe('two recordings', () => {
  it('the same twice: not one change, and every aspect that was measured is unchanged', () => {
    const { changes, unchanged } = compareRecordings(input({ wrong: [6, 7, 8] }), input({ wrong: [6, 7, 8] }));
    expect(changes).toEqual([]);
    expect(unchanged).toContain('notes');
    expect(unchanged).toContain('route');
  });

  it('wrong notes that are gone are better, at their bars; the other way round worse', () => {
    const faulty = input({ wrong: [6, 7, 8] });
    const better = compareRecordings(faulty, input());
    expect(better.changes.map(({ aspect, direction, places }) => [aspect, direction, places.map(({ fromBar, toBar }) => [fromBar, toBar])])).toEqual([['notes', 'better', [[1, 1]]]]);
    expect(compareRecordings(input(), faulty).changes.map(({ direction }) => direction)).toEqual(['worse']);
    expect(better.unchanged).not.toContain('notes');
  });

  it('bars that only one of the two holds are not compared, and named', () => {
    const { changes, notCompared, bars } = compareRecordings(input({ wrong: [6, 7, 8] }), input({ route: [stretch(0, 4, 5)], visits: [4, 5] }));
    expect(changes.filter(({ aspect }) => aspect === 'notes')).toEqual([]);
    expect(notCompared).toEqual(['Only one of the two holds bars 1–2.']);
    expect(bars).toEqual([2, 3]);
  });

  it('goes out with printed numbers, and in sentences', () => {
    const earlier = input({ wrong: [6, 7, 8] });
    const comparison = compareRecordings(earlier, input());
    expect(comparisonReport(earlier.score, comparison)).toMatchObject({ format: 'barwise-comparison/1', changes: [{ aspect: 'notes', direction: 'better', hand: 'right', bars: ['2', '2'], pass: 1 }] });
    expect(comparisonInWords('Made up', comparison)).toContain('Better\n  Right hand, bar 2: the wrong notes are gone.');
  });
});
