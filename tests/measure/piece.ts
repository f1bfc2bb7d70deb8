/** Small readable pieces for tests: written notes by bar, beat, pitch, length and velocity, and how they were played. */
import type { Added, Alignment, Missed, OrnamentNote, Pair, Stretch } from '../../src/align/index.js';
import { analyseScore } from '../../src/analysis/index.js';
import type { MeasuredPiece } from '../../src/measure/index.js';
import type { Piece } from '../../src/measure/piece.js';
import type { RecordedNote, Recording } from '../../src/recording/index.js';
import type { Bar, BarVisit, Occurrence, Score, ScoreNote } from '../../src/score/index.js';

export const TICKS = 480;

/** A piece with what is known of its score alone. */
export function analysed(piece: Piece): MeasuredPiece {
  return { ...piece, analysis: analyseScore(piece.score) };
}

/** A written note: bar from 1, beat in crotchets from 1, length in crotchets. Invented, all of them. */
export interface Written {
  readonly bar: number;
  readonly beat: number;
  readonly pitch: number;
  readonly length: number;
  readonly velocity?: number;
  readonly staff?: number;
  readonly kind?: 'grace' | 'trill' | 'rolled';
}

export function right(bar: number, beat: number, pitch: number, length = 1): Written {
  return { bar, beat, pitch, length, staff: 1 };
}

export function left(bar: number, beat: number, pitch: number, length = 1): Written {
  return { bar, beat, pitch, length, staff: 2 };
}

/** Notes of one length, one after the other from the first beat, in bars of four crotchets. */
export function run(hand: typeof right, count: number, length = 1): Written[] {
  return Array.from({ length: count }, (_, i) => hand(1 + Math.floor((i * length) / 4), 1 + ((i * length) % 4), 60 + (i % 12), length));
}

interface ScoreOptions {
  /** Crotchets a bar. */
  readonly beats?: number;
  readonly bars?: number;
  /** Bars in playing order, from 1; each bar once if left out. */
  readonly order?: readonly number[];
}

export function scoreOf(written: readonly Written[], { beats = 4, bars: count, order }: ScoreOptions = {}): Score {
  const bars = count ?? Math.max(1, ...written.map((one) => one.bar));
  const barTicks = beats * TICKS;
  const notes = written.map((one, index) => noteOf(one, index, barTicks));
  const visits = visitsOf(order ?? Array.from({ length: bars }, (_, i) => i + 1), barTicks);
  return {
    source: 'musicxml', title: 'Test piece (invented)', composer: '', ticksPerQuarter: TICKS, parts: [], staves: 2,
    bars: Array.from({ length: bars }, (_, index) => barOf(index, beats)), notes, rests: [], directions: [], order: visits,
    occurrences: occurrencesOf(written, visits, barTicks), warnings: [], xml: null,
  };
}

function barOf(index: number, beats: number): Bar {
  const lengthTicks = beats * TICKS;
  return {
    index, number: String(index + 1), implicit: false, startTick: index * lengthTicks, lengthTicks, nominalTicks: lengthTicks,
    time: { beats, beatType: 4, symbol: null }, key: { fifths: 0, mode: null }, barlines: [], endings: [],
  };
}

function noteOf({ bar, beat, pitch, length, staff = 1, kind }: Written, index: number, barTicks: number): ScoreNote {
  return {
    index, id: `n${index}`, barIndex: bar - 1, onsetTick: (bar - 1) * barTicks + (beat - 1) * TICKS, lengthTicks: kind === 'grace' ? 0 : length * TICKS,
    pitch: { step: 'C', alter: 0, octave: 4, midi: pitch }, staff, voice: '1', inChord: false,
    grace: kind === 'grace' ? { slash: true, before: 1, after: false } : null, cue: false, tieStart: false, tieStop: false, letRing: false,
    slurs: [], articulations: [], ornaments: kind === 'trill' ? ['trill'] : [], arpeggio: kind === 'rolled' ? 'up' : null, fermata: false, type: null, dots: 0,
    tuplet: null, fingering: [], velocity: null, hidden: false,
  };
}

function visitsOf(order: readonly number[], barTicks: number): BarVisit[] {
  return order.map((bar, index) => ({ index, barIndex: bar - 1, pass: order.slice(0, index + 1).filter((one) => one === bar).length, startTick: index * barTicks }));
}

function occurrencesOf(written: readonly Written[], visits: readonly BarVisit[], barTicks: number): Occurrence[] {
  const byBar = new Map<number, (Written & { readonly noteIndex: number })[]>();
  written.forEach((one, noteIndex) => byBar.set(one.bar - 1, [...(byBar.get(one.bar - 1) ?? []), { ...one, noteIndex }]));
  return visits
    .flatMap((visit) => (byBar.get(visit.barIndex) ?? []).map((one) => {
      const onsetTick = visit.index * barTicks + (one.beat - 1) * TICKS;
      return {
        noteIndex: one.noteIndex, tied: [one.noteIndex], visitIndex: visit.index, pass: visit.pass, barIndex: visit.barIndex, onsetTick,
        endTick: onsetTick + (one.kind === 'grace' ? 0 : one.length * TICKS), midi: one.pitch, staff: one.staff ?? 1,
      };
    }))
    .sort((a, b) => a.onsetTick - b.onsetTick || a.midi - b.midi)
    .map((one, index) => ({ index, ...one }));
}

/** Seconds for a moment in crotchets of the playing order. */
export type Clock = (crotchets: number) => number;

/** A steady tempo: seconds a crotchet. */
export function steady(secondsACrotchet: number, startS = 0): Clock {
  return (crotchets) => startS + crotchets * secondsACrotchet;
}

/** How one stretch of bars was played. */
export interface Played {
  /** Places in the playing order, both ends counted; everything if left out. */
  readonly visits?: readonly [number, number];
  readonly clock: Clock;
  /** Milliseconds later than the clock, or null for a note that was missed. */
  readonly shiftMs?: (occurrence: Occurrence) => number | null;
  /** Presses that no written note explains. */
  readonly presses?: readonly { readonly atS: number; readonly pitch: number; readonly near: number | null; readonly instead?: boolean }[];
}

/** Turns written notes and the way they were played into the three records. */
export function played(score: Score, ...stretches: readonly Played[]): Piece {
  const notes: RecordedNote[] = [];
  const pairs: Pair[] = [];
  const missed: Missed[] = [];
  const added: Added[] = [];
  const ornaments: OrnamentNote[] = [];
  const press = (onsetS: number, pitch: number): number => notes.push({ index: notes.length, onsetS, releaseS: onsetS + 0.3, pitch, velocity: 64, releaseVelocity: null, hanging: false }) - 1;
  const visited: number[] = [];
  const route = stretches.map(({ visits: [from, to] = [0, score.order.length - 1], clock, shiftMs = () => 0, presses = [] }, index): Stretch => {
    const attempt = (visit: number): number => 1 + visited.filter((one) => one === visit).length;
    for (const occurrence of score.occurrences.filter((one) => one.visitIndex >= from && one.visitIndex <= to)) {
      const late = shiftMs(occurrence);
      const place = { occurrence: occurrence.index, stretch: index, attempt: attempt(occurrence.visitIndex) };
      if (late === null) missed.push(place);
      else pairs.push({ ...place, note: press(clock(occurrence.onsetTick / TICKS) + late / 1000, occurrence.midi), octaveSlip: 0 });
    }
    for (const { atS, pitch, near, instead = false } of presses) added.push({ note: press(atS, pitch), stretch: index, near, instead });
    const stretch = { index, fromVisit: from, toVisit: to, startS: clock((score.order[from]?.startTick ?? 0) / TICKS), endS: clock((score.order[to]?.startTick ?? 0) / TICKS), attempt: attempt(from), hands: 'both' as const };
    for (let visit = from; visit <= to; visit += 1) visited.push(visit);
    return stretch;
  });
  const alignment: Alignment = { pairs, missed, added, ornaments, route, hands: 'both', transposition: 0, matched: 1 };
  return { score, recording: recordingOf(notes), alignment };
}

function recordingOf(notes: readonly RecordedNote[]): Recording {
  return { notes, sustain: [], sostenuto: [], soft: [], durationS: Math.max(0, ...notes.map((one) => one.releaseS)), limits: [] };
}
