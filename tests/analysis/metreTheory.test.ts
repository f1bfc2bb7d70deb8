/**
 * Metre as theory and experiments have it, beside the worked values in beatSyncopation.test.ts. Each block names its source; what is
 * common practice says so.
 */
import { describe, expect, it } from 'vitest';
import { isCompound, metreDivisions } from '../../src/analysis/beatMetre.js';
import { metreSpans, metricWeight, syncopations } from '../../src/analysis/beatSyncopation.js';
import { findPitfalls } from '../../src/analysis/index.js';
import { beatTicks } from '../../src/score/index.js';
import { score, type WrittenBar } from '../align/build.js';

const spansOf = (beats: number, beatType: number, units: number): readonly number[] => metreSpans(units, metreDivisions({ beats, beatType, symbol: null }));

/** Mean of some numbers. */
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

// Palmer & Krumhansl 1990, ratings of how well a probe fits, by semiquavers, musicians (from a secondary copy)
describe.each([
  { time: [4, 4], ratings: [6.14, 3.98, 4.22, 3.32, 5.88, 2.92, 4.36, 3.4, 5.68, 2.72, 3.02, 3.12, 5.38, 3.26, 4.72, 4.3] },
  { time: [3, 4], ratings: [6.44, 2.72, 4.76, 3.25, 6.06, 2.86, 4.23, 3.44, 5.86, 2.72, 4.69, 3.32] },
  { time: [6, 8], ratings: [6.11, 4.09, 5.09, 2.95, 4.92, 3.16, 5.61, 3.71, 4.07, 3.02, 5.11, 4.57] },
] as const)('ratings of goodness in $time (Palmer & Krumhansl 1990)', ({ time: [beats, beatType], ratings }) => {
  it('fall with every level of weight', () => {
    const spans = spansOf(beats, beatType, ratings.length);
    const levels = spans.map((_, level) => mean(ratings.filter((_rating, place) => metricWeight(place, spans) + 0 === 0 - level)));
    expect(levels.length).toBeGreaterThanOrEqual(4);
    expect(levels).toEqual(levels.toSorted((a, b) => b - a));
    expect(new Set(levels).size).toBe(levels.length);
  });
});

// Huron's definition: a note is syncopated where nothing is struck at a later, stronger place before the next note
describe('metric syncopation (Huron, **synco)', () => {
  // weights of 4/4 in quavers as published: Longuet-Higgins & Lee 1984
  const WEIGHTS = [0, -3, -2, -3, -1, -3, -2, -3];
  const rhythms = Array.from({ length: 2 ** 7 }, (_, bits) => [0, ...Array.from({ length: 7 }, (_bit, i) => i + 1).filter((place) => (bits >> (place - 1)) % 2 === 1)]);

  it('is a strength above 0, in all 128 rhythms of a bar of quavers', () => {
    for (const onsets of rhythms) {
      const byDefinition = onsets.map((onset, i) => {
        const next = onsets[i + 1] ?? 8;
        return WEIGHTS.some((weight, place) => place > onset && place < next && weight > WEIGHTS[onset]!);
      });
      const lengths = onsets.map((onset, i) => (onsets[i + 1] ?? 8) - onset);
      expect([onsets, syncopations(lengths, spansOf(4, 4, 8)).map((strength) => (strength ?? 0) > 0)]).toEqual([onsets, byDefinition]);
    }
  });
});

describe('polyrhythms on the least common grid (common practice)', () => {
  /** Where each of two divisions strikes on the grid of both. */
  const strikes = (more: number, fewer: number): { readonly place: number; readonly who: string }[] => {
    const grid = more * fewer;
    const places = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => (i * grid) / count);
    const [quick, slow] = [places(more), places(fewer)];
    return [...new Set([...quick, ...slow])].sort((a, b) => a - b).map((place) => ({ place, who: quick.includes(place) && slow.includes(place) ? 'together' : quick.includes(place) ? 'right' : 'left' }));
  };
  const steps = (places: readonly number[], grid: number): readonly number[] => places.map((place, i) => (places[i + 1] ?? grid) - place);

  it.each([
    // onsets and distances as worked in textbooks of rhythm
    { more: 3, fewer: 2, onsets: [0, 2, 3, 4], distances: [2, 1, 1, 2] },
    { more: 4, fewer: 3, onsets: [0, 3, 4, 6, 8, 9], distances: [3, 1, 2, 2, 1, 3] },
  ])('$more : $fewer, and the hands come in that order in what is said', ({ more, fewer, onsets, distances }) => {
    const struck = strikes(more, fewer);
    expect(struck.map(({ place }) => place)).toEqual(onsets);
    expect(steps(onsets, more * fewer)).toEqual(distances);
    // one beat of a crotchet divided in both ways, then rest
    const notes = (count: number, letters: string, octave: number): string => Array.from({ length: count }, (_, i) => `${letters.charAt(i)}${octave}/${1 / count}`).join(' ');
    const bars: WrittenBar[] = [{ right: `${notes(more, 'CDEF', 5)} C5/3`, left: `${notes(fewer, 'CDEF', 3)} C3/3` }];
    const said = findPitfalls(score(bars)).find((pitfall) => pitfall.kind === 'crossRhythm')?.practise;
    expect(said).toContain(`${struck.map(({ who }) => who).join(', ')}.`);
  });
});

describe('three against six (common practice)', () => {
  /** Quavers of a bar on which beats fall. */
  const beatsOf = (beats: number, beatType: number): readonly number[] => {
    const beat = beatTicks({ ticksPerQuarter: 2 }, { time: { beats, beatType, symbol: null } });
    return Array.from({ length: 6 / beat }, (_, i) => i * beat);
  };
  it('the same six quavers have beats at 0 2 4 in 3/4, at 0 3 in 6/8', () => {
    expect(beatsOf(3, 4)).toEqual([0, 2, 4]);
    expect(beatsOf(6, 8)).toEqual([0, 3]);
  });
});

describe('compound time (notation)', () => {
  it.each([[6, 2], [9, 3], [12, 4]])('%i/8 has %i dotted beats', (quavers, beats) => {
    const time = { beats: quavers, beatType: 8, symbol: null };
    expect(isCompound(time)).toBe(true);
    // two ticks a crotchet make one a quaver
    expect(quavers / beatTicks({ ticksPerQuarter: 2 }, { time })).toBe(beats);
  });
});
