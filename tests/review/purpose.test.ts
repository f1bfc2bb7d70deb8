import { describe, expect, it } from 'vitest';
import { analyseScore } from '../../src/analysis/index.js';
import type { Missed, Pair, Stretch } from '../../src/align/index.js';
import { measured } from '../../src/base/index.js';
import { guessPurpose } from '../../src/review/purpose.js';
import { purposeInWords } from '../../src/review/index.js';
import { material, stretch } from './material.js';
import { NO_MEASURES } from '../measure/nothing.js';

/** Six visits (bars 1 2 1 2 3 4) under "Vivace", 90 crotchets a minute; five occurrences a visit. */
function guessed({ route, tempo = 90, missing = 0 }: { route: readonly Stretch[]; tempo?: number; missing?: number }) {
  const pairs: readonly Pair[] = Array.from({ length: 20 - missing }, (_, index) => ({ occurrence: index, note: index, stretch: 0, attempt: 1, octaveSlip: 0 }));
  const missed: readonly Missed[] = Array.from({ length: missing }, (_, index) => ({ occurrence: 29 - index, stretch: 0, attempt: 1 }));
  const parts = material({ route, pairs, missed, keys: pairs.map(() => 66) });
  const mark = { tick: 0, barIndex: 0, change: null, words: 'Vivace', crotchetsAMinute: 90, unit: { name: 'crotchet', crotchets: 1 } } as const;
  const pulse = { ...NO_MEASURES.pulse, spans: [{ mark, stretch: 0, fromVisit: 0, toVisit: 5, played: measured(tempo) }] };
  return guessPurpose({ ...parts, analysis: analyseScore(parts.score), measures: { ...NO_MEASURES, ...parts.measures, pulse }, language: 'british' });
}

const WHOLE = [stretch(0, 0, 5)];
const PART = [stretch(0, 0, 1)];

describe('what a recording is for', () => {
  it.each([
    ['the whole of it', { route: WHOLE }, 'runThrough', 'the piece is played from beginning to end'],
    // 67 of 90 is under three quarters, 68 is not
    ['the whole, slowly', { route: WHOLE, tempo: 67 }, 'buildingUp', 'it is well under the marked tempo'],
    ['the whole, not quite so slowly', { route: WHOLE, tempo: 68 }, 'runThrough', 'the piece is played from beginning to end'],
    ['a part, at its tempo', { route: PART, tempo: 82 }, 'polishing', 'only a part of the piece is played'],
    // within a tenth is as marked: 80 of 90 is less
    ['a part, under its tempo', { route: PART, tempo: 80 }, 'buildingUp', 'only a part of the piece is played, under the marked tempo'],
    // 3 of 20 notes missing are 15 %
    ['many notes missing', { route: WHOLE, missing: 3 }, 'firstReading', 'many notes are still wrong or missing'],
    ['back twice', { route: [stretch(0, 0, 2), stretch(1, 1, 4), stretch(2, 3, 5)] }, 'buildingUp', 'it goes back twice'],
    ['hands in turn', { route: [stretch(0, 0, 1, { hands: 'right' }), stretch(1, 0, 1, { hands: 'left' }), stretch(2, 0, 5)] }, 'buildingUp', 'one hand plays alone'],
  ] as const)('%s', (_, parts, purpose, reason) => {
    expect(guessed(parts)).toEqual({ purpose, guessed: true, reason });
  });

  it('in words, and where somebody said so', () => {
    expect(purposeInWords(guessed({ route: WHOLE }))).toBe('Taken as a run-through: the piece is played from beginning to end.');
    expect(purposeInWords({ purpose: 'fromMemory', guessed: false, reason: '' })).toBe('Meant as playing from memory.');
  });
});
