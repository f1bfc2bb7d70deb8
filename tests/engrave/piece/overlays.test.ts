import { describe, expect, it } from 'vitest';
import type { PedalEntry, PedalKind } from '../../../src/analysis/index.js';
import { bracketsOf, drawPiece, type BracketedSection, type Engraving, type PieceDrawing } from '../../../src/engrave/index.js';
import { harmonyOf, scoreOf, systemOf } from './system.js';

const SCORE = scoreOf(4, { a: 0, b: 4, c: 8, d: 12 });
/** Two systems of two bars. */
const FIRST = systemOf([[12, 112], [112, 212]], [{ id: 'a', x: 60, y: 40 }, { id: 'b', x: 124, y: 40 }]);
const SECOND = systemOf([[12, 112], [112, 212]], [{ id: 'c', x: 40, y: 40 }, { id: 'd', x: 124, y: 40 }], 2);
const ENGRAVING: Engraving = { widthPx: 300, staveSpacePx: 7.5, defs: '', systems: [FIRST, SECOND], fallback: null };

const section = (fromBar: number, toBar: number, name: string, caption = ''): BracketedSection => ({ fromBar, toBar, name, caption });
const entry = (fromTick: number, toTick: number, kind: PedalKind, source: PedalEntry['source'] = 'harmony'): PedalEntry => ({
  id: `pedal-${fromTick}`, fromTick, toTick, barIndex: Math.floor(fromTick / 4), offset: fromTick % 4, kind, source, reason: 'because', clearS: null,
});
const EMPTY: PieceDrawing = { score: SCORE, sections: [], keys: [], harmonies: [], pedalPlan: { entries: [], basis: 'none' }, pitfalls: [] };
const draw = (piece: Partial<PieceDrawing>): readonly string[] => drawPiece(ENGRAVING, { ...EMPTY, ...piece }).map(({ drawn }) => drawn.svg);

describe('brackets over sections', () => {
  it('run from bar line to bar line, open where the system ends', () => {
    const [first] = bracketsOf(FIRST, [section(1, 2, 'A')]);
    expect([first?.fromX, first?.toX, first?.begins, first?.ends]).toEqual([112, 212, true, false]);
    const [second] = bracketsOf(SECOND, [section(1, 2, 'A')]);
    expect([second?.fromX, second?.toX, second?.begins, second?.ends]).toEqual([12, 112, false, true]);
    expect(bracketsOf(SECOND, [section(0, 1, 'A')])).toEqual([]);
  });

  it('are named where they begin, say that they go on, and leave out what does not fit', () => {
    const [first = '', second = ''] = draw({ sections: [section(0, 2, 'A', 'four bars'), section(3, 3, 'B', 'a caption that is far too long for its one bar')] });
    expect(first).toContain('>A</text>');
    expect(first).toContain('>four bars</text>');
    expect(second).toContain('>A, continued</text>');
    expect(second).toContain('>B</text>');
    expect(second).not.toContain('far too long for its one bar</text>');
    // but a pointer is still told
    expect(second).toContain('<title>B: a caption that is far too long for its one bar</title>');
  });

  it('keep names from a file inert', () => {
    expect(draw({ sections: [section(0, 3, '<img src=x>', '"><script>')] }).join('')).not.toMatch(/<img|<script/);
  });
});

describe('the band of keys', () => {
  const key = (fromTick: number, toTick: number, spelling: string, mode: 'major' | 'minor') => ({ fromTick, toTick, barIndex: fromTick / 4, tonic: 0, mode, spelling, confidence: 1, colour: null });

  it('turns where the key does, and stands in every system', () => {
    const [first = '', second = ''] = draw({ keys: [key(0, 4, 'A', 'minor'), key(4, 16, 'C', 'major')] });
    // from 9 px before the first head (60) to 9 px before the head of the second bar (124), less half a gap of 1.5 and a lean of 4;
    // 20 px high, standing on the upper edge of the engraving
    expect(first).toContain('d="M51 -20');
    expect(first).toMatch(/class="key minor"[^>]*>.*H117\.5L109\.5/);
    expect(second).toContain('class="key major"');
    expect(second).not.toContain('class="key minor"');
  });
});

describe('spectacles', () => {
  it('stand over the bars where a pitfall begins, with its number where there is room', () => {
    const [first = '', second = ''] = draw({ pitfalls: [{ number: 3, bars: [1, 2], title: 'The left hand: a jump.' }] });
    expect(first).toMatch(/class="mark mark-look"[^>]*data-bar="1"/);
    expect(first).not.toMatch(/class="mark mark-look"[^>]*data-bar="0"/);
    expect(second).toMatch(/class="mark mark-look"[^>]*data-bar="2"/);
    expect(first).toContain('>3</text>');
    expect(first).toContain('<title>3. The left hand: a jump.</title>');
  });
});

describe('the pedal plan', () => {
  it('goes down, peaks at a change, comes up; dashed from the harmony, solid where printed', () => {
    const [first = '', second = ''] = draw({ pedalPlan: { entries: [entry(0, 4, 'down'), entry(4, 12, 'change', 'printed'), entry(12, 16, 'up')], basis: 'both' } });
    // down under the head at 60, from the upper height (8) to the lower (18); level until 5 px before the peak at 124
    expect(first).toContain('d="M60 8V18"');
    expect(first).toContain('class="plan-level harmony" d="M60 18H119"');
    expect(first).toContain('d="M119 18L124 8L129 18"');
    // on to the end of the system (212), 3 px before its bar line and 5 more for the next peak
    expect(first).toContain('class="plan-level printed" d="M129 18H204"');
    // goes on in the next system, 3 px before its first head, and comes up under the head at 124
    expect(second).toContain('class="plan-level printed" d="M37 18H119"');
    expect(second).toContain('d="M124 18V8"');
  });

  it('names what rings and what stays dry, a dry stretch once a system', () => {
    const [first = '', second = ''] = draw({ pedalPlan: { entries: [entry(0, 4, 'none'), entry(4, 8, 'none'), entry(8, 16, 'ring')], basis: 'harmony' } });
    expect(first.match(/>no pedal</g)).toHaveLength(1);
    expect(second).toContain('>let it ring</text>');
  });

  it('is left out where nothing at all is pedalled', () => {
    expect(draw({ pedalPlan: { entries: [entry(0, 16, 'none')], basis: 'none' } }).join('')).not.toContain('plan-entry');
  });
});

describe('harmony and plan together', () => {
  it('lower the plan by the rows that chord names need more than degrees', () => {
    // "I" and "V" have room in one row; two long names under heads 64 px apart need two
    const harmonies = [harmonyOf(0, 4, 'I', 'Bbm7b5/Ab'), harmonyOf(4, 8, 'V', 'C')];
    const [first = ''] = draw({ harmonies, pedalPlan: { entries: [entry(0, 16, 'down')], basis: 'harmony' } });
    expect(first).toContain('class="under-names lowered-1"');
    // degrees: 20 px to the base line and 8 below it
    expect(first).toContain('<g transform="translate(0 28)"><g class="under-names');
  });

  it('leave the system as it is where nothing is known', () => {
    for (const { drawn } of drawPiece(ENGRAVING, EMPTY)) expect(drawn.heightPx).toBe(100);
  });
});
