import { describe, expect, it } from 'vitest';
import { measured, notMeasured } from '../../src/base/index.js';
import type { LevelFacts } from '../../src/measure/index.js';
import { reportedPhrases } from '../../src/review/reportedPhrases.js';
import { inPhrases, playedBy, songOf } from '../judge/levelPlayers.js';

const score = songOf(8);

/** Every note of the tune at 60, the second four bars at 54; without scatter, the first beats 3 units louder. */
const levels = (): LevelFacts => {
  const { measures } = inPhrases(playedBy(score, { seed: 1, scatter: 0, level: ({ onsetTick }) => (onsetTick < 16 * 480 ? 60 : 54) }));
  if (!measures.levels.measured) throw new RangeError(measures.levels.reason);
  return measures.levels.value;
};

describe('phrases as files name them', () => {
  const reported = reportedPhrases(score, measured(levels()));

  it('have printed bars, the moment they begin, and tenths', () => {
    // thirteen notes, four of them on a first beat: 60 + 12 / 13 = 60.9; half a second a crotchet, 16 to a phrase
    expect(reported.measured && reported.value.phrases).toMatchObject([{ bars: ['1', '4'], pass: 1, start: 0, hand: 'right', level: 60.9 }, { bars: ['5', '8'], pass: 1, start: 8, level: 54.9 }]);
    expect(reported.measured && reported.value.echoes).toEqual([{ bars: ['5', '8'], pass: 1, start: 8, over: -6 }]);
  });

  it('endings name their note', () => {
    // the last note of bar 4 stands on a first beat: 3 over the three before it
    const last = score.notes.find(({ staff, barIndex }) => staff === 1 && barIndex === 3);
    expect(reported.measured && reported.value.endings[0]).toEqual({ bars: ['4', '4'], pass: 1, start: 6, of: 'phrase', hand: 'right', note: last?.id, overLast: 3, overLoudest: 3 });
  });

  it('are not measured where levels are not', () => {
    expect(reportedPhrases(score, notMeasured('the instrument gives every note the same strength'))).toEqual(notMeasured('the instrument gives every note the same strength'));
  });
});
