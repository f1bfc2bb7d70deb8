import { describe, expect, it } from 'vitest';
import { clockTime, lengthInWords, momentInWords } from '../../src/web/moments.js';

describe('a moment in words', () => {
  // Wednesday 8 October 2025, noon, local time
  const now = new Date('2025-10-08T12:00:00');

  it.each([
    ['2025-10-08T04:59:00', 'last night'],
    ['2025-10-07T23:00:00', 'last night'],
    ['2025-10-07T02:00:00', 'Monday night'],
    ['2025-10-08T22:30:00', 'tonight'],
    ['2025-10-08T05:00:00', 'this morning'],
    ['2025-10-08T11:59:00', 'this morning'],
    ['2025-10-07T12:00:00', 'yesterday afternoon'],
    ['2025-10-07T18:00:00', 'yesterday evening'],
    ['2025-10-02T21:59:00', 'Thursday evening'],
    ['2025-10-02T22:00:00', 'Thursday night'],
    ['2025-10-01T12:00:00', '1 October'],
    ['2024-10-08T12:00:00', '8 October 2024'],
    ['2025-10-20T12:00:00', '20 October'],
  ])('%s is %s', (iso, words) => {
    expect(momentInWords(iso, now).words).toBe(words);
  });

  it('has the exact time beside it', () => {
    expect(momentInWords('2025-10-07T18:04:00', now).exact).toMatch(/Tuesday,? 7 October 2025.*18:04/);
  });
});

describe('lengths and clock times', () => {
  it('are rounded for people', () => {
    // nearest five seconds below 50 s; nearest half minute up to 1 min 45 s; whole minutes beyond
    expect([0, 41, 48, 50, 74, 75, 104, 105, 170].map(lengthInWords)).toEqual([
      '5 seconds', '40 seconds', '50 seconds', '1 minute', '1 minute', '1½ minutes', '1½ minutes', '2 minutes', '3 minutes',
    ]);
    expect([0, 7.9, 60, 760].map(clockTime)).toEqual(['0:00', '0:07', '1:00', '12:40']);
  });
});
