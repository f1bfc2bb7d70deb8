import { describe, expect, it } from 'vitest';
import { densityOf, heightOf, SIDE_PX } from '../../../src/web/lessonSheet/density.js';
import { LONGEST, type SheetBody } from '../../../src/web/lessonSheet/sheetBody.js';

const short: SheetBody = { well: 'The jump is in time.', things: [{ bars: ['5', '8'], words: 'The dotted pairs are even.', practise: '' }], next: '' };
const thing = { bars: ['5', '8'] as const, words: 'w'.repeat(LONGEST.words), practise: 'p'.repeat(LONGEST.practise) };
const full: SheetBody = { well: 'x'.repeat(LONGEST.well), things: [thing, thing, thing], next: 'n'.repeat(LONGEST.next) };

describe('how tightly a sheet is set', () => {
  it('is roomy where little stands on it', () => {
    expect(densityOf(short, [150])).toBe('roomy');
  });

  it('grows closer with the text', () => {
    expect(densityOf(full, [150, 150, 150])).not.toBe('roomy');
  });

  it('holds every text at its longest and three excerpts of 190 px on one side', () => {
    // 190 px: two staves 130 px apart with a mark above and a number below, more than the demo's highest system
    expect(heightOf(full, [190, 190, 190], 'closest')).toBeLessThanOrEqual(SIDE_PX);
  });
});
