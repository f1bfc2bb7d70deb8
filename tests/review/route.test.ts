import { describe, expect, it } from 'vitest';
import type { Stretch } from '../../src/align/index.js';
import { strandsOf } from '../../src/judge/index.js';
import { routeInBrief, routeInWords } from '../../src/review/index.js';
import { material, stretch } from './material.js';

/** The route in words. Playing order of the score: bars 1 2 1 2 3 4 = visits 0-5. */
function words(route: readonly Stretch[], player = 'She'): string {
  const { score, alignment } = material({ route });
  return routeInWords(score, strandsOf(score, alignment, []), { player });
}

describe('the route in words', () => {
  it.each<[string, readonly Stretch[], string]>([
    ['straight through', [stretch(0, 0, 5)], 'Once through, with the repeat.'],
    ['back once', [stretch(0, 0, 4), stretch(1, 3, 5)], 'She went back once, to bar 2.'],
    ['back twice', [stretch(0, 0, 3), stretch(1, 2, 4), stretch(2, 4, 5)], 'She went back twice: to bar 1, then to bar 3.'],
    ['a bar left out', [stretch(0, 0, 3), stretch(1, 5, 5)], 'Left out: bar 3.'],
    ['the repeat left out', [stretch(0, 0, 1), stretch(1, 4, 5)], 'Left out: the repeat of bars 1–2.'],
    ['a section only', [stretch(0, 4, 5)], 'Bars 3–4 of 4 bars, without going back.'],
    ['one hand alone', [stretch(0, 0, 5, { hands: 'right' })], 'The right hand plays alone.'],
    ['hands apart, then together', [stretch(0, 0, 1, { hands: 'left' }), stretch(1, 0, 5)], 'Bars 1–2 with the left hand alone, then hands together.'],
    ['each hand alone', [stretch(0, 0, 1, { hands: 'right' }), stretch(1, 0, 1, { hands: 'left' }), stretch(2, 0, 5)], 'Bars 1–2 hands separately, then hands together.'],
    ['bars and a repeat left out, the bars first', [stretch(0, 0, 0), stretch(1, 2, 2), stretch(2, 5, 5)], 'Left out: bars 2–3 and the repeat of bar 2.'],
    ['nothing', [], 'Nothing of the score was played.'],
  ])('%s', (_, route, expected) => {
    expect(words(route)).toBe(expected);
  });

  it('tells only where it happened most once there are more than four', () => {
    const back = [1, 2, 3, 4, 5].map((index) => stretch(index, index === 5 ? 4 : 2, 4));
    expect(words([stretch(0, 0, 4), ...back])).toContain('She went back five times, most often to bar 1 (four times) and bar 3 (once).');
  });

  it('is shorter on the desk, and names nobody', () => {
    const { score, alignment } = material({ route: [stretch(0, 0, 4), stretch(1, 3, 5, { hands: 'right' })] });
    expect(routeInBrief(score, strandsOf(score, alignment, []))).toEqual(['went back once, to bar 2', 'partly one hand alone']);
  });
});

describe('strands', () => {
  it('part where the written bars do not follow each other, a repeat told from going back', () => {
    const { score, alignment } = material({ route: [stretch(0, 0, 4), stretch(1, 4, 5)] });
    expect(strandsOf(score, alignment, []).map(({ fromBar, toBar, arrival }) => [fromBar, toBar, arrival])).toEqual([
      [0, 1, 'start'],
      [0, 2, 'order'],
      [2, 3, 'back'],
    ]);
  });

  it('end with the last note that was played, in written ticks', () => {
    // right hand: four crotchets a bar; occurrences in order of onset, then pitch: bar 1 is G2 F#4 F#4 F#4 F#4 = 0-4
    const { score, alignment } = material({ route: [stretch(0, 0, 0)], pairs: [0, 1, 2].map((n) => ({ occurrence: n, note: n, stretch: 0, attempt: 1, octaveSlip: 0 })), keys: [43, 66, 66] });
    const [strand] = strandsOf(score, alignment, [0.5, 0.5, 1]);
    // the left hand's semibreve reaches to the end of the bar: four crotchets
    expect(strand).toMatchObject({ fromTick: 0, toTick: 4 * score.ticksPerQuarter, startS: 0.5, endS: 1 });
  });
});
