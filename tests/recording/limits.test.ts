import { describe, expect, it } from 'vitest';
import { GUESSED_LEAST_MOVES, GUESSED_SHARE, LONG_SILENCE_S, NO_TOUCH_LEAST_NOTES, NO_TOUCH_SHARE, SWITCH_DOWN, SWITCH_UP } from '../../src/recording/index.js';
import { control, midiFile, note, off, on, track } from './midiBytes.js';
import { kinds, read, sentence, expectInputError } from './reading.js';

/** One note after the other with these velocities. */
function velocities(list: readonly number[]): Uint8Array {
  return midiFile({}, track(list.flatMap((velocity, i) => note(0, 48 + (i % 24), 240, { velocity }))));
}

/** One note and a pedal that sends these values. */
function pedal(...values: number[]): Uint8Array {
  return midiFile({}, track(values.flatMap((value) => control(10, 64, value)), note(0, 60)));
}

describe('no touch response', () => {
  const equal = (count: number): number[] => Array.from({ length: count }, () => 64);

  it('nearly all velocities equal, exactly on the share', () => {
    expect(NO_TOUCH_SHARE).toBe(0.95);
    expect(kinds(read(velocities([...equal(19), 90])))).toContain('no-touch'); // 19 of 20 = 0.95
    expect(kinds(read(velocities([...equal(18), 90, 91])))).not.toContain('no-touch'); // 18 of 20
  });

  it('too few notes say nothing about the instrument', () => {
    expect(kinds(read(velocities(equal(NO_TOUCH_LEAST_NOTES))))).toContain('no-touch');
    expect(kinds(read(velocities(equal(NO_TOUCH_LEAST_NOTES - 1))))).not.toContain('no-touch');
  });
});

describe('pedal', () => {
  it('none at all, or one that never goes down', () => {
    expect(kinds(read(pedal()))).toContain('no-pedal');
    expect(kinds(read(pedal(0, SWITCH_UP, 0)))).toContain('no-pedal');
    expect(kinds(read(pedal(0, SWITCH_UP + 1, 0)))).not.toContain('no-pedal');
  });

  it('a switch sends only up and down, even if not exactly 0 and 127', () => {
    expect(kinds(read(pedal(0, 127, 0, 127)))).toContain('switch-pedal');
    expect(kinds(read(pedal(0, SWITCH_DOWN, SWITCH_UP, 127)))).toContain('switch-pedal');
    expect(kinds(read(pedal(0, 64, 0, 64)))).toContain('switch-pedal');
  });

  // twelve moves, a twentieth of a second apart where quick: 24 ticks of 480 to the crotchet of half a second are 25 ms, 480 are 500 ms
  const feet = (quick: number, moves: number): Uint8Array => midiFile({}, track(Array.from({ length: moves }, (_, i) => control(i > 0 && i <= quick ? 24 : 480, 64, i % 2 === 0 ? 127 : 0)).flat(), note(0, 60)));

  it('that moves more quickly than a foot can was guessed from the sound, exactly on the share', () => {
    expect([GUESSED_LEAST_MOVES, GUESSED_SHARE]).toEqual([12, 0.2]);
    expect(kinds(read(feet(3, 15)))).toContain('guessed-pedal'); // 3 of 15 = 0.2
    expect(kinds(read(feet(2, 15)))).not.toContain('guessed-pedal');
    expect(kinds(read(feet(11, 12)))).toContain('guessed-pedal');
    expect(kinds(read(feet(10, 11)))).not.toContain('guessed-pedal');
  });

  it('a continuous pedal passes through the values between', () => {
    expect(kinds(read(pedal(0, 60, 127)))).not.toContain('switch-pedal');
    expect(kinds(read(pedal(0, SWITCH_DOWN - 1, 127)))).not.toContain('switch-pedal');
    expect(kinds(read(pedal(0, 60, 127)))).not.toContain('no-pedal');
  });
});

describe('release velocity', () => {
  it('given by none, or the same for all', () => {
    expect(kinds(read(midiFile({}, track(on(0, 60), on(240, 60, 0), on(0, 62), on(240, 62, 0)))))).toContain('no-release-velocity');
    expect(kinds(read(midiFile({}, track(on(0, 60), off(240, 60, 64), on(0, 62), off(240, 62, 64)))))).toContain('no-release-velocity');
  });

  it('that differs is a measurement', () => {
    expect(kinds(read(midiFile({}, track(on(0, 60), off(240, 60, 64), on(0, 62), off(240, 62, 65)))))).not.toContain('no-release-velocity');
  });
});

describe('silence before the start', () => {
  it('is said beyond ten seconds, not at ten', () => {
    // 960 ticks a second at the default tempo
    expect(kinds(read(midiFile({}, track(note(960 * LONG_SILENCE_S, 60)))))).not.toContain('long-silence');
    expect(sentence(read(midiFile({}, track(note(960 * LONG_SILENCE_S + 1, 60)))), 'long-silence')).toContain('10 seconds');
  });
});

it('a clean recording from a good instrument has no limits', () => {
  const bytes = midiFile({}, track(control(0, 64, 0), control(10, 64, 60), control(10, 64, 127), on(0, 60, 50), off(240, 60, 30), on(0, 62, 70), off(240, 62, 31)));
  expect(kinds(read(bytes))).toEqual([]);
});

it('a file without notes is a typed error, not a recording', () => {
  expect(expectInputError(midiFile({}, track(control(0, 64, 127))), 'no-notes').message).toContain('not a single note');
});
