import { describe, expect, it } from 'vitest';
import { barAnchors } from '../../src/web/anchors.js';
import { fitTicks } from '../../src/web/fitTicks.js';
import { escaped } from '../../src/web/svg.js';
import { timeLines } from '../../src/web/timeLine.js';
import { timeLineSvg } from '../../src/web/timeLineSvg.js';
import { facts, material, stretch } from '../review/material.js';

describe('seconds laid on ticks', () => {
  it('follow the straight line through the moments', () => {
    // two ticks a second, from second 1
    const ticksAt = fitTicks([{ timeS: 1, tick: 0 }, { timeS: 2, tick: 2 }, { timeS: 3, tick: 4 }])!;
    expect(ticksAt(2.5)).toBeCloseTo(3, 9);
  });

  it('are not guessed from one moment, none, or time that runs backwards', () => {
    expect(fitTicks([])).toBeNull();
    expect(fitTicks([{ timeS: 1, tick: 0 }, { timeS: 1.1, tick: 0 }])).toBeNull();
    expect(fitTicks([{ timeS: 2, tick: 0 }, { timeS: 1, tick: 4 }])).toBeNull();
  });
});

describe('the time line of a bar', () => {
  // bar 2 the first time: occurrences 5 (G, left, whole bar) and 6-9 (F sharp crotchets); key n sounds at second n
  const played = material({
    route: [stretch(0, 0, 1)], keys: [66, 66, 60, 66],
    pairs: [6, 7, 9].map((occurrence, i) => ({ occurrence, note: [0, 1, 3][i]!, stretch: 0, attempt: 1, octaveSlip: 0 })),
    missed: [5, 8].map((occurrence) => ({ occurrence, stretch: 0, attempt: 1 })),
    added: [{ note: 2, stretch: 0, near: 8, instead: true }],
  });
  const line = timeLines(played)(facts({}))!;

  it('has each written group with what was played, and a caret only where nothing stands for the note', () => {
    expect(line.groups.map(({ hand, names, played: strokes, missing }) => [hand, names, strokes.length, missing])).toEqual([
      ['left', 'G', 0, true],
      ['right', 'F sharp', 1, false],
      ['right', 'F sharp', 1, false],
      ['right', 'F sharp', 0, false],
      ['right', 'F sharp', 1, false],
    ]);
    expect(line.odd.map(({ hand, name }) => [hand, name])).toEqual([['right', 'C']]);
  });

  it('puts played onsets on the beats where they are even', () => {
    const crotchet = line.beatTicks;
    expect(line.groups.slice(1).flatMap(({ played: strokes }) => strokes.map(({ fromTick }) => Math.round(fromTick / crotchet)))).toEqual([0, 1, 3]);
  });

  it('puts ringed names that came together under each other', () => {
    const stroke = { fromTick: 0, toTick: 1 };
    const odd = ['E', 'D', 'F sharp'].map((name) => ({ hand: 'right' as const, stroke, name }));
    const ys = [...timeLineSvg({ ...line, odd }).matchAll(/<ellipse[^>]* cy="([^"]+)"/g)].map(([, y]) => Number(y));
    expect(new Set(ys).size).toBe(3);
    const apart = odd.map((note, i) => ({ ...note, stroke: { fromTick: i * line.beatTicks, toTick: i * line.beatTicks + 1 } }));
    expect(new Set([...timeLineSvg({ ...line, odd: apart }).matchAll(/<ellipse[^>]* cy="([^"]+)"/g)].map(([, y]) => y)).size).toBe(1);
  });

  it('is drawn without a style attribute', () => {
    const svg = timeLineSvg(line);
    expect(svg).toContain('F sharp');
    expect(svg).not.toMatch(/style=|NaN|undefined/);
  });
});

describe('anchors of bars', () => {
  it('are readable, unique and harmless', () => {
    const bars = ['0', '1', '1', 'X1', '12a', '"><b>', ''].map((number) => ({ number }));
    expect(barAnchors({ bars } as never)).toEqual(['bar-0', 'bar-1', 'bar-1.2', 'bar-X1', 'bar-12a', 'bar--b-', 'bar-x']);
  });
});

describe('text in markup', () => {
  it('loses its power', () => {
    expect(escaped(`<a href="x" title='y'>&`)).toBe('&lt;a href=&quot;x&quot; title=&#39;y&#39;&gt;&amp;');
  });
});
