import { describe, expect, it } from 'vitest';
import { criticalBandwidth, hutchinsonKnopoff, roughnessAt } from '../../src/measure/hutchinsonKnopoff.js';
import { frequencyOf, partialsOf, type Partial } from '../../src/measure/partials.js';
import { sethares, setharesPair } from '../../src/measure/sethares.js';
import { roughnessTeller } from '../../src/measure/soundingRoughness.js';

function tones(frequencies: readonly number[], amplitudes: readonly number[] = frequencies.map(() => 1)): readonly Partial[] {
  return frequencies.map((frequency, i) => ({ frequency, amplitude: amplitudes[i] ?? 1 }));
}

const chord = (...pitches: readonly number[]): readonly Partial[] => pitches.flatMap((pitch) => partialsOf(pitch));
const pure = (...pitches: readonly number[]): readonly Partial[] => tones(pitches.map(frequencyOf));

describe('Sethares', () => {
  // the unit of his published output is the roughness of 440 and 460 Hz, both with amplitude 1
  const unit = sethares(tones([440, 460]));

  // his MATLAB program's output, printed to four places in the tests of a public library
  it.each([
    [[440, 460, 480], [1, 1, 1], 2.9194],
    [[440, 460, 480], [1, 2, 3], 3.9161],
    [[440, 460, 480], [3, 2, 1], 3.9194],
    [[300, 250, 275, 425], [1.5, 2, 9, 4], 4.8657],
  ])('%j with amplitudes %j', (frequencies, amplitudes, published) => {
    expect(sethares(tones(frequencies, amplitudes)) / unit).toBeCloseTo(published, 4);
  });

  /** Ratios to the fundamental at which six harmonics (each .88 of the one before) over it are smoother than on both sides. */
  function minima(fundamental: number): readonly number[] {
    const sound = (base: number): readonly Partial[] => Array.from({ length: 6 }, (_, i) => ({ frequency: base * (i + 1), amplitude: 0.88 ** i }));
    const curve = Array.from({ length: 2200 }, (_, i) => 1 + i / 2000).map((ratio) => ({ ratio, rough: sethares([...sound(fundamental), ...sound(fundamental * ratio)]) }));
    return curve.filter(({ rough }, i) => i > 0 && rough < (curve[i - 1]?.rough ?? 0) && rough <= (curve[i + 1]?.rough ?? 0)).map(({ ratio }) => ratio);
  }

  // Sethares 1993 (recalled): a spectrum of six harmonics is smoothest at the just intervals
  it.each([500, 261.63])('is smoothest at 6/5 5/4 4/3 3/2 5/3 2/1 over %d Hz', (fundamental) => {
    const found = minima(fundamental);
    for (const just of [6 / 5, 5 / 4, 4 / 3, 3 / 2, 5 / 3, 2]) expect(Math.min(...found.map((ratio) => Math.abs(ratio - just)))).toBeLessThan(0.002);
  });

  // Plomp and Levelt 1965: one maximum, about a quarter of a critical bandwidth; 22.4 Hz above middle C and 25.8 Hz above 440 by his formula
  it.each([[261.63, 22.4], [440, 25.8]])('two sines are roughest %d Hz + %d Hz', (low, apart) => {
    const at = (distance: number): number => setharesPair({ frequency: low, amplitude: 1 }, { frequency: low + distance, amplitude: 1 });
    const distances = Array.from({ length: 2000 }, (_, i) => i / 10);
    const roughest = distances.reduce((best, distance) => (at(distance) > at(best) ? distance : best));
    expect(roughest).toBeCloseTo(apart, 1);
    expect(distances.filter((distance, i) => i > 0 && at(distance) > at(distance - 0.1) && at(distance) >= at(distance + 0.1))).toHaveLength(1);
  });
});

describe('Hutchinson and Knopoff', () => {
  // printed in the tests of a public library of the measure
  it('critical bandwidth', () => {
    expect(criticalBandwidth(400, 440)).toBeCloseTo(87.225, 3);
    expect(criticalBandwidth(400, 380)).toBeCloseTo(83.123, 3);
  });

  it.each([[0.25, 1], [0.5, 0.5413], [1, 0.0397], [1.5, 0]])('two sines %d bandwidths apart: %d', (distance, rough) => {
    expect(roughnessAt(distance)).toBeCloseTo(rough, 4);
  });

  it('ends above 1.2 bandwidths, not at them', () => {
    expect(roughnessAt(1.2)).toBeGreaterThan(0);
    expect(roughnessAt(1.2001)).toBe(0);
  });

  // same library: eleven exact harmonics, amplitudes 1/n, and pure tones
  it.each([
    ['a major triad', chord(60, 64, 67), 0.1202426, 7],
    ['a minor triad', chord(60, 63, 67), 0.130083, 6],
    ['a diminished triad', chord(60, 63, 66), 0.2005575, 7],
    ['a semitone', chord(60, 61), 0.484, 3],
    ['a semitone of sines', pure(60, 61), 0.499, 3],
    ['a higher one', pure(69, 70), 0.491, 3],
  ])('%s', (_, sound, published, digits) => {
    expect(hutchinsonKnopoff(sound)).toBeCloseTo(published, digits);
  });

  /** Ten harmonics moved to the nearest semitone; where several fall together their energies add. */
  function onSemitones(...pitches: readonly number[]): readonly Partial[] {
    const energy = new Map<number, number>();
    for (const pitch of pitches) for (let n = 1; n <= 10; n += 1) {
      const key = Math.round(pitch + 12 * Math.log2(n));
      energy.set(key, (energy.get(key) ?? 0) + 1 / n ** 2);
    }
    return [...energy].map(([key, sum]) => ({ frequency: frequencyOf(key), amplitude: Math.sqrt(sum) }));
  }

  // Ferguson's 1998 program, as reproduced in a public library
  it.each([[[60, 61, 62, 73], 0.7287], [[60], 0.0012], [[47, 49, 53], 0.3846], [[62, 67, 72, 77, 82], 0.1592]])('%j with ten harmonics on semitones', (pitches, published) => {
    expect(hutchinsonKnopoff(onSemitones(...pitches))).toBeCloseTo(published, 4);
  });

  it.each([0.4828, 0.243, 0.0954, 0.0559, 0.0403, 0.0886, 0.0197, 0.083, 0.0427, 0.0887, 0.2241, 0.0013].map((rough, i) => [i + 1, rough] as const))('a dyad of %d semitones on middle C', (semitones, rough) => {
    expect(hutchinsonKnopoff(onSemitones(60, 60 + semitones))).toBeCloseTo(rough, 4);
  });

  // Plomp and Levelt's principle; the four values by the formula are .2334 .1281 .0703 .0414
  it('low thirds are rougher than high ones', () => {
    const thirds = [36, 48, 60, 72].map((pitch) => hutchinsonKnopoff(chord(pitch, pitch + 4)));
    [0.2334, 0.1281, 0.0703, 0.0414].forEach((value, i) => { expect(thirds[i]).toBeCloseTo(value, 4); });
  });

  it('silence is not rough', () => {
    expect(hutchinsonKnopoff([])).toBe(0);
  });
});

describe('sounding notes at their levels', () => {
  const tell = roughnessTeller();

  it('is the same measure, note by note', () => {
    const notes = [{ pitch: 43, levelDb: -6 }, { pitch: 60, levelDb: -20 }, { pitch: 64, levelDb: -11 }, { pitch: 65, levelDb: -3 }];
    const partials = notes.flatMap(({ pitch, levelDb }) => partialsOf(pitch).map(({ frequency, amplitude }) => ({ frequency, amplitude: amplitude * 10 ** (levelDb / 20) })));
    expect(tell(notes.map(({ pitch }) => pitch))(notes.map(({ levelDb }) => 10 ** (levelDb / 20)))).toBeCloseTo(hutchinsonKnopoff(partials), 10);
  });

  it('does not change with the level of the whole', () => {
    const at = (levelDb: number): number => tell([60, 64, 67])([levelDb, levelDb, levelDb].map((level) => 10 ** (level / 20)));
    expect(at(-40)).toBeCloseTo(at(0), 10);
    expect(at(0)).toBeCloseTo(0.1202426, 7);
  });

  it('nothing sounding is not rough', () => {
    expect(tell([])([])).toBe(0);
    expect(tell([60, 61])([0, 0])).toBe(0);
  });
});
