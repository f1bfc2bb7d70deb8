import { describe, expect, it } from 'vitest';
import { observe } from '../../src/judge/merge.js';
import { placesInWords, whereInWords } from '../../src/judge/index.js';
import type { Finding, FoundPlace } from '../../src/judge/index.js';
import { smallScore } from '../review/material.js';

const place = (fromBar: number, toBar = fromBar, more: Partial<FoundPlace> = {}): FoundPlace => ({ fromBar, toBar, pass: 1, attempt: 1, notes: [], startS: fromBar, ...more });
const finding = (more: Partial<Finding>): Finding => ({
  aspect: 'rhythm', kind: 'made up', hand: 'right', place: place(0), measured: { value: 2, unit: 'times', threshold: 1 }, severity: 0.5, confidence: 1, topic: '', ...more,
});

describe('putting findings together', () => {
  it('one kind, hand and topic is one observation with its places in order of time', () => {
    const [only, ...more] = observe({ score: smallScore() }, [finding({ place: place(3) }), finding({ place: place(1) })], () => 'told');
    expect(more).toEqual([]);
    expect(only?.places.map(({ fromBar }) => fromBar)).toEqual([1, 3]);
    expect(only).toMatchObject({ text: 'told', advice: '' });
  });

  it('other hands, kinds and topics stay apart, heaviest first', () => {
    const all = observe({ score: smallScore() }, [finding({ severity: 0.3 }), finding({ hand: 'left', severity: 0.9 }), finding({ kind: 'other', severity: 0.6 }), finding({ topic: 'a', severity: 0.1 })], () => '');
    expect(all.map(({ hand, kind, topic }) => [hand, kind, topic])).toEqual([['left', 'made up', ''], ['right', 'other', ''], ['right', 'made up', ''], ['right', 'made up', 'a']]);
  });

  it('places that share a bar of one pass and try become one, with the notes of both; another try stays its own', () => {
    const [only] = observe({ score: smallScore() }, [
      finding({ place: place(1, 2, { notes: [4, 5] }) }), finding({ place: place(2, 3, { notes: [5, 6] }) }), finding({ place: place(2, 2, { attempt: 2, startS: 9 }) }),
    ], () => '');
    expect(only?.places.map(({ fromBar, toBar, attempt, notes }) => [fromBar, toBar, attempt, notes])).toEqual([[1, 3, 1, [4, 5, 6]], [2, 2, 2, []]]);
  });

  it('what was measured is the worst place’s', () => {
    const [only] = observe({ score: smallScore() }, [finding({ measured: { value: 3, unit: 'ms', threshold: 1 }, severity: 0.4 }), finding({ place: place(3), measured: { value: 9, unit: 'ms', threshold: 1 }, severity: 0.8 })], () => '');
    expect(only?.measured.value).toBe(9);
  });
});

describe('places in words', () => {
  const british = { score: smallScore(), language: 'british' } as const;

  it('share the word for bar, and neighbours become a range', () => {
    expect(placesInWords(british, [place(0), place(3)])).toBe('bars 1 and 4');
    expect(placesInWords(british, [place(0), place(1), place(3)])).toBe('bars 1–2 and 4');
    expect(placesInWords({ ...british, language: 'american' }, [place(2)])).toBe('measure 3');
  });

  it('a bar in two tries is named once', () => {
    expect(placesInWords(british, [place(1), place(1, 1, { attempt: 2 })])).toBe('bar 2');
  });

  it('what is scattered over nearly all bars is nearly throughout', () => {
    // seven bars of eight are more than 0.85, six are not
    const bars = { score: { bars: [...smallScore().bars, ...smallScore().bars] }, language: 'british' } as const;
    expect(whereInWords(bars, 'right', [place(0, 2), place(4, 7)])).toBe('Right hand, nearly throughout');
    expect(whereInWords(bars, 'right', [place(0, 2), place(4, 6)])).not.toContain('throughout');
  });

  it('a sentence begins with the hand', () => {
    expect(whereInWords(british, 'left', [place(1)])).toBe('Left hand, bar 2');
    expect(whereInWords(british, null, [place(1)])).toBe('Bar 2');
    expect(whereInWords(british, 'right', [])).toBe('Right hand');
  });
});
