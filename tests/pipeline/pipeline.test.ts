import { readFileSync } from 'node:fs';
import MidiPackage from '@tonejs/midi';
import { afterAll, expect, test } from 'vitest';
import { createPipeline, readAllTogether, readTogether, type SourceFile } from '../../src/pipeline/index.js';
import { smallXml } from '../engrave/fixture.js';
import { bars, note, partwise, rest } from '../score/build.js';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const score: SourceFile = { name: 'invented.musicxml', bytes: utf8(smallXml(3)) };

/** A recording from pitches, half a second apart, each as long. */
function playing(...pitches: readonly (readonly number[])[]): SourceFile {
  const midi = new MidiPackage.Midi();
  const track = midi.addTrack();
  pitches.forEach((chord, i) => chord.forEach((pitch) => track.addNote({ midi: pitch, time: 0.5 + 0.5 * i, duration: 0.45, velocity: 0.6 })));
  return { name: 'home.mid', bytes: midi.toArray() };
}

/** The fixture's two bars as written: F5+A3, E4, C4+G2, B4; C major chord+C3 over two crotchets, D5. */
const BARS = [[77, 57], [64], [60, 43], [71], [72, 76, 79, 48], [], [74], []];
const recording = playing(...BARS, ...BARS, ...BARS);

const pipeline = createPipeline({ workers: 1 });
afterAll(() => pipeline.close());

test('two files in, every note matched', async () => {
  const reading = await pipeline.reading(score, recording);
  expect(reading.alignment.pairs).toHaveLength(33);
  expect(reading.alignment.missed).toEqual([]);
  expect(reading.alignment.added).toEqual([]);
  expect(reading.measures.onsets).toHaveLength(33);
});

test('the worker’s result is the one of the same steps done here', async () => {
  expect(await pipeline.reading(score, recording)).toEqual(readTogether(score, recording));
});

test('reads several recordings of one score against one analysis of it', () => {
  const [first, second] = readAllTogether(score, [recording, recording]);
  expect(second?.analysis).toBe(first?.analysis);
  expect(first).toEqual(readTogether(score, recording));
});

test('the same content under another name comes from the cache', async () => {
  const first = await pipeline.score(score);
  expect(await pipeline.score({ ...score, name: 'renamed.xml' })).toBe(first);
  expect((await pipeline.reading({ ...score, name: 'renamed.xml' }, recording)).score).toBe(first);
});

test('another part of the same file is another score, in every result', async () => {
  const half = (id: string, pitch: string) => ({ id, name: id, measures: bars([1, 2, 3, 4].map(() => [1, 2, 3, 4].map(() => note(pitch, 2)).join(''))) });
  const duet = { name: 'duet.musicxml', bytes: utf8(partwise([half('Flute', 'C6'), half('Piano', 'C4')])) };
  const flute = { ...duet, part: 'Flute' };
  const pitches = async (file: SourceFile): Promise<number[]> => [...new Set((await pipeline.score(file)).notes.map(({ pitch }) => pitch.midi))];
  // the piano is found by its name; C4 is 60, C6 is 84
  expect([await pitches(duet), await pitches(flute)]).toEqual([[60], [84]]);
  const high = playing(...Array.from({ length: 16 }, () => [84]));
  expect((await pipeline.reading(flute, high)).alignment.pairs).toHaveLength(16);
  expect((await pipeline.reading(duet, high)).score.notes[0]?.pitch.midi).toBe(60);
  const [one, other] = await Promise.all([pipeline.engraving(duet, 656), pipeline.engraving(flute, 656)]);
  expect(one).not.toBe(other);
});

test('requests at one time share one job', () => {
  const fresh = { name: 'fresh.musicxml', bytes: utf8(smallXml(2)) };
  expect(pipeline.score(fresh)).toBe(pipeline.score(fresh));
  expect(pipeline.engraving(fresh, 656)).toBe(pipeline.engraving(fresh, 656));
  expect(pipeline.engraving(fresh, 656)).not.toBe(pipeline.engraving(fresh, 358));
});

test('many different requests at one time are all answered', async () => {
  const files = [1, 2, 3, 4, 5].map((times) => ({ name: `${times}.musicxml`, bytes: utf8(smallXml(times)) }));
  const engravings = await Promise.all(files.map((file) => pipeline.engraving(file, 656)));
  expect(engravings.map(({ systems }) => systems.flatMap(({ bars }) => bars).length)).toEqual([2, 4, 6, 8, 10]);
  expect(engravings.every(({ fallback }) => fallback === null)).toBe(true);
});

test('an input error names its file and keeps its code', async () => {
  await expect(pipeline.score({ name: 'empty.musicxml', bytes: new Uint8Array() })).rejects.toMatchObject({ name: 'InputError', code: 'empty', place: { file: 'empty.musicxml' } });
  await expect(pipeline.reading(score, { name: 'empty.mid', bytes: new Uint8Array() })).rejects.toMatchObject({ name: 'InputError', code: 'empty', place: { file: 'empty.mid' } });
  // nothing else is lost
  expect((await pipeline.score(score)).bars).toHaveLength(6);
});

test('what the aligning finds wrong names the file that it is about: a score of rests alone', async () => {
  const silent = { name: 'rests.musicxml', bytes: utf8(partwise(bars([rest(8), rest(8)]))) };
  const expected = { name: 'InputError', code: 'no-notes', place: { file: 'rests.musicxml' } };
  await expect(pipeline.reading(silent, recording)).rejects.toMatchObject(expected);
  expect(() => readTogether(silent, recording)).toThrow(expect.objectContaining(expected));
});

test('… and a recording of another piece', async () => {
  // two chromatic lines in contrary motion, nowhere in the fixture
  const other = { ...playing(...Array.from({ length: 20 }, (_, i) => [30 + i, 90 - i])), name: 'other.mid' };
  const expected = { name: 'InputError', code: 'wrong-piece', place: { file: 'other.mid' } };
  await expect(pipeline.reading(score, other)).rejects.toMatchObject(expected);
  expect(() => readTogether(score, other)).toThrow(expect.objectContaining(expected));
});

test('an engraving past its time is a bar grid that says so', async () => {
  const hasty = createPipeline({ workers: 1, engraveTimeoutMs: 1 });
  const engraving = await hasty.engraving(score, 656);
  expect(engraving.fallback).toBe('Engraving this score took too long.');
  expect(engraving.systems.flatMap(({ bars }) => bars)).toHaveLength(6);
  // the worker that was stopped has been replaced
  expect((await hasty.reading(score, recording)).alignment.pairs).toHaveLength(33);
  await hasty.close();
});

test('a width that no page has is our own misuse', async () => {
  await expect(pipeline.engraving(score, 20)).rejects.toMatchObject({ name: 'RangeError' });
});

test('after closing nothing more is done', async () => {
  const closed = createPipeline({ workers: 1 });
  await closed.close();
  await expect(closed.score(score)).rejects.toMatchObject({ name: 'WorkerFault', kind: 'closed' });
});

test('under a teacher’s plan only the pedal is measured anew, and the result is that of all steps done under it', async () => {
  const sample = (path: string): SourceFile => ({ name: path.split('/').pop() ?? path, bytes: readFileSync(new URL(`../../sample-recordings/${path}`, import.meta.url)) });
  const plain = sample('rowing-home/score.musicxml');
  const played = sample('rowing-home/jonas-brekkewood-2025-10-14.mid');
  // a change in the middle of bar 3 that neither score nor harmony has, and a bar that rings
  const planned: SourceFile = { ...plain, plan: [{ barIndex: 0, offset: 0, kind: 'pedal' }, { barIndex: 3, offset: 1.5, kind: 'pedal' }, { barIndex: 5, offset: 0, kind: 'ring' }] };
  const before = await pipeline.reading(plain, played);
  const after = await pipeline.reading(planned, played);
  expect(after).toEqual(readTogether(planned, played));
  expect(after.analysis).toEqual(await pipeline.analysis(planned));
  expect(after.measures.pedal).not.toEqual(before.measures.pedal);
  expect(await pipeline.reading(plain, played)).toEqual(before);
});
