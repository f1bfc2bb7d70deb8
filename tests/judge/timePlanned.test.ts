import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import type { Observation } from '../../src/judge/index.js';
import { judgePulse } from '../../src/judge/pulse.js';
import { judgeTempo } from '../../src/judge/tempo.js';
import { readRecording } from '../../src/recording/index.js';
import { readScore } from '../../src/score/index.js';
import { judgedBy } from './timePiece.js';

const ROOM = join(import.meta.dirname, '../../sample-recordings');

/** What a planned fault is called by its judge. */
const KINDS: Readonly<Record<string, readonly string[]>> = {
  hesitation: ['hesitation', 'stop'], rushed: ['rushing'], slow: ['slow', 'slowPractice'], fast: ['fast'], noRitardando: ['noClosingRitardando'], unsteady: ['unsteady', 'dragging'],
};

interface Planned {
  readonly aspect: string;
  readonly kind: string;
  readonly bars: readonly [string, string];
}

/** Faults of time that were planned in a sample recording, by the file's name. */
const planned = readdirSync(ROOM, { withFileTypes: true }).filter((one) => one.isDirectory()).flatMap(({ name: piece }) =>
  readdirSync(join(ROOM, piece)).filter((file) => file.endsWith('.planned.json')).map((file) => {
    const { faults } = JSON.parse(readFileSync(join(ROOM, piece, file), 'utf8')) as { readonly faults: readonly Planned[] };
    return { piece, take: file.replace('.planned.json', ''), faults: faults.filter(({ kind }) => KINDS[kind] !== undefined) };
  }));

/** What both judges say of a sample recording, by printed bars. */
function observed(piece: string, take: string): { readonly all: readonly Observation[]; readonly number: (bar: number) => string } {
  const score = readScore(readFileSync(join(ROOM, piece, 'score.musicxml')), { fileName: 'score.musicxml' });
  const recording = readRecording(readFileSync(join(ROOM, piece, `${take}.mid`)), { fileName: `${take}.mid` });
  const whole = { score, recording, alignment: alignRecording(score, recording) };
  return { all: [judgePulse, judgeTempo].flatMap((judge) => judgedBy(judge, whole).observations), number: (bar) => score.bars[bar]?.number ?? '' };
}

describe.each(planned)('$take', ({ piece, take, faults }) => {
  it('what was planned is found where it was planned, and no wait or rushing elsewhere', () => {
    const { all, number } = observed(piece, take);
    for (const { kind, bars: [from, to] } of faults) {
      const found = all.filter((one) => KINDS[kind]?.includes(one.kind));
      const inside = found.some(({ places }) => places.some(({ fromBar, toBar }) => Number(number(fromBar)) <= Number(to) && Number(number(toBar)) >= Number(from)));
      expect(inside, `${kind} in bars ${from} to ${to}`).toBe(true);
    }
    // who wavers all the way may wait and run anywhere
    if (faults.some(({ kind }) => kind === 'unsteady')) return;
    const waits = all.filter(({ kind }) => ['hesitation', 'stop', 'rushing', 'dragging', 'unsteady'].includes(kind)).flatMap(({ places }) => places);
    expect(waits).toHaveLength(faults.filter(({ kind }) => kind === 'hesitation' || kind === 'rushed').length);
  });
});
