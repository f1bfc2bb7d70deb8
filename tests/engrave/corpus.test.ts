/** A few real scores, where they are at hand (BARWISE_CORPUS names their folder): all notes placed, nothing outside. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createToolkit, engraveOrGrid } from '../../src/engrave/index.js';
import { readScore } from '../../src/score/index.js';

const corpus = process.env['BARWISE_CORPUS'];
const toolkit = createToolkit();

// one each: a chord sign after a step back, a hand without declared staves, an easy piece
const SCORES = ['vienna/Schubert_D783_no15/score.musicxml', 'vienna/Chopin_op10_no3/score.musicxml', 'pupils/CarelessLove/score.mxl'];

test.skipIf(corpus === undefined).each(SCORES)('%s is engraved with every note', async (name) => {
  const path = join(corpus ?? '', name);
  if (!existsSync(path)) return;
  const score = readScore(new Uint8Array(readFileSync(path)), { fileName: 'score' });
  const { systems, fallback } = await engraveOrGrid(score, { widthPx: 656, toolkit });
  expect(fallback).toBeNull();
  expect(new Set(systems.flatMap(({ notes }) => notes.map(({ id }) => id)))).toEqual(new Set(score.notes.map(({ id }) => id)));
  for (const { notes, heightPx, widthPx } of systems) {
    expect(notes.every(({ x, y }) => x > 0 && x < widthPx && y > 0 && y < heightPx)).toBe(true);
  }
});
