import { expect, test } from 'vitest';
import { marksFor, type Mark, type MarkMaterial } from '../../src/engrave/index.js';
import { pathBox } from '../../src/engrave/path.js';
import { engraving, headAt, material, occurrence, pressed, visit } from './playing.js';

const marks = (of: MarkMaterial): readonly Mark[] => marksFor(engraving, of).flat();
const missed = (...ids: string[]): { occurrence: number; stretch: number; attempt: number }[] => ids.map((id) => ({ occurrence: occurrence(id), stretch: 0, attempt: 1 }));

/** Middle of a mark's first line. */
function middle({ svg }: Mark): { x: number; y: number } {
  const { left, right, top, bottom } = pathBox(/ d="([^"]+)"/.exec(svg)![1]!)!;
  return { x: (left + right) / 2, y: (top + bottom) / 2 };
}

test('nothing wrong, nothing marked', () => {
  expect(marks(material({}))).toEqual([]);
});

test('a wrong note is a ring on the written head that names what was played; its missing note has no caret of its own', () => {
  const of = material({
    notes: [pressed(0, 1, 66)],
    alignment: { added: [{ note: 0, stretch: 0, near: occurrence('bottom-line'), instead: true }], missed: missed('bottom-line') },
  });
  const [ring, ...more] = marks(of);
  expect(more).toEqual([]);
  expect(ring!.svg).toContain('class="mark mark-ring"');
  // E4 was written, F sharp 4 is MIDI 66
  expect(ring!.svg).toContain('<title>Bar 1: F sharp for E</title>');
  expect(ring!.svg).toContain('data-bar="0" data-visit="0" data-attempt="1" data-stretch="0" data-note="bottom-line" data-played="0"');
  expect(Math.abs(middle(ring!).x - headAt('bottom-line').x)).toBeLessThan(1);
  expect(Math.abs(middle(ring!).y - headAt('bottom-line').y)).toBeLessThan(1);
});

test('an octave slip is a ring too', () => {
  const of = material({ notes: [pressed(0, 1, 76)], alignment: { pairs: [{ occurrence: occurrence('bottom-line'), note: 0, stretch: 0, attempt: 1, octaveSlip: 1 }] } });
  expect(marks(of)[0]!.svg).toContain('<title>Bar 1: E an octave too high</title>');
});

test('heads of a chord too close for two rings share one, which names both; heads far apart have their own', () => {
  // an octave over C5, E5, F5 and C4
  const keys: Readonly<Record<string, number>> = { 'chord-low': 84, 'chord-mid': 88, 'top-line': 89, 'middle-c': 72 };
  const octaveUp = (...ids: string[]): readonly Mark[] => marks(material({
    notes: ids.map((id, i) => pressed(i, 1, keys[id]!)),
    alignment: { pairs: ids.map((id, note) => ({ occurrence: occurrence(id), note, stretch: 0, attempt: 1, octaveSlip: 1 })) },
  }));
  const [ring, ...more] = octaveUp('chord-low', 'chord-mid');
  expect(more).toEqual([]);
  expect(ring!.svg).toContain('Bar 2: C an octave too high');
  expect(ring!.svg).toContain('Bar 2: E an octave too high');
  expect(/data-notes="([^"]+)"/.exec(ring!.svg)![1]!.split(' ').sort()).toEqual(['chord-low', 'chord-mid']);
  // a third apart: half-way between the two heads, and as much higher as they are apart
  expect(Math.abs(middle(ring!).y - (headAt('chord-low').y + headAt('chord-mid').y) / 2)).toBeLessThan(1);
  expect(ring!.bottom - ring!.top).toBeCloseTo(headAt('chord-low').y - headAt('chord-mid').y + 22, 6);
  expect(octaveUp('top-line', 'middle-c')).toHaveLength(2);
});

test('a missing note is a caret under its head', () => {
  const [caret] = marks(material({ alignment: { missed: missed('top-line') } }));
  expect(caret!.svg).toContain('mark-missing');
  expect(caret!.svg).toContain('<title>Bar 1: F missing</title>');
  expect(caret!.bottom).toBeGreaterThan(headAt('top-line').y + 15);
});

test('a whole missing chord has one caret, under its lowest head, naming all its notes', () => {
  const carets = marks(material({ alignment: { missed: missed('chord-low', 'chord-mid', 'chord-high') } }));
  expect(carets).toHaveLength(1);
  expect(carets[0]!.svg).toContain('data-notes="');
  for (const id of ['chord-low', 'chord-mid', 'chord-high']) expect(carets[0]!.svg).toContain(id);
  expect(carets[0]!.top).toBeCloseTo(headAt('chord-low').y, 6);
});

test('one missing note inside a chord is pointed at from the right, the lowest from below', () => {
  const [inside] = marks(material({ alignment: { missed: missed('chord-mid') } }));
  expect(inside!.top).toBeLessThan(headAt('chord-mid').y);
  expect(middle(inside!).x).toBeGreaterThan(headAt('chord-mid').x + 5);
  const [lowest] = marks(material({ alignment: { missed: missed('chord-low') } }));
  expect(lowest!.top).toBeCloseTo(headAt('chord-low').y, 6);
});

const pair = (id: string, note: number): { occurrence: number; note: number; stretch: number; attempt: number; octaveSlip: number } => ({ occurrence: occurrence(id), note, stretch: 0, attempt: 1, octaveSlip: 0 });

test('an added note stands between its neighbours in time, at the height it sounds', () => {
  const of = material({
    notes: [pressed(0, 1, 77), pressed(1, 1.5, 71), pressed(2, 2, 64)],
    alignment: { pairs: [pair('top-line', 0), pair('bottom-line', 2)], added: [{ note: 1, stretch: 0, near: occurrence('top-line'), instead: false }] },
  });
  const [crossed] = marks(of);
  expect(crossed!.svg).toContain('<title>Bar 1: B added</title>');
  const [, x, y] = /<ellipse cx="([^"]+)" cy="([^"]+)"/.exec(crossed!.svg)!;
  // half-way in time between F5 and E4, so half-way between their heads
  expect(Number(x)).toBeCloseTo((headAt('top-line').x + headAt('bottom-line').x) / 2, 1);
  // B4 is the middle line, as the written B4 is
  expect(Number(y)).toBeCloseTo(headAt('middle-line').y, 1);
});

test('an added note that would cover a printed head moves to its right', () => {
  const of = material({
    notes: [pressed(0, 1, 77), pressed(1, 1.001, 77)],
    alignment: { pairs: [pair('top-line', 0)], added: [{ note: 1, stretch: 0, near: occurrence('top-line'), instead: false }] },
  });
  const [, x] = /<ellipse cx="([^"]+)"/.exec(marks(of)[0]!.svg)!;
  expect(Number(x)).toBeGreaterThanOrEqual(headAt('top-line').x + 9);
});

test('added notes that came together at one height stand beside each other', () => {
  const added = [1, 2, 3].map((note) => ({ note, stretch: 0, near: occurrence('top-line'), instead: false }));
  const of = material({ notes: [pressed(0, 1, 77), pressed(1, 1.001, 77), pressed(2, 1.002, 77), pressed(3, 1.003, 77)], alignment: { pairs: [pair('top-line', 0)], added } });
  const xs = marks(of).map(({ svg }) => Number(/<ellipse cx="([^"]+)"/.exec(svg)![1]));
  // a head is 9 px wide: each stands a head's width and a little from the one before
  expect([headAt('top-line').x, ...xs].slice(0, 3).map((x, i) => xs[i]! - x >= 10)).toEqual([true, true, true]);
});

test('an added note far above the stave stays within five spaces of it and has ledger lines', () => {
  const of = material({
    notes: [pressed(0, 1, 77), pressed(1, 1.2, 108)],
    alignment: { pairs: [pair('top-line', 0)], added: [{ note: 1, stretch: 0, near: occurrence('top-line'), instead: false }] },
  });
  const [crossed] = marks(of);
  const [, y] = /cy="([^"]+)"/.exec(crossed!.svg)!;
  expect(Number(y)).toBeCloseTo(engraving.systems[0]!.staves[0]!.top - 5 * engraving.staveSpacePx, 1);
  expect(crossed!.svg.match(/stroke-width="0.9"/g)).toHaveLength(5);
});

test('only the last try is marked, or the one that is asked for', () => {
  const of = material({
    alignment: { missed: [...missed('top-line'), { occurrence: occurrence('bottom-line'), stretch: 1, attempt: 2 }] },
    measures: { bars: [visit(0), visit(1), visit(0, 2, 1)] },
  });
  expect(marks(of).map(({ svg }) => /data-note="([^"]+)"/.exec(svg)![1])).toEqual(['bottom-line']);
  const first = { ...of, shown: new Map([[0, visit(0)]]) };
  expect(marks(first).map(({ svg }) => /data-note="([^"]+)"/.exec(svg)![1])).toEqual(['top-line']);
});
