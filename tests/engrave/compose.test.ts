import { expect, test } from 'vitest';
import { composeSystem, type EngravedSystem } from '../../src/engrave/index.js';

const SYSTEM: EngravedSystem = {
  index: 0, widthPx: 300, heightPx: 100, svg: '<svg class="system" width="300"><path d="M0 0"/></svg>', staves: [{ staff: 1, top: 30, bottom: 60.24 }], bars: [{ barIndex: 0, left: 12, right: 300 }], notes: [],
};
const mark = (top: number, bottom: number): { svg: string; top: number; bottom: number } => ({ svg: '<g class="mark"/>', top, bottom });

test('without marks and lanes a system keeps its size', () => {
  const { svg, heightPx, loweredPx } = composeSystem(SYSTEM, [], []);
  expect([heightPx, loweredPx]).toEqual([100, 0]);
  expect(svg).toContain('width="300" height="100"');
  expect(svg).toContain('<path d="M0 0"/>');
  expect(svg.match(/<svg/g)).toHaveLength(1);
});

test('a mark above the edge moves everything down, one below makes it longer', () => {
  // 4 px are kept free: a mark from -10 needs 14 more, one to 103 needs 7 more
  expect(composeSystem(SYSTEM, [mark(-10, 5)], [])).toMatchObject({ loweredPx: 14, heightPx: 114 });
  expect(composeSystem(SYSTEM, [mark(90, 103)], [])).toMatchObject({ loweredPx: 0, heightPx: 107 });
});

test('a mark exactly at the free edge changes nothing', () => {
  expect(composeSystem(SYSTEM, [mark(4, 96)], [])).toMatchObject({ loweredPx: 0, heightPx: 100 });
});

test('lanes hang under one another, marks lie over the engraving', () => {
  const { svg, heightPx } = composeSystem(SYSTEM, [mark(40, 60)], [{ svg: '<g id="one"/>', heightPx: 30 }, { svg: '<g id="two"/>', heightPx: 20 }]);
  expect(heightPx).toBe(150);
  expect(svg).toContain('<g transform="translate(0 100)"><g id="one"/></g>');
  expect(svg).toContain('<g transform="translate(0 130)"><g id="two"/></g>');
  expect(svg.indexOf('class="mark"')).toBeGreaterThan(svg.indexOf('M0 0'));
});
