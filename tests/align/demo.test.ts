/** The recordings of the demo room against the truth that the generator wrote beside each. */
import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import { InputError } from '../../src/base/index.js';
import { pieces as written, takes } from '../../src/demo/index.js';
import { readRecording } from '../../src/recording/index.js';
import { agreement, demoPiece, fMeasure, sample, truthOf } from './takes.js';

const pieces = new Map(written.map(({ slug }) => [slug, demoPiece(slug)]));
const read = (path: string): ReturnType<typeof readRecording> => readRecording(sample(path), { fileName: 'take.mid' });

describe('the measure of agreement', () => {
  it('is 2PR / (P + R)', () => {
    expect(fMeasure(10, 10, 10)).toBe(1);
    // one of ten left out: P = 1, R = 0.9, F = 1.8 / 1.9
    expect(fMeasure(9, 9, 10)).toBeCloseTo(1.8 / 1.9, 12);
    // half of the claims right, a quarter of the wanted found: 2 × 0.5 × 0.25 / 0.75
    expect(fMeasure(1, 2, 4)).toBeCloseTo(1 / 3, 12);
    expect(fMeasure(0, 0, 5)).toBe(0);
  });
});

describe.each(takes.map((plan) => [plan.name, plan] as const))('%s', (name, plan) => {
  const { score } = pieces.get(plan.piece)!;
  const recording = read(`${plan.piece}/${name}.mid`);
  const truth = truthOf(`${plan.piece}/${name}.truth.tsv`);
  const alignment = alignRecording(score, recording);

  it('has its presses in the order of the truth', () => {
    const sorted = [...truth].sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
    expect(recording.notes.map((note) => note.pitch)).toEqual(sorted.map((one) => one.pitch));
  });

  it('pairs at least 99 in 100 notes right, and every attempt', () => {
    const { f1, returns, wrongAttempts } = agreement(score, alignment, truth);
    expect(f1).toBeGreaterThanOrEqual(0.99);
    expect(returns).toBeGreaterThanOrEqual(0.99);
    expect(wrongAttempts).toBe(0);
  });

  it('misses just the notes that the plan leaves out', () => {
    const rows = Buffer.from(sample(`${plan.piece}/${name}.truth.tsv`)).toString('utf8').split('\n').map((line) => line.split('\t'));
    const wanted = rows.filter(([status]) => status === 'missed').map(([, note, pass, , , attempt]) => `${note ?? ''} ${pass ?? ''} ${attempt ?? ''}`);
    const found = alignment.missed.map((one) => {
      const occurrence = score.occurrences[one.occurrence]!;
      return `${score.notes[occurrence.noteIndex]!.id} ${occurrence.pass} ${one.attempt}`;
    });
    expect(found.sort()).toEqual(wanted.sort());
  });

  it.each(written.map(({ slug }) => slug).filter((slug) => slug !== plan.piece))('is refused as %s', (slug) => {
    const other = pieces.get(slug)!.score;
    const crossed = (): unknown => alignRecording(other, recording);
    expect(crossed).toThrow(InputError);
    expect(crossed).toThrow(expect.objectContaining({ code: 'wrong-piece' }));
  });
});
