#!/usr/bin/env node
import { parseArgs } from 'node:util';
import { alignmentReport } from './align/index.js';
import { analysisInWords, analysisReport } from './analysis/index.js';
import { InputError } from './base/index.js';
import { analyseTogether, readSource, readTogether } from './pipeline/index.js';
import { alignmentInWords, reviewInWords, reviewReport } from './review/index.js';
import { startRoom } from './web/index.js';

/** Exit codes: what a calling program can rely on. */
const EXIT = { fine: 0, wrongUse: 2, unreadable: 3, wrongPiece: 4 } as const;

const HELP = `Barwise reviews a pupil's recording bar by bar against the score.

  barwise room [--port N] [--data FOLDER]     open the room in the browser (on this computer only)
  barwise analyse SCORE [--json]              the teaching notes: what to know of a piece before teaching it
  barwise review SCORE RECORDING [--json]     what happened, an aspect at a time, bar by bar
  barwise align SCORE RECORDING [--json]      which note was played when: the route, then what differs, bar by bar
  barwise --help                              this page

SCORE is MusicXML (.musicxml, .xml, .mxl) or a MIDI file; RECORDING is a MIDI file.
  --part NAME     which part of the score to read, by its id or name, where there are several
  --json          the whole result for programs, on standard output
Results go to standard output, everything else to standard error.
Exit codes: 0 fine, 2 wrong use, 3 a file could not be read, 4 the recording is not of this score.
`;

/** Wrong use of the command line: said with a pointer to the help. */
class UsageError extends Error {}

function progress(text: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${text}`);
}

interface Options {
  readonly json: boolean;
  readonly part: string | undefined;
  readonly port: string | undefined;
  readonly data: string | undefined;
}

function align(paths: readonly string[], options: Options): void {
  const [scorePath, recordingPath, ...more] = paths;
  if (scorePath === undefined || recordingPath === undefined || more.length) throw new UsageError('align takes a score and a recording');
  progress('reading and matching …');
  const reading = readTogether(readSource(scorePath), readSource(recordingPath), options.part);
  progress('');
  for (const warning of reading.score.warnings) process.stderr.write(`${warning.bar === null ? '' : `bar ${warning.bar}: `}${warning.text}\n`);
  for (const limit of reading.recording.limits) process.stderr.write(`${limit.text}\n`);
  const { score, recording, alignment } = reading;
  process.stdout.write(options.json ? `${JSON.stringify(alignmentReport(score, recording, alignment))}\n` : alignmentInWords(reading));
}

function review(paths: readonly string[], options: Options): void {
  const [scorePath, recordingPath, ...more] = paths;
  if (scorePath === undefined || recordingPath === undefined || more.length) throw new UsageError('review takes a score and a recording');
  progress('reading, matching and measuring …');
  const reading = readTogether(readSource(scorePath), readSource(recordingPath), options.part);
  progress('');
  for (const warning of reading.score.warnings) process.stderr.write(`${warning.bar === null ? '' : `bar ${warning.bar}: `}${warning.text}\n`);
  const input = { ...reading, language: 'british' } as const;
  process.stdout.write(options.json ? `${JSON.stringify(reviewReport(input))}\n` : reviewInWords(input));
}

function analyse(paths: readonly string[], options: Options): void {
  const [path, ...more] = paths;
  if (path === undefined || more.length) throw new UsageError('analyse takes a score');
  progress('reading and analysing …');
  const { score, analysis } = analyseTogether(readSource(path), options.part);
  progress('');
  for (const warning of score.warnings) process.stderr.write(`${warning.bar === null ? '' : `bar ${warning.bar}: `}${warning.text}\n`);
  process.stdout.write(options.json ? `${JSON.stringify(analysisReport(score, analysis))}\n` : analysisInWords(score, analysis));
}

function log(line: string): void {
  process.stderr.write(`${line}\n`);
}

async function room(paths: readonly string[], options: Options): Promise<void> {
  if (paths.length) throw new UsageError('room takes no file; put files in on its first page');
  const port = options.port === undefined ? undefined : /^\d+$/.test(options.port) ? Number(options.port) : NaN;
  if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port < 65_536)) throw new UsageError('--port takes a whole number below 65536');
  const { address } = await startRoom({ ...(port === undefined ? {} : { port }), ...(options.data === undefined ? {} : { data: options.data }), log });
  process.stdout.write(`The room is open at ${address}\n`);
}

function parse(argv: readonly string[]): { command: string | undefined; paths: string[]; options: Options; help: boolean } {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: { json: { type: 'boolean' }, help: { type: 'boolean', short: 'h' }, part: { type: 'string' }, port: { type: 'string' }, data: { type: 'string' } },
    });
    const [command, ...paths] = positionals;
    return { command, paths, help: values.help ?? false, options: { json: values.json ?? false, part: values.part, port: values.port, data: values.data } };
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : 'unknown option');
  }
}

async function run(argv: readonly string[]): Promise<void> {
  const { command, paths, options, help } = parse(argv);
  if (help || command === 'help') process.stdout.write(HELP);
  else if (command === 'align') align(paths, options);
  else if (command === 'review') review(paths, options);
  else if (command === 'analyse') analyse(paths, options);
  else if (command === 'room') await room(paths, options);
  else throw new UsageError(command === undefined ? 'which command?' : `there is no command "${command}"`);
}

function exitCode(error: unknown): number {
  progress('');
  if (error instanceof UsageError) {
    process.stderr.write(`barwise: ${error.message}\nTry: barwise --help\n`);
    return EXIT.wrongUse;
  }
  if (error instanceof InputError) {
    process.stderr.write(`barwise: ${error.describe()}\n`);
    return error.code === 'wrong-piece' ? EXIT.wrongPiece : EXIT.unreadable;
  }
  throw error;
}

try {
  await run(process.argv.slice(2));
} catch (error) {
  process.exitCode = exitCode(error);
}
