import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { NO_DECISIONS, type Decisions } from '../../src/judge/index.js';
import { readAllTogether } from '../../src/pipeline/index.js';
import { compareRecordings, type Comparison } from '../../src/progress/index.js';

const ROOM = join(import.meta.dirname, '../../sample-recordings');
const file = (path: string): { name: string; bytes: Uint8Array } => ({ name: path, bytes: readFileSync(join(ROOM, path)) });

function compared(piece: string, pupil: string, days: readonly [earlier: string, later: string], decisions: Decisions = NO_DECISIONS): Comparison {
  const [earlier, later] = readAllTogether(file(`${piece}/score.musicxml`), days.map((day) => file(`${piece}/${pupil}-2025-${day}.mid`)));
  return compareRecordings({ ...earlier!, language: 'british', decisions }, { ...later!, language: 'british', decisions });
}

// what was planned of the two recordings is the witness: a fault of the earlier that the later has not is better, the other way round worse
describe.each<{ piece: string; pupil: string; days: readonly [string, string]; better: readonly string[]; worse: readonly string[] }>([
  { piece: 'rowing-home', pupil: 'mei-castellow', days: ['10-07', '10-21'], better: ['goingBack', 'bassNotCaught', 'missed'], worse: ['blurred'] },
  { piece: 'rowing-home', pupil: 'mei-castellow', days: ['09-30', '10-07'], better: ['notUsed', 'wrong', 'hesitation'], worse: ['goingBack', 'bassNotCaught'] },
  { piece: 'rowing-home', pupil: 'jonas-brekkewood', days: ['10-14', '11-18'], better: ['blurred', 'noClosingRitardando', 'rushing', 'changeNotMade'], worse: ['behind', 'wrong'] },
  { piece: 'quayside-march', pupil: 'asha-vellory', days: ['10-16', '11-20'], better: ['evenDots', 'staccatoLong', 'wrong'], worse: ['changeNotMade', 'fast'] },
])('$piece, $pupil, $days', ({ piece, pupil, days, better, worse }) => {
  const { changes } = compared(piece, pupil, days);
  const kinds = (direction: string): readonly string[] => changes.filter((change) => change.direction === direction).map(({ kind }) => kind);

  it('what was planned to be gone is better, what is planned anew is worse', () => {
    expect(kinds('better')).toEqual(expect.arrayContaining([...better]));
    expect(kinds('worse')).toEqual(expect.arrayContaining([...worse]));
  });
});

describe('what the teacher decided', () => {
  it('is no change either', () => {
    const days = ['10-07', '10-21'] as const;
    const decisions: Decisions = { ...NO_DECISIONS, left: [{ aspect: 'pedal', kind: 'blurred' }], rightAsPlayed: [{ aspect: 'notes', kind: null, hand: 'right', notes: [], bars: [['19', '27']] }] };
    const worse = (of: Comparison): readonly string[] => of.changes.filter(({ direction }) => direction === 'worse').map(({ kind }) => kind);
    expect(worse(compared('rowing-home', 'mei-castellow', days))).toEqual(expect.arrayContaining(['blurred', 'missed', 'added']));
    expect(worse(compared('rowing-home', 'mei-castellow', days, decisions))).toEqual([]);
  });
});
