import { describe, expect, it } from 'vitest';
import { remarkMarks, type Mark, type MarkedRemark } from '../../src/engrave/index.js';
import { pathBox } from '../../src/engrave/path.js';
import { engraving, headAt, material, score } from './playing.js';

const index = (id: string): number => score.notes.findIndex((note) => note.id === id);
const remark = (more: Partial<MarkedRemark>, notes: readonly string[] = [], place: { fromBar?: number; toBar?: number; attempt?: number } = {}): MarkedRemark => ({
  number: 1, aspect: 'rhythm', kind: 'uneven', hand: 'right', text: 'Made up.', ...more,
  places: [{ fromBar: 0, toBar: 0, pass: 1, attempt: 1, startS: 0, ...place, notes: notes.map(index) }],
});
const marks = (...remarks: readonly MarkedRemark[]): readonly Mark[] => remarkMarks(engraving, material({}), remarks).flat();

function boxOf({ svg }: Mark): { left: number; right: number; top: number; bottom: number } {
  const box = pathBox(/ d="([^"]+)"/.exec(svg)?.[1] ?? '');
  if (box === null) throw new RangeError('no stroke');
  return box;
}

describe('marks of remarks', () => {
  it('a late note has an arrow under its head, leaning right; an early one leaning left', () => {
    const [late] = marks(remark({ kind: 'late' }, ['bottom-line']));
    expect(late?.svg).toContain('mark-late');
    expect(late?.svg).toContain('data-notes="bottom-line"');
    const { x } = headAt('bottom-line');
    const box = late === undefined ? { left: 0, right: 0 } : boxOf(late);
    expect(Math.abs(box.left - x)).toBeLessThan(2);
    expect(box.right).toBeGreaterThan(x + 8);
    expect(marks(remark({ kind: 'early' }, ['bottom-line']))[0]?.svg).toContain('mark-early');
  });

  it('a stop stands in its own bar, before its first note', () => {
    const [mark] = marks(remark({ aspect: 'pulse', kind: 'stop' }, [], { fromBar: 1, toBar: 1 }));
    const bar = engraving.systems.flatMap(({ bars }) => bars).find(({ barIndex }) => barIndex === 1);
    expect(mark?.svg).toContain('mark-stop');
    const box = mark === undefined ? { left: 0, right: 0 } : boxOf(mark);
    expect(box.left).toBeGreaterThan((bar?.left ?? 0) - 12);
    expect(box.right).toBeLessThan(bar?.right ?? 0);
  });

  it('one note has a ring; bars without named notes have a bracket over them', () => {
    expect(marks(remark({}, ['bottom-line']))[0]?.svg).toContain('mark-ring');
    const [bracket] = marks(remark({}));
    expect(bracket?.svg).toContain('mark-stretch');
    expect(bracket?.bottom).toBeLessThan((engraving.systems[0]?.staves[0]?.top ?? 0));
  });

  it('of an even pair the short note has the arrow', () => {
    const [arrow, ...more] = marks(remark({ kind: 'evenDots' }, ['top-line', 'bottom-line']));
    expect(more).toEqual([]);
    expect(arrow?.svg).toContain('mark-early');
    expect(Math.abs((arrow === undefined ? { right: 0 } : boxOf(arrow)).right - headAt('bottom-line').x)).toBeLessThan(2);
  });

  it('brackets over the same bars stand one above the other, eighteen px apart', () => {
    const [one, two] = marks(remark({}), remark({ kind: 'other' }));
    expect((one?.top ?? 0) - (two?.top ?? 0)).toBeCloseTo(18, 6);
  });

  it('a thing found in bars that follow one another is one bracket with one number', () => {
    const both = remark({});
    const drawn = marks({ ...both, places: [...both.places, { fromBar: 1, toBar: 1, pass: 1, attempt: 1, startS: 1, notes: [] }] });
    expect(drawn).toHaveLength(1);
    const box = drawn[0] === undefined ? { left: 0, right: 0 } : boxOf(drawn[0]);
    const bars = engraving.systems[0]?.bars ?? [];
    expect(box.left).toBeLessThan(bars[0]?.right ?? 0);
    expect(box.right).toBeGreaterThan(bars[1]?.left ?? Infinity);
  });

  it('the number stands at the mark, and once only', () => {
    const drawn = marks(remark({ kind: 'late', number: 2 }, ['bottom-line', 'top-line'])).map(({ svg }) => svg).join('');
    expect(drawn.match(/mark-number/g)).toHaveLength(1);
    expect(drawn).toContain('>2</text>');
    expect(marks(remark({ number: null }))[0]?.svg).not.toContain('mark-number');
  });

  it('a try that is not shown is not marked, nor are wrong notes a second time', () => {
    expect(marks(remark({}, [], { attempt: 2 }))).toEqual([]);
    expect(marks(remark({ aspect: 'notes', kind: 'wrong' }, ['bottom-line']))).toEqual([]);
  });

  it('what went well has a tick; a sentence with signs of markup is inert', () => {
    expect(marks(remark({ kind: 'praise' }))[0]?.svg).toContain('mark-tick');
    expect(marks(remark({ text: '<script>&"' }))[0]?.svg).toContain('&lt;script&gt;&amp;');
  });
});
