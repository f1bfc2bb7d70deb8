/**
 * Thirty made series: one player, one piece, three recordings over eight weeks, with a planned gain (the fault is gone in the last),
 * a slip (it comes in the last) or a standstill (it stays). The plan is the witness. Every recording has its own seed, so
 * that all of the player's own scatter lies between them.
 */
import { describe, expect, it } from 'vitest';
import { alignRecording } from '../../src/align/index.js';
import { analyseScore, type Analysis } from '../../src/analysis/index.js';
import { makeTake, pieces, type Fault, type Piece } from '../../src/demo/index.js';
import type { Instrument, Player } from '../../src/demo/plan.js';
import { asha, jonas, mei } from '../../src/demo/players.js';
import { midiBytes } from '../../src/demo/takeFiles.js';
import { writeScore } from '../../src/demo/scoreWriter.js';
import type { JudgeInput } from '../../src/judge/index.js';
import { measureAll } from '../../src/measure/index.js';
import { compareRecordings, type Change } from '../../src/progress/index.js';
import { readRecording } from '../../src/recording/index.js';
import { readScore, type Score } from '../../src/score/index.js';

type Way = 'gain' | 'slip' | 'standstill';
const WAYS: readonly Way[] = ['gain', 'slip', 'standstill'];
const PLAYERS: readonly Player[] = [mei, jonas, asha];
const INSTRUMENT: Instrument = { touch: true, pedal: 'none' };

const place = { pass: null, attempt: null, what: 'planned' } as const;

/** Faults of a size that any teacher hears, by piece; bars as printed. */
const FAULTS: readonly { readonly piece: string; readonly fault: Fault }[] = [
  { piece: 'quayside-march', fault: { ...place, aspect: 'rhythm', kind: 'evenDots', bars: ['1', '8'], hand: 'right' } },
  { piece: 'quayside-march', fault: { ...place, aspect: 'touch', kind: 'staccatoHeld', ratio: 0.93, bars: ['1', '25'], hand: 'left' } },
  { piece: 'quayside-march', fault: { ...place, aspect: 'balance', kind: 'leftTooLoud', by: 22, bars: ['10', '17'], hand: 'left' } },
  { piece: 'quayside-march', fault: { ...place, aspect: 'rhythm', kind: 'handLate', lateMs: 90, bars: ['18', '25'], hand: 'left' } },
  { piece: 'quayside-march', fault: { ...place, aspect: 'pulse', kind: 'hesitation', pauseS: 1.2, bars: ['14', '14'], hand: 'both' } },
  { piece: 'gull-chase', fault: { ...place, aspect: 'pulse', kind: 'hesitation', pauseS: 1.2, bars: ['9', '9'], hand: 'both' } },
  { piece: 'gull-chase', fault: { ...place, aspect: 'touch', kind: 'staccatoHeld', ratio: 0.92, bars: ['1', '12'], hand: 'left' } },
  { piece: 'rowing-home', fault: { ...place, aspect: 'pulse', kind: 'hesitation', pauseS: 1.4, bars: ['12', '12'], hand: 'both' } },
  { piece: 'rowing-home', fault: { ...place, aspect: 'notes', kind: 'octaveSlip', octaves: -1, bars: ['5', '5'], hand: 'left' } },
  { piece: 'evening-over-skerrowby', fault: { ...place, aspect: 'pulse', kind: 'hesitation', pauseS: 1.4, bars: ['10', '10'], hand: 'both' } },
];

const read = new Map<string, { readonly piece: Piece; readonly score: Score; readonly analysis: Analysis }>(pieces.map((piece) => {
  const score = readScore(new TextEncoder().encode(writeScore(piece, 'invented')), { fileName: 'score.musicxml' });
  return [piece.slug, { piece, score, analysis: analyseScore(score) }];
}));

/** A piece that the room does not have. */
function missing(): never {
  throw new RangeError('no such piece');
}

/** One recording of a series. */
function recorded(slug: string, faults: readonly Fault[], { player, seed }: { readonly player: Player; readonly seed: number }): JudgeInput {
  const { piece, score, analysis } = read.get(slug) ?? missing();
  const take = makeTake(piece, { name: 'made', piece: slug, seed, player, instrument: INSTRUMENT, recordedAt: '2025-10-01T18:00:00', purpose: 'polishing', about: '', faults });
  const recording = readRecording(midiBytes(take, piece.title), { fileName: 'made.mid' });
  const whole = { score, analysis, recording, alignment: alignRecording(score, recording) };
  return { ...whole, measures: measureAll(whole), language: 'british' };
}

/** True for a change of the planned aspect that touches the planned bars. */
function isOf({ aspect, bars }: Fault, score: Score, change: Change): boolean {
  const [from, to] = bars.map((number) => score.bars.findIndex((bar) => bar.number === number));
  return change.aspect === aspect && change.places.some(({ fromBar, toBar }) => fromBar <= (to ?? -1) + 1 && toBar >= (from ?? 0) - 1);
}

/** What came out of one series: whether each of its two comparisons said what was planned, and what was said beside it. */
function outcome({ piece, fault }: (typeof FAULTS)[number], way: Way, at: number): { readonly right: boolean; readonly beside: readonly string[] } {
  const player = PLAYERS[at % PLAYERS.length] ?? mei;
  const has = { gain: [true, true, false], slip: [false, false, true], standstill: [true, true, true] }[way];
  const [first, second, third] = has.map((faulty, week) => recorded(piece, faulty ? [fault] : [], { player, seed: 9000 + 100 * at + week }));
  if (first === undefined || second === undefined || third === undefined) throw new TypeError('three recordings were made');
  const [early, late] = [compareRecordings(first, second).changes, compareRecordings(second, third).changes];
  const planned = late.filter((change) => isOf(fault, first.score, change));
  const wanted = way === 'standstill' ? planned.length === 0 : planned.some(({ direction }) => direction === (way === 'gain' ? 'better' : 'worse'));
  const beside = [...early, ...late.filter((change) => !planned.includes(change))];
  return { right: wanted && !early.some((change) => isOf(fault, first.score, change)), beside: beside.map(({ direction, text }) => `${piece} ${way}: ${direction}: ${text}`) };
}

describe('thirty made series', () => {
  const outcomes = FAULTS.flatMap((one, i) => WAYS.map((way, j) => ({ name: `${one.piece} ${one.fault.kind} ${way}`, ...outcome(one, way, 3 * i + j) })));

  it('says gain, slip and standstill as planned in at least 95 of a hundred', () => {
    expect(outcomes).toHaveLength(30);
    expect(outcomes.filter(({ right }) => !right).map(({ name }) => name).length).toBeLessThanOrEqual(1);
  });

  it('invents at most one change in twenty comparisons', () => {
    const invented = outcomes.flatMap(({ beside }) => beside);
    expect(invented.length / (2 * outcomes.length)).toBeLessThanOrEqual(1 / 20);
  });
});
