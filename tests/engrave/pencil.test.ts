import { expect, test } from 'vitest';
import { added, earlyArrow, lateArrow, look, missing, missingBeside, pencilStroke, ring, smoothPath, stop, stretch, tick } from '../../src/engrave/index.js';
import { pathBox } from '../../src/engrave/path.js';
import { unionOf, type Box } from '../../src/engrave/box.js';

const LABELS = { title: 'Bar 7: G for A', data: { bar: 6, note: 'n1' }, seed: 7 };
const AT = { x: 100, y: 50 };

/** Box of all main lines of a mark; the faint second lines are left out. */
function boxOf(svg: string): Box {
  const paths = [...svg.matchAll(/<path (?!class="ghost")[^>]*?d="([^"]+)"/g)].map(([, d]) => pathBox(d!)!);
  return unionOf(paths)!;
}

// a point is displaced by .35 px at most in each direction; curves swing a little beyond their points
const HAND_PX = 1;

const ALL = {
  ring: ring(AT, LABELS), missing: missing(AT, LABELS), beside: missingBeside(AT, LABELS), added: added(AT, LABELS), late: lateArrow(AT, LABELS), early: earlyArrow(AT, LABELS),
  stop: stop(AT, LABELS), tick: tick(AT, LABELS), look: look(AT, LABELS), stretch: stretch({ fromX: 100, toX: 210, y: 50 }, LABELS),
};

test.each(Object.entries(ALL))('%s is one group with its title, links and colour', (_, svg) => {
  expect(svg).toMatch(/^<g class="mark mark-[a-z]+" data-bar="6" data-note="n1" role="img" [^>]*stroke="currentColor"[^>]*><title>Bar 7: G for A<\/title>.*<\/g>$/);
  expect(svg).not.toMatch(/NaN|undefined| style=/);
});

test('titles and links are escaped', () => {
  const svg = ring(AT, { title: '<b>&"', data: { note: '"><script>' }, seed: 1 });
  expect(svg).toContain('<title>&lt;b&gt;&amp;&quot;</title>');
  expect(svg).toContain('data-note="&quot;&gt;&lt;script&gt;"');
});

test('the same seed draws the same, another one another way', () => {
  expect(ring(AT, LABELS)).toBe(ring(AT, LABELS));
  expect(ring(AT, LABELS)).not.toBe(ring(AT, { ...LABELS, seed: 8 }));
});

test('a ring goes all round the head and stays near it', () => {
  const box = boxOf(ALL.ring);
  // half axes 9.6 and 8.4 px, drifting by 9 %
  expect(box.left).toBeGreaterThan(100 - 11.5);
  expect(box.left).toBeLessThan(100 - 8);
  expect(box.right).toBeGreaterThan(100 + 8);
  expect(box.right).toBeLessThan(100 + 11.5);
  expect(box.top).toBeLessThan(50 - 7);
  expect(box.bottom).toBeGreaterThan(50 + 7);
});

test('late leans right and early left, 17 px from the tail, both rising 4 px', () => {
  const [late, early] = [boxOf(ALL.late), boxOf(ALL.early)];
  expect(Math.abs(late.left - 100)).toBeLessThan(HAND_PX);
  expect(Math.abs(late.right - 117)).toBeLessThan(HAND_PX);
  expect(Math.abs(early.right - 100)).toBeLessThan(HAND_PX);
  expect(Math.abs(early.left - 83)).toBeLessThan(HAND_PX);
  expect(late.top).toBeLessThan(47);
});

test('a caret points up at the head from 8 px below, 11 by 9.5 px', () => {
  const box = boxOf(ALL.missing);
  expect(Math.abs(box.top - 58)).toBeLessThan(HAND_PX);
  expect(Math.abs(box.bottom - 67.5)).toBeLessThan(HAND_PX);
  expect(Math.abs(box.right - box.left - 11)).toBeLessThan(2 * HAND_PX);
});

test('a caret beside a head lies to its right and no higher than a note-head', () => {
  const box = boxOf(ALL.beside);
  expect(box.left).toBeGreaterThan(106);
  expect(box.bottom - box.top).toBeLessThan(11);
});

test('an added note is a hollow head under a cross of 16 by 13 px', () => {
  expect(ALL.added).toContain('<ellipse cx="100" cy="50" rx="5.2" ry="3.7"');
  const box = boxOf(ALL.added);
  expect(Math.abs(box.right - box.left - 16)).toBeLessThan(2 * HAND_PX);
  expect(Math.abs(box.bottom - box.top - 13)).toBeLessThan(2 * HAND_PX);
});

test('an added note outside the stave has its ledger lines', () => {
  expect(added({ ...AT, ledgers: [40, 48] }, LABELS).match(/H108/g)).toHaveLength(2);
});

test('a stretch runs from the first to the last note, hooked down at both ends', () => {
  const box = boxOf(ALL.stretch);
  expect(Math.abs(box.left - 100)).toBeLessThan(1.5);
  expect(Math.abs(box.right - 210)).toBeLessThan(1.5);
  expect(Math.abs(box.bottom - 58)).toBeLessThan(HAND_PX);
});

test('a stop is two lines 15 px tall, a tick ends above its start, spectacles are 35 px wide', () => {
  expect(Math.abs(boxOf(ALL.stop).bottom - boxOf(ALL.stop).top - 15)).toBeLessThan(2 * HAND_PX);
  expect(boxOf(ALL.tick).top).toBeLessThan(50 - 8);
  // two glasses of radius 5.2, a bridge and two temples of 5: 2·10.4 + 5 + 2·5 = 35.8
  expect(Math.abs(boxOf(ALL.look).right - boxOf(ALL.look).left - 35.8)).toBeLessThan(2 * HAND_PX);
});

test('a smooth path goes through its points; along a straight line it is straight', () => {
  const d = smoothPath([{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 20, y: 0 }]);
  expect(d.startsWith('M0 0')).toBe(true);
  expect(pathBox(d)).toEqual({ left: 0, top: 0, right: 20, bottom: 0 });
});

test('without jitter a stroke is exact, and its faint copy lies beside it', () => {
  const svg = pencilStroke([{ x: 0, y: 0 }, { x: 10, y: 0 }], { seed: 1, jitterPx: 0 });
  expect(svg).toContain('d="M0 0C');
  expect(svg).toContain('d="M0.45 -0.4C');
});
