import { describe, expect, it } from 'vitest';
import { analyseScore } from '../../src/analysis/index.js';
import { judgeNotes } from '../../src/judge/notes.js';
import type { AspectJudgement } from '../../src/judge/index.js';
import type { Added, Missed } from '../../src/align/index.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { material, stretch } from '../review/material.js';

// visit 1 is bar 2 the first time: its occurrences are 5 (G 2, left), 6-9 (F sharp 4 = 66, right)
function judged({ keys = [], added = [], missed = [], restruck = [] }: { keys?: readonly number[]; added?: readonly Added[]; missed?: readonly Missed[]; restruck?: readonly number[] }): AspectJudgement {
  const parts = material({ route: [stretch(0, 0, 5)], bars: [{}, { visitIndex: 4, barIndex: 2, number: '3' }], keys, added, missed });
  // all keys go down together
  const notes = parts.recording.notes.map((note) => ({ ...note, onsetS: 1, releaseS: 2 }));
  const holding = { ...NO_MEASURES.holding, restruck: restruck.map((note) => ({ pair: 0, note, tied: 0 })) };
  return judgeNotes({ ...parts, recording: { ...parts.recording, notes }, analysis: analyseScore(parts.score), measures: { ...NO_MEASURES, holding, bars: parts.measures.bars }, language: 'british' });
}

const press = (note: number, near: number, instead = false): Added => ({ note, stretch: 0, near, instead });
const weight = ({ observations }: AspectJudgement): number => observations[0]?.weight ?? 0;

describe('notes', () => {
  it('every note as written: nothing to say, no concern', () => {
    expect(judged({})).toMatchObject({ observations: [], concern: { measured: true, value: 0 }, summary: 'Every note as written.' });
  });

  it('a wrong note weighs more than one that is missing', () => {
    const wrong = judged({ keys: [65], added: [press(0, 6, true)], missed: [{ occurrence: 6, stretch: 0, attempt: 1 }] });
    expect(wrong.observations.map(({ text }) => text)).toEqual(['Right hand, bar 2: F natural for F sharp.']);
    expect(weight(wrong)).toBeGreaterThan(weight(judged({ missed: [{ occurrence: 6, stretch: 0, attempt: 1 }] })));
  });

  it('an added note that is sounding already in another octave is hardly heard, and no concern; any other is', () => {
    const doubling = judged({ keys: [60, 72], added: [press(1, 6)] });
    const stray = judged({ keys: [60, 73], added: [press(1, 6)] });
    expect(weight(doubling)).toBeLessThan(weight(stray) / 2);
    expect(doubling.concern).toEqual({ measured: true, value: 0 });
    expect(stray.concern).not.toEqual({ measured: true, value: 0 });
  });

  it('a note in another place is one slip, and less of one than a wrong note', () => {
    const elsewhere = judged({ keys: [54], added: [press(0, 8)], missed: [{ occurrence: 6, stretch: 0, attempt: 1 }] });
    const wrong = judged({ keys: [65], added: [press(0, 6, true)], missed: [{ occurrence: 6, stretch: 0, attempt: 1 }] });
    expect(elsewhere.observations.map(({ text, measured }) => [text, measured.value])).toEqual([['Right hand, bar 2: F sharp in another place.', 1]]);
    expect(weight(elsewhere)).toBeLessThan(weight(wrong));
  });

  it('an accidental that was not read has its remedy, any other wrong note goes without saying', () => {
    const adviceOn = (key: number): string | undefined => judged({ keys: [key], added: [press(0, 6, true)], missed: [{ occurrence: 6, stretch: 0, attempt: 1 }] }).observations[0]?.advice;
    // F natural for F sharp; A for F sharp
    expect(adviceOn(65)).toBe('Ring it, and name it aloud from the bar before.');
    expect(adviceOn(69)).toBe('');
  });

  it('the same misreading in two bars is one thing that comes back, with advice', () => {
    const { observations } = judged({
      keys: [65, 65], added: [press(0, 6, true), press(1, 21, true)], missed: [{ occurrence: 6, stretch: 0, attempt: 1 }, { occurrence: 21, stretch: 0, attempt: 1 }],
    });
    expect(observations.map(({ text, advice }) => [text, advice])).toEqual([['Right hand, bars 2–3: F natural for F sharp each time.', 'Ring it, and name it aloud from the bar before.']]);
  });

  it('the same slip once in one bar and twice in another is the same misreading', () => {
    const { observations } = judged({
      keys: [65, 65, 65], added: [press(0, 6, true), press(1, 21, true), press(2, 22, true)], missed: [6, 21, 22].map((occurrence) => ({ occurrence, stretch: 0, attempt: 1 })),
    });
    expect(observations.map(({ text }) => text)).toEqual(['Right hand, bars 2–3: F natural for F sharp each time.']);
  });

  it('a tie struck again is no added note', () => {
    expect(judged({ keys: [66], added: [press(0, 6)], restruck: [0] }).observations).toEqual([]);
    expect(judged({ keys: [66], added: [press(0, 6)] }).observations).toHaveLength(1);
  });
});
