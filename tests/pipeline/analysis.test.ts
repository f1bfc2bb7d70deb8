import { afterAll, expect, test } from 'vitest';
import { analyseTogether, createPipeline, type SourceFile } from '../../src/pipeline/index.js';
import { smallXml } from '../engrave/fixture.js';

const score: SourceFile = { name: 'invented.musicxml', bytes: new TextEncoder().encode(smallXml(3)) };
const pipeline = createPipeline({ workers: 1 });
afterAll(() => pipeline.close());

test('the worker’s analysis is the one made here', async () => {
  expect(await pipeline.analysis(score)).toEqual(analyseTogether(score).analysis);
});

test('the same content under another name comes from the cache', async () => {
  expect(await pipeline.analysis({ ...score, name: 'renamed.xml' })).toBe(await pipeline.analysis(score));
});

test('an unreadable score names its file and keeps its code', async () => {
  await expect(pipeline.analysis({ name: 'empty.musicxml', bytes: new Uint8Array() })).rejects.toMatchObject({ name: 'InputError', code: 'empty', place: { file: 'empty.musicxml' } });
});
