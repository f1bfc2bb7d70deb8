import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/base/index.js';
import { readRecording } from '../../src/recording/index.js';
import { readScore } from '../../src/score/index.js';
import { exponent } from './growth.js';
import { material } from './material.js';
import { countNotes, texture } from './texture.js';

describe('the growth of a time', () => {
  it.each([1, 1.3, 2])('finds the power %d', (power) => {
    // 3 × size^power lies on a straight line of that slope in logarithms
    expect(exponent([4000, 8000, 16_000].map((size) => [size, 3 * size ** power]))).toBeCloseTo(power, 9);
  });

  it('is about 1 for a straight line with scatter', () => {
    const random = seededRandom(5);
    expect(exponent([2500, 4000, 8000, 16_000].map((size) => [size, size * (1 + 0.02 * random())]))).toBeCloseTo(1, 1);
  });
});

describe('the material', () => {
  it('has the notes asked for, at most a bar more', () => {
    const counts = texture(1000, 7).bars.map(countNotes);
    const total = counts.reduce((sum, count) => sum + count, 0);
    expect(total).toBeGreaterThanOrEqual(1000);
    expect(total - counts.at(-1)!).toBeLessThan(1000);
  });

  it('plays phrases again', () => {
    const bars = texture(2000, 7).bars.map((bar) => `${bar.right} ${bar.left}`);
    expect(new Set(bars).size).toBeLessThan(bars.length);
  });

  it('is read without a warning, and is longer played than written because of the way back', () => {
    const { score, recording, played } = material(250);
    const read = readScore(score, { fileName: 'bench.musicxml' });
    expect(read.warnings).toEqual([]);
    expect(readRecording(recording, { fileName: 'bench.mid' }).notes).toHaveLength(played);
    expect(played).toBeGreaterThan(read.notes.length);
  });

  it('is the same each time', () => {
    expect(material(250)).toEqual(material(250));
  });
});
