#!/usr/bin/env node
import { parseArgs } from 'node:util';
import { alignmentReport } from './align/index.js';
import { analysisInWords, analysisReport, readTeachersPlan } from './analysis/index.js';
import { InputError } from './base/index.js';
import { analyseTogether, readAllTogether, readSource, type Reading, type SourceFile } from './pipeline/index.js';
import type { Score } from './score/index.js';
import { readDecisions, type Decisions } from './judge/index.js';
import { alignmentInWords, pedalInWords, pedalReport, purposeName, PURPOSES, reviewInWords, reviewReport, type Purpose } from './review/index.js';
import { compareRecordings, comparisonInWords, comparisonReport } from './progress/index.js';
import { choosePassphrase, startRoom } from './web/index.js';

/** Exit codes: what a calling program can rely on. */
const EXIT = { fine: 0, wrongUse: 2, unreadable: 3, wrongPiece: 4 } as const;

const HELP = `Barwise reviews a pupil's recording bar by bar against the score.

  barwise room [--port N] [--data FOLDER]     open the room in the browser (on this computer only)
  barwise room --host 0.0.0.0                 open it to other devices of the network too; asks them for the passphrase
  barwise passphrase [--remove]               choose that passphrase (or BARWISE_PASSPHRASE holds it)
  barwise analyse SCORE [--json]              the teaching notes: what to know of a piece before teaching it
  barwise review SCORE RECORDING [--json]     what happened, an aspect at a time, bar by bar
  barwise compare SCORE EARLIER LATER [--json]  what is better, what is worse, beyond the player's own scatter
  barwise pedal SCORE RECORDING [--json]      the pedal change by change: when the foot moved, what rang on, how it sounded
  barwise align SCORE RECORDING [--json]      which note was played when: the route, then what differs, bar by bar
  barwise --help                              this page

SCORE is MusicXML (.musicxml, .xml, .mxl) or a MIDI file; RECORDING is a MIDI file.
  --part NAME     which part of the score to read, by its id or name, where there are several
  --purpose NAME  review: what the recording is for (first reading, building up, polishing, run-through, from memory); guessed if left out
  --age YEARS     review: age of the pupil; one remark is enough for a child under nine
  --decisions FILE  review, compare: what is right as played, left alone or preferred, as JSON
  --plan FILE     your own pedal plan in the place of the program's, as JSON: [{ "barIndex": 0, "offset": 0, "kind": "pedal" }, …]
                  (bars counted from 0, crotchets into the bar; pedal, ring, up or none)
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
  readonly purpose: string | undefined;
  readonly age: string | undefined;
  readonly decisions: string | undefined;
  readonly plan: string | undefined;
  readonly host: string | undefined;
  readonly remove: boolean;
}

/** What a command takes besides the score: how many recordings, and the sentence for whoever gives others. */
interface Takes {
  readonly recordings: number;
  readonly sentence: string;
}

/** The recordings of a score, read and measured against it; what is odd about the score goes to standard error. */
function readingsOf(paths: readonly string[], options: Options, { recordings, sentence }: Takes): readonly Reading[] {
  const [scorePath, ...recordingPaths] = paths;
  if (scorePath === undefined || recordingPaths.length !== recordings) throw new UsageError(sentence);
  progress('reading, matching and measuring …');
  const readings = readAllTogether(scoreSource(scorePath, options), recordingPaths.map(readSource), options.part);
  progress('');
  if (readings[0] !== undefined) warn(readings[0].score);
  return readings;
}

/** The one recording of a score. */
function readingOf(paths: readonly string[], options: Options, command: string): Reading {
  const [reading] = readingsOf(paths, options, { recordings: 1, sentence: `${command} takes a score and a recording` });
  if (reading === undefined) throw new TypeError('one recording was read');
  return reading;
}

/** What is odd about a score, on standard error. */
function warn({ warnings }: Score): void {
  for (const { bar, text } of warnings) process.stderr.write(`${bar === null ? '' : `bar ${bar}: `}${text}\n`);
}

/** A result on standard output: for programs, or in words. */
function print(json: boolean, report: () => object, words: () => string): void {
  process.stdout.write(json ? `${JSON.stringify(report())}\n` : words());
}

function align(paths: readonly string[], options: Options): void {
  const reading = readingOf(paths, options, 'align');
  const { score, recording, alignment } = reading;
  for (const { text } of recording.limits) process.stderr.write(`${text}\n`);
  print(options.json, () => alignmentReport(score, recording, alignment), () => alignmentInWords(reading));
}

/** The purpose that was said, by its name with or without spaces. */
function purposeFrom(said: string | undefined): { readonly purpose?: Purpose } {
  if (said === undefined) return {};
  const purpose = PURPOSES.find((one) => purposeName(one).replace(/\W/g, '') === said.toLowerCase().replace(/\W/g, ''));
  if (purpose === undefined) throw new UsageError(`--purpose takes one of: ${PURPOSES.map(purposeName).join(', ')}`);
  return { purpose };
}

/** The age in years that was said. */
function ageFrom(said: string | undefined): { readonly age?: number } {
  if (said === undefined) return {};
  if (!/^\d{1,3}$/.test(said)) throw new UsageError('--age takes a whole number of years');
  return { age: Number(said) };
}

/** What a JSON file holds, as its reader takes it. @param what was expected, for the sentence */
function jsonIn<T>(path: string, what: string, read: (value: unknown) => T): T {
  const { name, bytes } = readSource(path);
  try {
    return read(JSON.parse(new TextDecoder().decode(bytes)));
  } catch (error) {
    if (error instanceof SyntaxError) throw new InputError('not-well-formed', `This is not JSON; ${what} expected.`, { file: name });
    throw error instanceof InputError ? error.inFile(name) : error;
  }
}

/** The score file, under the teacher's own pedal plan where one was given. */
function scoreSource(path: string, { plan }: Options): SourceFile {
  const file = readSource(path);
  return plan === undefined ? file : { ...file, plan: jsonIn(plan, 'a pedal plan was', readTeachersPlan) };
}

/** What the teacher decided, where a file says so. */
function decisionsFrom({ decisions }: Options): { readonly decisions?: Decisions } {
  return decisions === undefined ? {} : { decisions: jsonIn(decisions, 'decisions were', readDecisions) };
}

function review(paths: readonly string[], options: Options): void {
  const said = { ...purposeFrom(options.purpose), ...ageFrom(options.age) };
  const input = { ...readingOf(paths, options, 'review'), language: 'british', ...decisionsFrom(options) } as const;
  print(options.json, () => reviewReport(input, said), () => reviewInWords(input, said));
}

function compare(paths: readonly string[], options: Options): void {
  const [earlier, later] = readingsOf(paths, options, { recordings: 2, sentence: 'compare takes a score, an earlier recording and a later one' });
  if (earlier === undefined || later === undefined) throw new TypeError('two recordings were read');
  const asked = { language: 'british', ...decisionsFrom(options) } as const;
  const comparison = compareRecordings({ ...earlier, ...asked }, { ...later, ...asked });
  print(options.json, () => comparisonReport(earlier.score, comparison), () => comparisonInWords(earlier.score.title, comparison));
}

function pedal(paths: readonly string[], options: Options): void {
  const input = { ...readingOf(paths, options, 'pedal'), language: 'british' } as const;
  print(options.json, () => pedalReport(input), () => pedalInWords(input));
}

function analyse(paths: readonly string[], options: Options): void {
  const [path, ...more] = paths;
  if (path === undefined || more.length) throw new UsageError('analyse takes a score');
  progress('reading and analysing …');
  const { score, analysis } = analyseTogether(scoreSource(path, options), options.part);
  progress('');
  warn(score);
  print(options.json, () => analysisReport(score, analysis), () => analysisInWords(score, analysis));
}

function log(line: string): void {
  process.stderr.write(`${line}\n`);
}

async function room(paths: readonly string[], options: Options): Promise<void> {
  if (paths.length) throw new UsageError('room takes no file; put files in on its first page');
  const port = options.port === undefined ? undefined : /^\d+$/.test(options.port) ? Number(options.port) : NaN;
  if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port < 65_536)) throw new UsageError('--port takes a whole number below 65536');
  const { data, host } = options;
  const passphrase = process.env['BARWISE_PASSPHRASE'];
  const { address, elsewhere } = await startRoom({ ...(port === undefined ? {} : { port }), ...(data === undefined ? {} : { data }), ...(host === undefined ? {} : { host }), ...(passphrase === undefined ? {} : { passphrase }), log });
  process.stdout.write(`The room is open at ${address}\n`);
  for (const other of elsewhere) process.stdout.write(`on other devices at ${other}\n`);
}

/** Chooses or takes back the passphrase for other devices. */
async function passphrase(paths: readonly string[], { data, remove }: Options): Promise<void> {
  if (paths.length) throw new UsageError('the passphrase is asked for, so that nobody reads it in the list of commands');
  await choosePassphrase({ ...(data === undefined ? {} : { data }), remove, input: process.stdin, output: process.stderr });
  process.stderr.write(remove ? 'The passphrase is taken back; the room opens on this computer only.\n' : 'The passphrase is kept. Other devices say it once to come in.\n');
}

function parse(argv: readonly string[]): { command: string | undefined; paths: string[]; options: Options; help: boolean } {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: { json: { type: 'boolean' }, help: { type: 'boolean', short: 'h' }, part: { type: 'string' }, purpose: { type: 'string' }, age: { type: 'string' }, decisions: { type: 'string' }, plan: { type: 'string' }, host: { type: 'string' }, remove: { type: 'boolean' }, port: { type: 'string' }, data: { type: 'string' } },
    });
    const [command, ...paths] = positionals;
    return { command, paths, help: values.help ?? false, options: { json: values.json ?? false, part: values.part, port: values.port, data: values.data, purpose: values.purpose, age: values.age, decisions: values.decisions, plan: values.plan, host: values.host, remove: values.remove ?? false } };
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : 'unknown option');
  }
}

async function run(argv: readonly string[]): Promise<void> {
  const { command, paths, options, help } = parse(argv);
  if (help || command === 'help') process.stdout.write(HELP);
  else if (command === 'align') align(paths, options);
  else if (command === 'review') review(paths, options);
  else if (command === 'pedal') pedal(paths, options);
  else if (command === 'compare') compare(paths, options);
  else if (command === 'analyse') analyse(paths, options);
  else if (command === 'room') await room(paths, options);
  else if (command === 'passphrase') await passphrase(paths, options);
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
