import { describe, expect, it } from 'vitest';
import { bundles } from '../../src/review/explain.js';
import { observation, place } from './observations.js';

const kinds = (all: ReturnType<typeof bundles>): readonly (readonly string[])[] => all.map(({ observations }) => observations.map(({ kind }) => kind));

describe('what one thing explains is said once', () => {
  it('a stop explains what is uneven in its bar and the two after it, not in the third', () => {
    const stop = observation({ aspect: 'pulse', kind: 'stop', hand: null, weight: 0.8, places: [place(4)] });
    const after = observation({ kind: 'after', places: [place(6)] });
    const later = observation({ kind: 'later', places: [place(7)] });
    expect(kinds(bundles([stop, after, later]))).toEqual([['stop', 'after'], ['later']]);
  });

  it('a stop explains nothing of another try, nor what is heavier than itself', () => {
    const stop = observation({ aspect: 'pulse', kind: 'stop', weight: 0.8, places: [place(4)] });
    const other = observation({ kind: 'other try', places: [place(5, 5, { attempt: 2 })] });
    const heavy = observation({ kind: 'heavy', weight: 0.9, places: [place(5)] });
    expect(kinds(bundles([heavy, stop, other]))).toEqual([['heavy'], ['stop'], ['other try']]);
  });

  it('breaking off explains the slip at which it happened, in that try', () => {
    const back = observation({ aspect: 'route', kind: 'goingBack', hand: null, weight: 0.6, places: [place(4), place(9)] });
    const slip = observation({ aspect: 'notes', kind: 'wrong', weight: 0.2, places: [place(4)] });
    const again = observation({ aspect: 'notes', kind: 'missed', weight: 0.2, places: [place(4, 4, { attempt: 2 })] });
    const elsewhere = observation({ aspect: 'notes', kind: 'added', weight: 0.2, places: [place(5)] });
    expect(kinds(bundles([back, slip, again, elsewhere]))).toEqual([['goingBack', 'wrong'], ['missed'], ['added']]);
  });

  it('a bar that shows in three aspects at once is one thing; in two it is not', () => {
    const notes = observation({ aspect: 'notes', kind: 'wrong', places: [place(3)] });
    const pulse = observation({ aspect: 'pulse', kind: 'unsteady', places: [place(3)] });
    const touch = observation({ aspect: 'touch', kind: 'gaps', places: [place(3, 4)] });
    const [whole, ...more] = bundles([notes, pulse, touch]);
    expect(more).toEqual([]);
    expect(whole).toMatchObject({ unlearnedBar: 3 });
    expect(bundles([notes, pulse]).map(({ unlearnedBar }) => unlearnedBar)).toEqual([null, null]);
  });

  it('what also happens elsewhere is not explained by one bar', () => {
    const notes = observation({ aspect: 'notes', kind: 'wrong', places: [place(3)] });
    const pulse = observation({ aspect: 'pulse', kind: 'unsteady', places: [place(3)] });
    const everywhere = observation({ aspect: 'touch', kind: 'gaps', places: [place(3), place(9)] });
    expect(kinds(bundles([notes, pulse, everywhere]))).toEqual([['wrong'], ['unsteady'], ['gaps']]);
  });

  it('loses nothing and says nothing twice', () => {
    const all = Array.from({ length: 40 }, (_, i) => observation({ aspect: (['notes', 'pulse', 'touch', 'rhythm'] as const)[i % 4] ?? 'notes', kind: i % 7 === 0 ? 'stop' : `kind ${i}`, places: [place(i % 5)] }));
    const out = bundles(all).flatMap(({ observations }) => observations);
    expect(out).toHaveLength(40);
    expect(new Set(out).size).toBe(40);
  });
});
