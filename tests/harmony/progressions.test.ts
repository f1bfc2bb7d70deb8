/** Textbook progressions, each in every key of its mode: degrees, and the key itself. Witness: worked by hand (progressions.ts). */
import { describe, expect, test } from 'vitest';
import { analyseHarmony } from '../../src/harmony/index.js';
import { chords } from './build.js';
import { PROGRESSIONS } from './progressions.js';

/** All twelve places, six flats to five sharps. */
const MOVES = [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5];

test.each(['major', 'minor'])('there are at least forty progressions in %s', (wanted) => {
  expect(PROGRESSIONS.filter(({ mode }) => mode === wanted).length).toBeGreaterThanOrEqual(40);
});

describe.each(PROGRESSIONS)('$mode: $name', ({ mode, chords: text, degrees }) => {
  test.each(MOVES)('moved by %i fifths', (move) => {
    const { harmonies, globalKey } = analyseHarmony(chords(text, { move }));
    expect(harmonies.map(({ degree }) => degree).join(' ')).toBe(degrees);
    expect(globalKey?.mode).toBe(mode);
    // C is pitch class 0, A 9; a fifth up is seven semitones
    expect(globalKey?.tonic).toBe(((((mode === 'major' ? 0 : 9) + 7 * move) % 12) + 12) % 12);
  });
});
