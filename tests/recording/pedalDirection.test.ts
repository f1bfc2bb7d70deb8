import { describe, expect, it } from 'vitest';
import { control, midiFile, note, off, on, track } from './midiBytes.js';
import { kinds, read } from './reading.js';

/** Eight chords of a second each; 960 ticks a second at the default tempo. A movement is [seconds, value]. */
function piece(moves: readonly (readonly [atS: number, value: number])[]): Uint8Array {
  const events = [
    ...Array.from({ length: 8 }, (_, i) => [{ atS: i, of: (delta: number) => on(delta, 60 + i) }, { atS: i + 0.9, of: (delta: number) => off(delta, 60 + i) }]).flat(),
    ...moves.map(([atS, value]) => ({ atS, of: (delta: number) => control(delta, 64, value) })),
  ].sort((a, b) => a.atS - b.atS);
  return midiFile({}, track(...events.map(({ atS, of }, i) => of(Math.round(960 * atS) - Math.round(960 * (events[i - 1]?.atS ?? 0))))));
}

/** Legato pedal: down soon after the first chord, up with each new one and down again, up at the end. `end` as sent last. */
function legato(down: number, up: number, ends = true): readonly (readonly [number, number])[] {
  const changes = Array.from({ length: 7 }, (_, i) => [[i + 1.02, up], [i + 1.22, down]] as const).flat();
  return [[0.2, down], ...changes, ...(ends ? [[8, up] as const] : [])];
}

describe('a pedal the wrong way round', () => {
  it('a switch is turned and said', () => {
    const recording = read(piece(legato(0, 127)));
    expect(kinds(recording)).toContain('inverted-pedal');
    expect(recording.sustain.map(({ value }) => value)).toEqual(legato(127, 0).map(([, value]) => value));
  });

  it('a continuous one too', () => {
    const slope = legato(0, 127).flatMap(([atS, value]) => [[atS, value === 0 ? 90 : 30], [atS + 0.03, value]] as const);
    expect(kinds(read(piece(slope)))).toContain('inverted-pedal');
  });
});

describe('a pedal the right way round', () => {
  it.each([
    ['a switch', legato(127, 0)],
    ['one that says at first that it is up', [[0, 0], ...legato(127, 0)]],
    ['one left down at the end', [[0, 0], ...legato(127, 0, false)]],
    ['one that is pressed once more when all is over', [[0, 0], ...legato(127, 0), [8.3, 127]]],
    ['short presses with the chords', Array.from({ length: 8 }, (_, i) => [[i, 127], [i + 0.3, 0]] as const).flat()],
    ['a single press', [[0.5, 127]]],
    ['nothing', []],
  ] as const)('%s stays as it is', (_, moves) => {
    const recording = read(piece(moves));
    expect(kinds(recording)).not.toContain('inverted-pedal');
    expect(recording.sustain.map(({ value }) => value)).toEqual(moves.map(([, value]) => value));
  });

  it('no note is lost by it', () => {
    expect(read(midiFile({}, track(control(0, 64, 127), note(0, 60)))).notes).toHaveLength(1);
  });
});
