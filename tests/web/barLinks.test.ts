import { describe, expect, it } from 'vitest';
import { barList, linkBars, type LinkGround } from '../../src/web/barLinks.js';

/** Bars by their printed numbers; the anchors are those of the page. */
const ground = (numbers: readonly string[], anchors = numbers.map((number) => `bar-${number}`)): LinkGround =>
  ({ score: { bars: numbers.map((number, index) => ({ index, number })) }, anchors }) as unknown as LinkGround;
const links = (text: string, numbers: readonly string[] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '12a']): readonly (readonly [string, string | null])[] =>
  linkBars(text, [], ground(numbers)).map((segment) => [segment.text, segment.href]);

describe('bars named in a sentence', () => {
  it.each<[string, readonly (readonly [string, string | null])[]]>([
    ['Nothing here.', [['Nothing here.', null]]],
    ['It is in bar 7.', [['It is in ', null], ['bar 7', '#bar-7'], ['.', null]]],
    ['Bars: bars 1–2, 6 and 8', [['Bars: ', null], ['bars 1–2', '#bar-1'], [', ', null], ['6', '#bar-6'], [' and ', null], ['8', '#bar-8']]],
    ['A (bars 1–2) and B (3–4)', [['A (', null], ['bars 1–2', '#bar-1'], [') and B (', null], ['3–4', '#bar-3'], [')', null]]],
    ['in measure 12a', [['in ', null], ['measure 12a', '#bar-12a']]],
    ['Bar 7: listen.', [['Bar 7', '#bar-7'], [': listen.', null]]],
    // a number of no bar of this score is no link
    ['bar 99', [['bar 99', null]]],
    // figures that name no bars
    ['about 70 seconds; crotchet = 52', [['about 70 seconds; crotchet = 52', null]]],
  ])('%s', (text, expected) => {
    expect(links(text)).toEqual(expected);
  });

  it('means the bar that the sentence speaks of where two have one number', () => {
    const twice = ground(['1', '2', '1', '2'], ['bar-1', 'bar-2', 'bar-1.2', 'bar-2.2']);
    expect(linkBars('bar 2', [{ fromBar: 3, toBar: 3 }], twice)).toEqual([{ text: 'bar 2', href: '#bar-2.2' }]);
    expect(linkBars('bar 2', [], twice)).toEqual([{ text: 'bar 2', href: '#bar-2' }]);
  });

  it('leads to the upbeat where the sentence is about it', () => {
    const text = 'Right hand, the upbeat';
    expect(linkBars(text, [{ fromBar: 0, toBar: 0 }], ground(['0', '1']))).toEqual([{ text: 'Right hand, ', href: null }, { text: 'the upbeat', href: '#bar-0' }]);
    expect(linkBars(text, [{ fromBar: 1, toBar: 1 }], ground(['0', '1'])).every(({ href }) => href === null)).toBe(true);
  });

  it('lists bars for the page’s script', () => {
    expect(barList([{ fromBar: 3, toBar: 8 }, { fromBar: 12, toBar: 12 }])).toBe('3-8 12');
    expect(barList([])).toBe('');
  });
});
