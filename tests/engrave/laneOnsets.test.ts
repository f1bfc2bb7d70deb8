import { expect, test } from 'vitest';
import { laneOnsets, type Lane, type MarkMaterial } from '../../src/engrave/index.js';
import { engraving, headAt, material, occurrence, pressed, visit } from './playing.js';

const SYSTEM = engraving.systems[0]!;

/** Playing in which these notes were so many ms late. */
function played(deviations: Readonly<Record<string, number>>, shown?: MarkMaterial['shown']): MarkMaterial {
  const entries = Object.entries(deviations);
  const pairs = entries.map(([id], note) => ({ occurrence: occurrence(id), note, stretch: 0, attempt: 1, octaveSlip: 0 }));
  const onsets = entries.map(([, ms], pair) => ({ pair, deviationMs: { measured: true, value: ms } as const }));
  const of = material({ notes: entries.map((_, i) => pressed(i, i, 60)), alignment: { pairs }, measures: { onsets } });
  return shown ? { ...of, shown } : of;
}

function points({ svg }: Lane): readonly { id: string; cx: number; cy: number; filled: boolean }[] {
  return [...svg.matchAll(/data-note="([^"]+)".*?<circle cx="([^"]+)" cy="([^"]+)" r="[^"]+" fill="([^"]+)"/g)].map(([, id, cx, cy, fill]) => ({ id: id!, cx: Number(cx), cy: Number(cy), filled: fill === 'currentColor' }));
}

function zeroOf({ svg }: Lane): number {
  return Number(/class="lane-zero" d="M[\d.]+ ([\d.]+)H/.exec(svg)![1]);
}

test('200 ms are 29 px, late up and early down, under the note’s own head', () => {
  const lane = laneOnsets(SYSTEM, played({ 'top-line': 200, 'bottom-line': -200, 'middle-c': 0 }));
  const zero = zeroOf(lane);
  const [late, early, exact] = points(lane);
  expect(zero - late!.cy).toBeCloseTo(29, 1);
  expect(early!.cy - zero).toBeCloseTo(29, 1);
  expect(exact!.cy).toBeCloseTo(zero, 1);
  expect(late!.cx).toBeCloseTo(headAt('top-line').x, 1);
});

test('notes written at one moment stand at one x, also where a head is printed beside its chord', () => {
  const moved = { ...SYSTEM, notes: SYSTEM.notes.map((note) => (note.id === 'chord-mid' ? { ...note, x: note.x - 9 } : note)) };
  const lane = laneOnsets(moved, played({ 'chord-low': 0, 'chord-mid': 10, 'chord-high': 20 }));
  // three heads and the bass: x, x, x and x - 9, so the middle one tells x
  expect(points(lane).map(({ cx }) => cx)).toEqual(Array.from({ length: 3 }, () => points(lane)[0]!.cx));
  expect(points(lane)[0]!.cx).toBeCloseTo(headAt('chord-low').x, 1);
});

test('labels begin at the page’s left edge in every system', () => {
  const xs = [...laneOnsets(SYSTEM, played({ 'top-line': 300, 'bottom-line': -300 })).svg.matchAll(/class="lane-label" x="([^"]+)"/g)].map(([, x]) => x);
  expect(xs).toEqual(['0', '0', '0']);
});

test('the right hand is filled, the left open', () => {
  const lane = laneOnsets(SYSTEM, played({ 'top-line': 0, 'bass-top': 0 }));
  expect(points(lane).map(({ id, filled }) => [id, filled])).toEqual([['top-line', true], ['bass-top', false]]);
});

test('a point inside the band of 40 ms has no stem, one beyond it has', () => {
  const stems = (ms: number): number => laneOnsets(SYSTEM, played({ 'top-line': ms })).svg.match(/<path fill="none"/g)?.length ?? 0;
  expect(stems(40)).toBe(0);
  expect(stems(41)).toBe(1);
});

test('a rule at 0.2 s stands only on the side where a note is more than 110 ms off', () => {
  const labels = (ms: number): string[] => [...laneOnsets(SYSTEM, played({ 'top-line': ms, 'bottom-line': 0 })).svg.matchAll(/class="lane-label"[^>]*>([^<]*)</g)].map(([, text]) => text!).sort();
  expect(labels(110)).toEqual(['in time']);
  expect(labels(111)).toEqual(['0.2 s late', 'in time']);
  expect(labels(-111)).toEqual(['0.2 s early', 'in time']);
});

test('only the room that is needed', () => {
  const height = (ms: number): number => laneOnsets(SYSTEM, played({ 'top-line': ms })).heightPx;
  expect(height(0)).toBeLessThan(height(120));
  // 200 ms and 250 ms: 50 ms are 7.25 px more
  expect(height(250) - height(200)).toBeGreaterThanOrEqual(7);
  expect(height(250) - height(200)).toBeLessThanOrEqual(8);
});

test('beyond 400 ms a point stays at the edge and says its figure', () => {
  const lane = laneOnsets(SYSTEM, played({ 'top-line': 1500 }));
  expect(zeroOf(lane) - points(lane)[0]!.cy).toBeCloseTo(58, 1);
  expect(lane.svg).toContain('data-ms="1500"');
  expect(lane.svg).toContain('<title>right hand, 1500 ms late</title>');
});

test('bar lines run through at the bars’ own edges', () => {
  const { svg } = laneOnsets(SYSTEM, played({ 'top-line': 0 }));
  const lines = [...svg.matchAll(/<path data-bar="(\d)" d="M([\d.]+) /g)].map(([, bar, x]) => [Number(bar), Number(x)]);
  expect(lines.map(([bar]) => bar)).toEqual([0, 1]);
  lines.forEach(([, x], i) => expect(x).toBeCloseTo(SYSTEM.bars[i]!.right - 0.5, 1));
});

test('points are linked to bar, visit and try', () => {
  expect(laneOnsets(SYSTEM, played({ 'top-line': 0 })).svg).toContain('<g class="lane-points" data-bar="0" data-visit="0" data-attempt="1" data-stretch="0">');
});

test('notes of another try than the shown one are left out; without any note the lane has no height', () => {
  const of = played({ 'top-line': 10 }, new Map([[0, visit(0, 2, 1)]]));
  expect(laneOnsets(SYSTEM, of)).toEqual({ svg: '', heightPx: 0 });
});

test('a note whose pulse could not be measured has no point', () => {
  const of = material({
    notes: [pressed(0, 0, 60)],
    alignment: { pairs: [{ occurrence: occurrence('top-line'), note: 0, stretch: 0, attempt: 1, octaveSlip: 0 }] },
    measures: { onsets: [{ pair: 0, deviationMs: { measured: false, reason: 'too few neighbours' } }] },
  });
  expect(laneOnsets(SYSTEM, of).heightPx).toBe(0);
});
