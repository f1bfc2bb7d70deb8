import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { barGrid, laneOnsets, marksFor, pedalPlayed, sortedByBar } from '../../src/engrave/index.js';
import { readTogether } from '../../src/pipeline/index.js';

const sample = (path: string) => ({ name: path.split('/').pop() ?? path, bytes: readFileSync(new URL(`../../sample-recordings/${path}`, import.meta.url)) });

it('what is sorted by bars is drawn as what is not: a recording that goes back twice, over several systems', () => {
  const { score, recording, alignment, measures } = readTogether(sample('rowing-home/score.musicxml'), sample('rowing-home/mei-castellow-2025-10-07.mid'));
  const plain = { score, recording, alignment, measures };
  const sorted = { ...plain, byBar: sortedByBar(plain) };
  const engraving = barGrid(score, { widthPx: 656, reason: 'test' });
  expect(engraving.systems.length).toBeGreaterThan(3);
  expect(marksFor(engraving, sorted)).toEqual(marksFor(engraving, plain));
  for (const system of engraving.systems) {
    expect(laneOnsets(system, sorted)).toEqual(laneOnsets(system, plain));
    expect(pedalPlayed(system, sorted, () => ({ title: 'rings on', number: null }))).toEqual(pedalPlayed(system, plain, () => ({ title: 'rings on', number: null })));
  }
});
