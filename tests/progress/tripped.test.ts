import { describe, expect, it } from 'vitest';
import { experienceAt, sinkUntrue, unforeseenBars, type PieceHistory } from '../../src/progress/index.js';

/** A pupil who played bars 0 to 9, or some others, and was tripped at some. */
function pupil(tripped: readonly number[], played: readonly number[] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9]): PieceHistory {
  return { played: new Set(played), tripped: new Set(tripped) };
}

// bar 4 trips three of four, bar 7 two of three (the last pupil stops before it), bar 2 one of four
const histories = [pupil([4, 7]), pupil([4, 7, 2]), pupil([4]), pupil([], [0, 1, 2, 3, 4])];

describe('what pupils met in a piece', () => {
  it('counts pupils who played a place, each once', () => {
    expect(experienceAt(histories, [4])).toEqual({ tripped: 3, of: 4 });
    expect(experienceAt(histories, [7])).toEqual({ tripped: 2, of: 3 });
    expect(experienceAt(histories, [4, 7])).toEqual({ tripped: 3, of: 4 });
    expect(experienceAt([], [4])).toEqual({ tripped: 0, of: 0 });
  });

  it('lets a prediction sink that three pupils did not bear out, and leaves the order else', () => {
    expect(sinkUntrue([9, 2, 0, 4], (bar) => experienceAt(histories, [bar]))).toEqual([2, 4, 9, 0]);
    expect(sinkUntrue([9, 2], (bar) => experienceAt(histories.slice(2), [bar]))).toEqual([9, 2]);
  });

  it('names bars that trip half of them, and two at least, though nothing foretold it', () => {
    expect(unforeseenBars(histories, new Set())).toEqual([4, 7]);
    expect(unforeseenBars(histories, new Set([4]))).toEqual([7]);
  });
});
