/** Notes that did not speak, given as they are measured; the song has eight notes a bar in the left hand. */
import { describe, expect, it } from 'vitest';
import { measured } from '../../src/base/index.js';
import { judgeDynamics } from '../../src/judge/dynamics.js';
import type { Observation } from '../../src/judge/index.js';
import type { Unspoken } from '../../src/measure/index.js';
import { playedBy, songOf } from './levelPlayers.js';

/** What is said where so many left-hand notes did not speak, one a bar, in so many bars of music. */
function saidOf(count: number, bars: number, kind: Unspoken['kind'] = 'silent'): readonly Observation[] {
  const input = playedBy(songOf(bars), { seed: 1, level: () => 60, scatter: 0 });
  const { levels } = input.measures;
  if (!levels.measured) throw new RangeError(levels.reason);
  const left = input.score.notes.filter(({ staff }) => staff === 2);
  const unspoken = Array.from({ length: count }, (_, i): Unspoken => ({ kind, hand: 'left', stretch: 0, visitIndex: i, noteIndex: left.find(({ barIndex }) => barIndex === i)?.index ?? 0, startS: 2 * i }));
  return judgeDynamics({ ...input, measures: { ...input.measures, levels: measured({ ...levels.value, unspoken }) } }).observations;
}

describe('notes that did not speak', () => {
  // eight bars have 64 notes: two of a hundred would be 1.28, so three times it is
  it('three times are the touch, twice are slips', () => {
    expect(saidOf(2, 8)).toEqual([]);
    expect(saidOf(3, 8).map(({ text }) => text)).toEqual(['Left hand, bars 1–3: soft inner notes did not speak.']);
    expect(saidOf(3, 8, 'split').map(({ text }) => text)).toEqual(['Left hand, bars 1–3: neighbouring keys were struck along.']);
  });

  // 32 bars have 256 notes: two of a hundred are 5.12, so six
  it('in a long piece a few always go by', () => {
    expect(saidOf(5, 32)).toEqual([]);
    expect(saidOf(6, 32).map(({ kind, measured: { value, threshold } }) => [kind, value, threshold])).toEqual([['didNotSpeak', 6, 6]]);
  });
});
