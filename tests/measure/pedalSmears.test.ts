import { describe, expect, it } from 'vitest';
import { barFacts } from '../../src/measure/barFacts.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { pedalFacts } from '../../src/measure/pedalFacts.js';
import type { PedalFacts } from '../../src/measure/index.js';
import { analysed, left, played, right, scoreOf, steady, TICKS, type Written } from './piece.js';

const C_MAJOR = new Set([0, 4, 7]);

/** Notes of a second a crotchet, fingers gone after half of each, all under one pedal, and all of it one harmony of C major. */
function underOneHarmony(written: readonly Written[]): PedalFacts {
  const score = scoreOf(written);
  const piece = played(score, { clock: steady(1, 1) });
  const lengthS = new Map(piece.alignment.pairs.map(({ note, occurrence }) => [note, ((score.occurrences[occurrence]?.endTick ?? 0) - (score.occurrences[occurrence]?.onsetTick ?? 0)) / TICKS]));
  const notes = piece.recording.notes.map((note) => ({ ...note, releaseS: note.onsetS + 0.5 * (lengthS.get(note.index) ?? 1) + 0.05 }));
  const recording = { ...piece.recording, notes, sustain: [{ timeS: 1.1, value: 127 }] };
  const { analysis: { harmonies: [first], ...rest } } = analysed(piece);
  if (first === undefined) throw new RangeError('no harmony');
  const foreign = score.notes.flatMap(({ index, pitch, grace }) => (C_MAJOR.has(pitch.midi % 12) || grace !== null ? [] : [{ noteIndex: index, kind: 'passing' as const, figure: null }]));
  const whole = { ...piece, recording, analysis: { ...rest, harmonies: [{ ...first, fromTick: 0, nonChordNotes: foreign }] } };
  return pedalFacts(whole, barFacts(whole, onsetDeviations(whole)));
}

describe('foreign notes that ring on inside one harmony', () => {
  const held = [left(1, 1, 48, 4), left(1, 1, 55, 4)];

  it('stand in the bar in which they ring on, not where the harmony began', () => {
    // the B in the last crotchet of bar 1 gives way to C in bar 2: struck a bar line later, 4 s after the beginning
    const { smears } = underOneHarmony([...held, left(1, 4, 59, 1), left(2, 1, 48, 4), left(2, 1, 60, 4)]);
    expect(smears).toHaveLength(1);
    expect(smears[0]).toMatchObject({ visitIndex: 1, tick: 4 * TICKS, writtenTick: 4 * TICKS, soundS: 5 });
    expect(smears[0]?.carried.map(({ pitch }) => pitch)).toEqual([59]);
  });

  it('a passing chord lasts until its own hand goes back, whatever the tune does above it', () => {
    // B and F over two crotchets in the left hand; the right hand has notes of C major above them all the time
    const chord = [left(1, 2, 53, 2), left(1, 2, 59, 2)];
    const tune = [right(1, 2.5, 76, 0.5), right(1, 3, 72, 0.5), right(1, 3.5, 76, 0.5)];
    const { smears } = underOneHarmony([left(1, 1, 48, 1), left(1, 1, 52, 1), left(1, 1, 55, 1), ...chord, ...tune, left(1, 4, 48, 1), left(1, 4, 52, 1)]);
    const passing = smears.find(({ tick }) => tick === TICKS);
    // it begins a second after the first chord and ends with the left hand's fourth crotchet
    expect(passing).toMatchObject({ soundS: 2, untilS: 4 });
    // C, E and G of the first chord against B and F: all foreign to these
    expect(passing?.carried.map(({ pitch }) => pitch).sort((a, b) => a - b)).toEqual([48, 52, 55]);
  });

  it('foreign notes of a tune, one at a time, are no chord', () => {
    const { smears } = underOneHarmony([...held, right(1, 2, 62, 1), right(1, 3, 65, 1)]);
    expect(smears).toEqual([]);
  });
});

describe('an ornament', () => {
  it('does not make the old note welcome', () => {
    // F held over into C major, whose C has a small F before it: as a chord note that would be F's own name
    const written = [left(1, 1, 41, 4), left(1, 1, 57, 4), left(1, 1, 60, 4), left(2, 1, 48, 4), left(2, 1, 55, 4), left(2, 1, 64, 4), right(2, 1, 72, 4)];
    const grace: Written = { bar: 2, beat: 1, pitch: 77, length: 0, staff: 1, kind: 'grace' };
    const [plain, graced] = [written, [...written, grace]].map((notes) => {
      const score = scoreOf(notes);
      const piece = played(score, { clock: steady(1, 1) });
      const recording = { ...piece.recording, notes: piece.recording.notes.map((note) => ({ ...note, releaseS: note.onsetS + 2 })), sustain: [{ timeS: 1.1, value: 127 }] };
      return pedalFacts(analysed({ ...piece, recording }), []).changes.find(({ tick }) => tick === 4 * TICKS);
    });
    expect(plain?.carried.map(({ pitch }) => pitch)).toContain(41);
    expect(graced?.carried.map(({ pitch }) => pitch)).toContain(41);
  });
});
