/** What must hold of every alignment, over fifty seeded recordings: random ways through random scores and the demo pieces. */
import { describe, expect, it } from 'vitest';
import { alignRecording, type Alignment } from '../../src/align/index.js';
import { seededRandom, type Random } from '../../src/base/index.js';
import { asha, desmond, jonas, mei, nilo } from '../../src/demo/players.js';
import type { Score } from '../../src/score/index.js';
import { recording, score, type Key } from './build.js';
import { demoPiece, perform, slip, SLIPS, type Part } from './takes.js';

const PIECES = [demoPiece('rowing-home'), demoPiece('quayside-march')];
const PLAYERS = [mei, nilo, asha, desmond, jonas];

interface Case {
  readonly name: string;
  readonly score: Score;
  readonly keys: readonly Key[];
}

const below = (random: Random, count: number): number => Math.floor(random() * count);

// A demo piece, one to three legs anywhere in bars 1-24, with slips.
function homeCase(seed: number): Case {
  const random = seededRandom(seed);
  const piece = PIECES[seed % PIECES.length]!;
  const parts = Array.from({ length: 1 + below(random, 3) }, (): Part => {
    // the first ending of the march is bar 8: legs keep to one side of it
    const from = random() < 0.4 ? 1 + below(random, 3) : 9 + below(random, 8);
    const to = Math.min(from <= 7 ? 7 : 24, from + 3 + below(random, 12));
    return { from: String(from), to: String(to), pauseS: 0.8 + random(), ...(random() < 0.3 ? { hands: random() < 0.5 ? ('right' as const) : ('left' as const) } : {}) };
  });
  return { name: `${piece.piece.title} ${parts.map((part) => `${part.from}-${part.to} ${part.hands ?? ''}`).join(', ')}`, score: piece.score, keys: slip(perform(piece, parts, { player: PLAYERS[seed % PLAYERS.length]!, seed }), SLIPS, seed) };
}

const STEPS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

// Twelve bars of chance: single notes, chords, trills and grace notes; struck where written, a fifth of a crotchet apart at most.
function chanceCase(seed: number): Case {
  const random = seededRandom(seed);
  const name = (octave: number): string => `${STEPS[below(random, 7)] ?? 'C'}${random() < 0.2 ? '#' : ''}${octave + below(random, 2)}`;
  const token = (octave: number): string => {
    const dice = random();
    if (dice < 0.05) return `${name(octave)}tr`;
    if (dice < 0.1) return `grace:${name(octave)} ${name(octave)}`;
    return dice < 0.25 ? `${name(octave)}+${name(octave + 2)}` : name(octave);
  };
  const bar = (octave: number): string => Array.from({ length: 4 }, () => token(octave)).join(' ');
  const made = score(Array.from({ length: 12 }, () => ({ right: bar(4), left: bar(2) })));
  const [from, to] = [below(random, 4), 8 + below(random, 4)];
  const keys = made.occurrences
    .filter((one) => one.barIndex >= from && one.barIndex <= to && random() > 0.04)
    .map((one): Key => ({ onsetS: 1 + one.onsetTick / made.ticksPerQuarter / 2 + 0.1 * (random() - 0.5), pitch: one.midi + (random() < 0.04 ? 1 : 0) }));
  return { name: `chance ${seed}`, score: made, keys };
}

const CASES = [...Array.from({ length: 30 }, (_, i) => homeCase(100 + i)), ...Array.from({ length: 20 }, (_, i) => chanceCase(200 + i))];

/** How often each stretch's bars had come by then: what "attempt" means. */
function attemptIn(alignment: Alignment, stretch: number, visit: number): number {
  return alignment.route.filter((one) => one.index <= stretch && one.fromVisit <= visit && one.toVisit >= visit).length;
}

function expectSound({ score, keys }: Case, alignment: Alignment): void {
  const notes = [...alignment.pairs, ...alignment.added, ...alignment.ornaments].map((one) => one.note).sort((a, b) => a - b);
  expect(notes, 'every press is one thing').toEqual(keys.map((_, i) => i));
  const pairNotes = alignment.pairs.map((pair) => pair.note);
  expect(pairNotes, 'pairs in time order').toEqual([...pairNotes].sort((a, b) => a - b));
  const places = [...alignment.pairs, ...alignment.missed].map((one) => `${one.occurrence}@${one.attempt}`);
  expect(new Set(places).size, 'a written note is paired or missed once an attempt').toBe(places.length);
  const missed = new Set(alignment.missed.map((one) => `${one.occurrence} in ${one.stretch}`));
  expect(alignment.added.filter((one) => one.instead && !missed.has(`${one.near ?? -1} in ${one.stretch ?? -1}`)), 'a wrong note is its written note missed').toEqual([]);
  const visitOf = (occurrence: number): number => score.occurrences[occurrence]!.visitIndex;
  for (const one of [...alignment.pairs, ...alignment.missed]) expect(one.attempt).toBe(attemptIn(alignment, one.stretch, visitOf(one.occurrence)));
  for (const one of [...alignment.pairs, ...alignment.missed, ...alignment.ornaments]) {
    const stretch = alignment.route[one.stretch];
    expect(stretch && visitOf(one.occurrence) >= stretch.fromVisit && visitOf(one.occurrence) <= stretch.toVisit, 'what is played stands in its stretch').toBe(true);
  }
  for (const pair of alignment.pairs) expect([0, 12, 24]).toContain(Math.abs(12 * pair.octaveSlip));
  expect(alignment.matched).toBe((alignment.pairs.length + alignment.ornaments.length) / keys.length);
}

function expectSoundRoute(alignment: Alignment): void {
  expect(alignment.route.map((one) => one.index)).toEqual(alignment.route.map((_, i) => i));
  for (const one of alignment.route) {
    expect(one.toVisit).toBeGreaterThanOrEqual(one.fromVisit);
    expect(one.endS).toBeGreaterThanOrEqual(one.startS);
  }
  const kinds = new Set(alignment.route.map((one) => one.hands));
  expect(alignment.hands).toBe(kinds.size > 1 ? 'mixed' : [...kinds][0]);
}

describe.each(CASES.map((one) => [one.name, one] as const))('%s', (_name, one) => {
  const alignment = alignRecording(one.score, recording(one.keys));

  it('is sound', () => {
    expect(alignment.pairs.length).toBeGreaterThan(0.5 * one.keys.length);
    expectSound(one, alignment);
    expectSoundRoute(alignment);
  });

  it('is the same on a transposed keyboard', () => {
    for (const semitones of [1, -3, 5]) {
      const moved = alignRecording(one.score, recording(one.keys.map((key) => ({ ...key, pitch: key.pitch + semitones }))));
      expect(moved).toEqual({ ...alignment, transposition: semitones });
    }
  });

  it('has the same pairs a third slower', () => {
    const slower = alignRecording(one.score, recording(one.keys.map((key) => ({ ...key, onsetS: key.onsetS * 1.3 }))));
    expect(slower.pairs).toEqual(alignment.pairs);
  });
});
