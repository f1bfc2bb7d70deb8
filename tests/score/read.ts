import { expect } from 'vitest';
import { readScore, type Score } from '../../src/score/index.js';
import { bars, partwise, utf8, type BuiltBar } from './build.js';

/** Reads a built score of one part from its bars. */
export function readBars(contents: readonly (string | BuiltBar)[], time = '4/4'): Score {
  return readText(partwise(bars(contents, time)));
}

/** Reads a score from XML text. */
export function readText(text: string, part?: string): Score {
  return readScore(utf8(text), { fileName: 'invented.musicxml', ...(part === undefined ? {} : { part }) });
}

/** Printed numbers of the bars in playing order. */
export function playedBars(score: Score): readonly string[] {
  return score.order.map((visit) => score.bars[visit.barIndex]!.number);
}

/** Every sounding note as [first id, pass, onset, end, MIDI number], times in crotchets along the playing order. */
export function sounds(score: Score): readonly (readonly [string, number, number, number, number])[] {
  const inCrotchets = (ticks: number): number => ticks / score.ticksPerQuarter;
  return score.occurrences.map((o) => [score.notes[o.noteIndex]!.id, o.pass, inCrotchets(o.onsetTick), inCrotchets(o.endTick), o.midi]);
}

/** Written onsets in crotchets by note id. */
export function onsets(score: Score): Readonly<Record<string, number>> {
  return Object.fromEntries(score.notes.map((note) => [note.id, note.onsetTick / score.ticksPerQuarter]));
}

/** Texts of all warnings. */
export function warningTexts(score: Score): readonly string[] {
  return score.warnings.map((warning) => warning.text);
}

/** Expects one warning alone, of that bar and saying that. */
export function expectWarning(score: Score, bar: string | null, says: RegExp): void {
  expect(score.warnings.map((warning) => warning.bar)).toEqual([bar]);
  expect(score.warnings[0]!.text).toMatch(says);
}
