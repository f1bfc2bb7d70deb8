/**
 * `npm run bench`: reading, aligning, engraving, analysing and measuring the sound by size, each size in a process of its own so that memory can be told
 * apart. Times are of this machine today; what carries over is the ratios to parsing, and the growth.
 *   node main.js              the whole table
 *   node main.js 250 500      these sizes only
 *   node main.js room         the desk and a pupil's page in a small and a full room
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { exponent } from './growth.js';
import { alignJob, analyseJob, engraveJob, soundJob, type AlignFigures, type AnalyseFigures, type EngraveFigures, type Files, type SoundFigures } from './job.js';
import { material } from './material.js';
import { roomJob, type RoomFigures } from './room.js';

const SIZES = [250, 500, 1000, 2000, 4000, 5000, 8000, 10_000, 16_000];
/** Growth is fitted above this many notes: below it fixed costs hide it. */
const FIT_ABOVE = 2000;

/** Recordings in a room. */
const ROOMS = [30, 300, 3000];

const [first = '', score = '', recording = ''] = process.argv.slice(2);
if (first === 'align') print(alignJob({ score, recording }));
else if (first === 'engrave') print(await engraveJob({ score, recording }));
else if (first === 'analyse') print(analyseJob({ score, recording }));
else if (first === 'sound') print(soundJob({ score, recording }));
else if (first === 'room') await roomTable();
else table(process.argv.length > 2 ? process.argv.slice(2).map(Number) : SIZES);

function table(sizes: readonly number[]): void {
  const columns = ['written', 'played', 'matched', 'parse ms', 'align ms', 'align/parse', 'warm parse', 'warm align', 'warm ratio', 'engrave ms', 'analyse ms', 'warm analys', 'sound ms', 'warm sound', 'sound 10min', 'sound/parse', 'parse MB', 'align MB', 'engrave MB'];
  console.log(columns.map((name) => name.padStart(12)).join(''));
  const rows: AlignFigures[] = [];
  const analysed: AnalyseFigures[] = [];
  for (const size of sizes) {
    const { row, drawn, notes, sound } = measure(size);
    rows.push(row);
    analysed.push(notes);
    console.log(cells(row, { drawn, notes, sound }).map((cell) => cell.padStart(12)).join(''));
  }
  const large = rows.filter((row) => row.played > FIT_ABOVE);
  if (large.length < 2) return;
  console.log(`growth above ${FIT_ABOVE} notes (exponent): align cold ${fit(large, 'alignMs')}, warm ${fit(large, 'warmAlignMs')}; parse cold ${fit(large, 'parseMs')}, warm ${fit(large, 'warmParseMs')}`);
  const long = analysed.filter((one) => one.written > FIT_ABOVE);
  if (long.length > 1) console.log(`growth of analysing by written notes (exponent): cold ${exponent(long.map((one) => [one.written, one.analyseMs])).toFixed(2)}, warm ${exponent(long.map((one) => [one.written, one.warmAnalyseMs])).toFixed(2)}`);
}

/** Pages of a room with so many recordings, and how many times those of the smallest. */
async function roomTable(): Promise<void> {
  console.log(['recordings', 'desk ms', 'pupil ms', 'desk ×', 'pupil ×'].map((name) => name.padStart(12)).join(''));
  let least: RoomFigures | null = null;
  for (const recordings of ROOMS) {
    const room = await roomJob(recordings);
    least ??= room;
    const figures = [room.recordings.toFixed(0), room.deskMs.toFixed(1), room.pupilMs.toFixed(1), (room.deskMs / least.deskMs).toFixed(2), (room.pupilMs / least.pupilMs).toFixed(2)];
    console.log(figures.map((cell) => cell.padStart(12)).join(''));
  }
}

function cells(row: AlignFigures, { drawn, notes, sound }: Omit<Figures, 'row'>): readonly string[] {
  const whole = (value: number): string => value.toFixed(0);
  return [
    whole(row.written), whole(row.played), row.matched.toFixed(3), whole(row.parseMs), whole(row.alignMs), (row.alignMs / row.parseMs).toFixed(2),
    whole(row.warmParseMs), whole(row.warmAlignMs), (row.warmAlignMs / row.warmParseMs).toFixed(2),
    whole(drawn.engraveMs), whole(notes.analyseMs), whole(notes.warmAnalyseMs), whole(sound.soundMs), whole(sound.warmSoundMs), whole(sound.tenMinutesMs), sound.byParse.toFixed(2), whole(row.parsePeakMb), whole(row.alignPeakMb), whole(drawn.peakMb),
  ];
}

function fit(rows: readonly AlignFigures[], column: 'alignMs' | 'warmAlignMs' | 'parseMs' | 'warmParseMs'): string {
  return exponent(rows.map((row) => [row.played, row[column]])).toFixed(2);
}

/** All figures of one size. */
interface Figures {
  readonly row: AlignFigures;
  readonly drawn: EngraveFigures;
  readonly notes: AnalyseFigures;
  readonly sound: SoundFigures;
}

function measure(size: number): Figures {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-bench-'));
  try {
    const files = { score: join(folder, 'score.musicxml'), recording: join(folder, 'recording.mid') };
    const made = material(size);
    writeFileSync(files.score, made.score);
    writeFileSync(files.recording, made.recording);
    return { row: child('align', files) as AlignFigures, drawn: child('engrave', files) as EngraveFigures, notes: child('analyse', files) as AnalyseFigures, sound: child('sound', files) as SoundFigures };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function child(work: 'align' | 'engrave' | 'analyse' | 'sound', { score, recording }: Files): unknown {
  const { stdout, stderr, status } = spawnSync(process.execPath, [fileURLToPath(import.meta.url), work, score, recording], { encoding: 'utf8' });
  if (status !== 0) throw new RangeError(`bench ${work} ended with ${String(status)}: ${stderr.slice(-2000)}`);
  return JSON.parse(stdout);
}

function print(figures: AlignFigures | EngraveFigures | AnalyseFigures | SoundFigures): void {
  console.log(JSON.stringify(figures));
}
