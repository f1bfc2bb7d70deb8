import { describe, expect, it } from 'vitest';
import { noGlance, rangesOf, readGlance, writeGlance, type Glance, type GlanceRemark } from '../../src/web/glance.js';
import { verdictOf, type Seen } from '../../src/web/verdict.js';

/** A remark on bars that carry the numbers of their places. */
function remark(bars: readonly number[], more: Partial<GlanceRemark> = {}): GlanceRemark {
  return { aspect: 'rhythm', kind: 'evenDots', hand: 'right', bars: rangesOf(bars), worth: true, text: 'Count.', ...more };
}

/** A glance at a recording of bars 0 to 30, received so many days after the first. */
function seen(remarks: readonly GlanceRemark[], day = 0, more: Partial<Glance> = {}): Seen {
  const names = Object.fromEntries(Array.from({ length: 31 }, (_, bar) => [String(bar), String(bar)]));
  return { glance: { remarks, praise: [], played: [[0, 30]], bars: 31, names, figures: { stops: 0, blurs: 0, tempo: null, practice: false }, problem: '', ...more }, receivedAt: new Date(Date.UTC(2025, 9, 7 + day)).toISOString() };
}

describe('whether a recording needs the teacher', () => {
  it('does not, where nothing is worth saying', () => {
    expect(verdictOf(seen([remark([4], { worth: false })]), null)).toEqual({ kind: 'nothing', text: 'nothing stands out', because: '' });
    expect(verdictOf(seen([], 7), seen([]))).toEqual({ kind: 'nothing', text: 'nothing new', because: '' });
  });

  it('names what no longer stands out, where it was played again', () => {
    expect(verdictOf(seen([], 7), seen([remark([7, 12])])).because).toBe('bars 7 and 12 no longer stand out');
    expect(verdictOf(seen([], 7), seen([remark([7])])).because).toBe('bar 7 no longer stands out');
    expect(verdictOf(seen([], 7, { played: [[0, 6]] }), seen([remark([7, 12])])).because).toBe('');
  });

  it('names comments that may be settled', () => {
    expect(verdictOf(seen([], 7), seen([]), [[3, 4], [9, 9]]).because).toBe('two comments may be settled');
    expect(verdictOf(seen([], 7, { played: [[0, 5]] }), seen([]), [[3, 4], [9, 9]]).because).toBe('a comment may be settled');
  });

  it.each([
    [[7, 12], 7, 'the same two bars as last week', 'bars 7 and 12'],
    [[7], 7, 'the same bar as last week', 'bar 7'],
    [[7, 8, 9, 10], 5, 'the same four bars as last week', 'bars 7–10'],
    // five bars are too many to name by their number: one thing
    [[7, 8, 9, 10, 11], 9, 'the same thing as last week', 'bars 7–11'],
    // four days are less than a week, ten are more; both edges of 5 to 9 are in, above
    [[7, 12], 4, 'the same two bars as last time', 'bars 7 and 12'],
    [[7, 12], 10, 'the same two bars as last time', 'bars 7 and 12'],
    [[7, 12], 0, 'the same two bars as earlier that day', 'bars 7 and 12'],
  ])('says that bars %j are the same after %d days', (bars, days, text, because) => {
    expect(verdictOf(seen([remark(bars)], days), seen([remark(bars)]))).toEqual({ kind: 'same', text, because });
  });

  it('knows a remark that has moved by a bar, or was only seen the time before', () => {
    expect(verdictOf(seen([remark([8])], 7), seen([remark([7], { worth: false })])).kind).toBe('same');
    expect(verdictOf(seen([remark([9])], 7), seen([remark([7])])).kind).toBe('needs');
    expect(verdictOf(seen([remark([7], { hand: '' })], 7), seen([remark([7])])).kind).toBe('same');
  });

  it.each([
    ['another aspect', { aspect: 'pedal' }],
    ['another kind', { kind: 'lateEntry' }],
    ['the other hand', { hand: 'left' }],
  ])('is needed for %s in the same bars', (_, more) => {
    expect(verdictOf(seen([remark([7], more)], 7), seen([remark([7])]))).toMatchObject({ kind: 'needs', text: 'needs you', because: `new: ${'aspect' in more ? more.aspect : 'rhythm'} in bar 7` });
  });

  it('is needed at a first recording that has something to say', () => {
    expect(verdictOf(seen([remark([2, 3, 9]), remark([5], { aspect: 'pedal' })]), null).because).toBe('first recording of this piece: rhythm in bars 2–3 and 9; pedal in bar 5');
  });

  it('names no bars for what goes through the piece: 19 of 31 are more than six in ten, 18 are not', () => {
    const to = (last: number): string => verdictOf(seen([remark(Array.from({ length: last + 1 }, (_, bar) => bar), { aspect: 'tempo' })]), null).because;
    expect(to(18)).toBe('first recording of this piece: tempo');
    expect(to(17)).toBe('first recording of this piece: tempo in bars 0–17');
  });

  it('says what could not be read', () => {
    expect(verdictOf({ glance: noGlance('The file is cut.'), receivedAt: '' }, null)).toEqual({ kind: 'unread', text: 'could not be read', because: 'The file is cut.' });
  });
});

describe('a glance', () => {
  it('is read as it was written, and nothing else is taken for one', () => {
    const { glance } = seen([remark([7])]);
    expect(readGlance(writeGlance(glance))).toEqual(glance);
    for (const other of ['null', '[]', '{"remarks":1}', '"x"']) expect(readGlance(other)).toBeNull();
  });
});
