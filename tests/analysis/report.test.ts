import { expect, it } from 'vitest';
import { analyseScore, analysisReport, type AnalysisReport } from '../../src/analysis/index.js';
import { score, type WrittenBar } from '../align/build.js';
import { direction, repeatEnd, repeatStart } from '../score/build.js';

/** Four bars in C, the first two repeated; I - V7 | I | IV - V | I. */
const bars: WrittenBar[] = [
  { right: 'E5/2 D5/2', left: 'C3+G3/2 G2+F3+B3/2', before: repeatStart, number: '1' },
  { right: 'C5/4', left: 'C3+E3+G3/4', after: repeatEnd, number: '2' },
  { right: 'A4/2 B4/2', left: 'F2+C3/2 G2+D3/2', before: direction('<pedal type="start" line="yes"/>'), number: '2a' },
  { right: 'C5/4', left: 'C2+G2+E3/4', number: '3' },
];
const written = score(bars);
const report: AnalysisReport = analysisReport(written, analyseScore(written));

it('names its format and gives the order as played by printed numbers', () => {
  expect(report.format).toBe('barwise-analysis/1');
  expect(report.order).toEqual(['1', '2', '1', '2', '2a', '3']);
});

it('begins the keys with that of the whole', () => {
  expect(report.keys[0]).toMatchObject({ bar: '1', tonic: 0, mode: 'major' });
});

it('gives each harmony its place, root, quality, bass and degree', () => {
  // chords as written above: C, G7, C, F, G, C
  expect(report.harmonies.map(({ bar, offset, root }) => [bar, offset, root])).toEqual([['1', 0, 0], ['1', 2, 7], ['2', 0, 0], ['2a', 0, 5], ['2a', 2, 7], ['3', 0, 0]]);
  expect(report.harmonies[1]).toMatchObject({ quality: 'dominantSeventh', bass: 7, degree: 'V7' });
});

it('gives phrases from their beginning to the onset of their last harmony', () => {
  expect(report.phrases[0]!.from).toEqual({ bar: '1', offset: 0 });
  expect(report.phrases.at(-1)!.to).toEqual({ bar: '3', offset: 0 });
});

it('gives the pedal plan with places, kinds and reasons', () => {
  const last = report.pedalPlan.entries.at(-1)!;
  expect(last).toMatchObject({ kind: 'down', source: 'printed', from: { bar: '2a', offset: 0 }, to: { bar: '3', offset: 4 }, id: 'pedal-2-0' });
  expect(report.pedalPlan.entries.map(({ reason }) => reason).every((reason) => reason !== '')).toBe(true);
});

it('names bars as text in sections and sentences', () => {
  const bounds = [...report.sections.map((section) => section.bars), ...report.notes.beforeTeaching.flatMap(({ places }) => places)].flat();
  expect(bounds.length).toBeGreaterThan(0);
  expect(bounds.every((bar) => written.bars.some(({ number }) => number === bar))).toBe(true);
});

it('is plain JSON', () => {
  expect(JSON.parse(JSON.stringify(report))).toEqual(report);
});

it('is whole for a score without notes', () => {
  const empty = score(['r/4']);
  expect(analysisReport(empty, analyseScore(empty))).toMatchObject({ order: ['1'], sections: [], phrases: [], keys: [], harmonies: [], cadences: [], pitfalls: [], pedalPlan: { basis: 'none', entries: [] } });
});
