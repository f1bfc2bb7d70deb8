/**
 * Every home recording there is, against every score that is not its own: each must be refused as another piece (which is
 * exit code 4 on the command line), and none against its own. The demo room's files are always here; the open data is read
 * where BARWISE_CORPUS names its folder. Concert pieces are left out: ten times as long, and no pupil plays them.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import { InputError } from '../../src/base/index.js';
import { readRecording, type Recording } from '../../src/recording/index.js';
import { readScore, type Score } from '../../src/score/index.js';

const SAMPLES = fileURLToPath(new URL('../../sample-recordings', import.meta.url));
const corpus = process.env['BARWISE_CORPUS'];

/** Folders whose recordings are home recordings, and further ones whose scores only serve as "another piece". */
const HOMES = [SAMPLES, ...(corpus === undefined ? [] : [join(corpus, 'pupils')])];
const OTHERS = corpus === undefined ? [] : [join(corpus, 'vienna'), join(corpus, 'sonatas')];

interface PieceFolder {
  readonly path: string;
  readonly name: string;
  readonly score: Score;
}

/** Every folder under `parent` that holds a score. */
function pieceFolders(parent: string): readonly PieceFolder[] {
  return readdirSync(parent, { withFileTypes: true }).filter((entry) => entry.isDirectory()).flatMap(({ name }) => {
    const path = join(parent, name);
    const file = ['score.musicxml', 'score.mxl'].find((each) => existsSync(join(path, each)));
    return file === undefined ? [] : [{ path, name, score: readScore(readFileSync(join(path, file)), { fileName: file }) }];
  });
}

/** The recordings of a piece. */
function takesIn({ path }: PieceFolder): readonly { readonly name: string; readonly recording: Recording }[] {
  return readdirSync(path).filter((file) => file.endsWith('.mid')).map((file) => ({ name: file, recording: readRecording(readFileSync(join(path, file)), { fileName: file }) }));
}

/** True where the recording is refused as another piece; any other failure is one of the test. */
function isRefused(score: Score, recording: Recording): boolean {
  try {
    alignRecording(score, recording);
    return false;
  } catch (error) {
    if (error instanceof InputError && error.code === 'wrong-piece') return true;
    throw error;
  }
}

describe('another piece', () => {
  const homes = HOMES.flatMap(pieceFolders);
  const all = [...homes, ...OTHERS.flatMap(pieceFolders)];

  it('has something to be crossed with', () => {
    expect(homes.length).toBeGreaterThanOrEqual(corpus === undefined ? 4 : 6);
  });

  it.each(homes)('is told from $name by every recording of it', (home) => {
    const takes = takesIn(home);
    expect(takes.length).toBeGreaterThan(0);
    const taken = takes.flatMap(({ name, recording }) => all.filter((other) => other !== home && !isRefused(other.score, recording)).map((other) => `${name} as ${other.name}`));
    const turnedAway = takes.filter(({ recording }) => isRefused(home.score, recording)).map(({ name }) => `${basename(name)} as its own`);
    expect([...taken, ...turnedAway]).toEqual([]);
  });
});
