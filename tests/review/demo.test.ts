import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import { analyseScore } from '../../src/analysis/index.js';
import { measureAll } from '../../src/measure/index.js';
import { readRecording } from '../../src/recording/index.js';
import { reviewReport, type ReviewReport } from '../../src/review/index.js';
import { readScore, type Score } from '../../src/score/index.js';

const ROOM = join(import.meta.dirname, '../../sample-recordings');

/** The way of working, and no fault. */
const WAY_OF_WORKING: ReadonlySet<string> = new Set(['noodling', 'handAlone', 'sectionOnly']);

/** A planned fault, as the files beside the recordings name it; they are the witness. */
interface Planned {
  readonly aspect: string;
  readonly kind: string;
  readonly bars: readonly [string, string];
}

/** One recording, its review and what was planned. */
function reviewed(piece: string, take: string): { readonly score: Score; readonly report: ReviewReport } {
  const score = readScore(readFileSync(join(ROOM, piece, 'score.musicxml')), { fileName: 'score.musicxml' });
  const recording = readRecording(readFileSync(join(ROOM, piece, `${take}.mid`)), { fileName: `${take}.mid` });
  const whole = { score, analysis: analyseScore(score), recording, alignment: alignRecording(score, recording) };
  return { score, report: reviewReport({ ...whole, measures: measureAll(whole), language: 'british' }) };
}

/** True where a planned fault is worth saying, or among the first of its aspect: as many as were planned of that aspect. */
function told({ score, report }: ReturnType<typeof reviewed>, fault: Planned, faults: readonly Planned[]): boolean {
  const place = (bar: string): number => score.bars.findIndex(({ number }) => number === bar);
  const [from, to] = [place(fault.bars[0]), place(fault.bars[1])];
  const worth = new Set(report.worthSaying.flatMap(({ observations }) => observations));
  const most = faults.filter(({ aspect }) => aspect === fault.aspect).length;
  const ofAspect = report.observations.map((one, index) => ({ one, index })).filter(({ one }) => one.aspect === fault.aspect);
  return ofAspect.some(({ one, index }, rank) => (worth.has(index) || rank < most) && one.places.some(({ bars: [first, last] }) => place(first) <= to && place(last) >= from));
}

const takes = readdirSync(ROOM, { withFileTypes: true }).filter((one) => one.isDirectory()).flatMap(({ name: piece }) =>
  readdirSync(join(ROOM, piece)).filter((file) => file.endsWith('.planned.json')).map((file) => {
    const { faults } = JSON.parse(readFileSync(join(ROOM, piece, file), 'utf8')) as { readonly faults: readonly Planned[] };
    return { piece, take: file.replace('.planned.json', ''), faults: faults.filter(({ kind }) => !WAY_OF_WORKING.has(kind)) };
  }));

describe.each(takes)('$take', ({ piece, take, faults }) => {
  const review = reviewed(piece, take);

  for (const fault of faults) {
    const name = `${fault.aspect}/${fault.kind} ${fault.bars.join('-')}`;
    it(`tells ${name}`, () => expect(told(review, fault, faults)).toBe(true));
  }

  it('finds nothing worth saying that was not planned', () => {
    const { score, report } = review;
    const place = (bar: string): number => score.bars.findIndex(({ number }) => number === bar);
    const planned = ({ aspect, places }: ReviewReport['observations'][number]): boolean =>
      faults.some((fault) => fault.aspect === aspect && places.some(({ bars: [first, last] }) => place(first) <= place(fault.bars[1]) + 1 && place(last) >= place(fault.bars[0]) - 1));
    const invented = report.worthSaying.flatMap(({ observations }) => observations.flatMap((index) => report.observations[index] ?? [])).filter((one) => !planned(one));
    expect(invented.map(({ text }) => text)).toEqual([]);
  });
});
