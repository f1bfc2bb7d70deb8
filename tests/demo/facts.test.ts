import { describe, expect, it } from 'vitest';
import { facts, pieces, type PieceFacts, type PlannedChord } from '../../src/demo/index.js';
import { plannedChords } from '../../src/demo/facts.js';
import { filled, parseHand, parsePitch } from '../../src/demo/notation.js';

/** Textbook: semitones of the degrees above the tonic; minor has its natural sixth and seventh. */
const SCALES = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 10] } as const;
const DEGREES = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii'];
/** Figured bass: which member of the chord, counted from the root in thirds, is lowest. */
const LOWEST: Readonly<Record<string, number>> = { '': 0, '7': 0, '6': 1, '65': 1, '64': 2 };

const classOf = (name: string): number => parsePitch(`${name}4`).midi % 12;

/** Pitch class of a degree's root in a key; "V65/iv" is counted in the key of the fourth degree. */
function rootOf(roman: string, tonic: number, mode: 'major' | 'minor'): number {
  if (roman.startsWith('It')) return (tonic + 8) % 12;
  const [own = '', of] = roman.split('/');
  if (of !== undefined) return rootOf(own, rootOf(of, tonic, mode), of === of.toLowerCase() ? 'minor' : 'major');
  const [, flat = '', letters = ''] = /^(b?)([IViv]+)/.exec(own) ?? [];
  return (tonic + (SCALES[mode][DEGREES.indexOf(letters.toLowerCase())] ?? NaN) - flat.length + 12) % 12;
}

/** Root, third (null for an open fifth) and bass of a chord symbol. */
function symbol(chord: string): { root: number; minor: boolean | null; bass: number } {
  const [, root = '', quality = '', , bass] = /^([A-G][#b]?)([^/]*)(\/(.*))?$/.exec(chord) ?? [];
  return { root: classOf(root), minor: quality === '5' ? null : quality === 'm', bass: classOf(bass ?? root) };
}

function keyAt({ keys }: PieceFacts, bar: string): { tonic: number; mode: 'major' | 'minor' } {
  const key = keys.findLast((each) => Number(each.bar) <= Number(bar))!;
  return { tonic: classOf(key.tonic), mode: key.mode };
}

/** What is wrong with a degree beside its chord. */
function disagreement(all: PieceFacts, { bar, chord, roman }: PlannedChord): readonly string[] {
  const { tonic, mode } = keyAt(all, bar);
  const { root, minor, bass } = symbol(chord);
  const own = roman.split('/')[0]!;
  const figure = /\d*$/.exec(own)![0];
  const third = minor === true ? 3 : 4;
  const lowest = roman.startsWith('It') ? 0 : [0, third, 7][LOWEST[figure] ?? NaN]!;
  const agrees = rootOf(roman, tonic, mode) === root && (root + lowest) % 12 === bass && (minor === null || /^b?[iv]/.test(own) === minor);
  return agrees ? [] : [`bar ${bar}: ${roman} for ${chord}`];
}

it('stands beside every piece', () => {
  expect(facts.map((each) => each.piece)).toEqual(pieces.map((piece) => piece.slug));
});

describe.each(facts.map((each) => [each.piece, each] as const))('the plan of %s', (slug, all) => {
  const piece = pieces.find((each) => each.slug === slug)!;

  it('has a degree for each chord, right in root, third and bass', () => {
    expect(all.chords.flatMap((chord) => disagreement(all, chord))).toEqual([]);
    expect(all.chords.map(({ bar, at, chord }) => `${bar} ${String(at)} ${chord}`)).toEqual(piece.bars.flatMap((bar) => bar.harmony.map(([at, chord]) => `${bar.number} ${String(at)} ${chord}`)));
  });

  it('divides the whole piece into sections', () => {
    expect(all.sections.map(({ bars }) => bars[0])).toEqual(['0', ...all.sections.slice(0, -1).map(({ bars }) => String(Number(bars[1]) + 1))]);
    expect(all.sections.at(-1)!.bars[1]).toBe(piece.bars.at(-1)!.number);
  });

  it('begins in the key of the signature', () => {
    // sharps (+) or flats (-) of the major key; its minor has three flats more
    const fifths = { C: 0, G: 1, D: 2, A: 3, E: 4, B: 5, F: -1, Bb: -2, Eb: -3, Ab: -4, Db: -5 }[all.keys[0]!.tonic]! - (all.keys[0]!.mode === 'minor' ? 3 : 0);
    expect([fifths, all.keys[0]!.mode]).toEqual([piece.fifths, piece.mode]);
  });

  it('closes where it says: on the first degree, the fifth, or turned aside after the fifth', () => {
    for (const { bar, at, kind } of all.cadences) {
      const index = all.chords.findIndex((chord) => chord.bar === bar && chord.at === at);
      const degree = (i: number): string => /^[IViv]+/.exec(all.chords[i]?.roman ?? '')?.[0] ?? '';
      // what a first ending leads to a second one has too: its chord before is the first ending's
      const before = piece.bars.find((each) => each.number === bar)?.ending === 2 ? all.chords.findIndex((chord) => Number(chord.bar) === Number(bar) - 1) - 1 : index - 1;
      if (kind === 'half') expect(degree(index)).toBe('V');
      if (kind === 'perfect') expect([degree(before), degree(index).toLowerCase()]).toEqual(['V', 'i']);
      if (kind === 'interrupted') expect([degree(before), degree(index).toLowerCase()]).toEqual(['V', 'vi']);
      if (kind === 'plagal') expect([degree(before).toLowerCase(), degree(index).toLowerCase()]).toEqual(['iv', 'i']);
    }
  });

  it('names bars that are there', () => {
    const named = [...all.pitfalls.flatMap(({ bars }) => bars), ...all.pedal.flatMap(({ bars }) => bars), ...all.keys.map(({ bar }) => bar)];
    expect(named.filter((bar) => !piece.bars.some((each) => each.number === bar))).toEqual([]);
  });
});

describe('degrees put to chords', () => {
  const piece = { ...pieces[0]!, bars: pieces[0]!.bars.slice(0, 2) };

  it('take a text a bar', () => {
    expect(plannedChords(piece, ['', 'i'])).toEqual([{ bar: '1', at: 0, chord: 'Am', roman: 'i' }]);
    expect(() => plannedChords(piece, ['i'])).toThrow(RangeError);
  });

  it('refuse more degrees than chords', () => {
    expect(() => plannedChords(piece, ['', 'i V7'])).toThrow(RangeError);
  });
});

describe('what the two later pieces are there for', () => {
  const evening = pieces.find((piece) => piece.slug === 'evening-over-skerrowby')!;
  const chase = pieces.find((piece) => piece.slug === 'gull-chase')!;

  it('ties the evening tune over most bar lines', () => {
    const tied = evening.bars.filter((bar) => parseHand(bar.right).at(-1)!.pitches.some((pitch) => pitch.tied)).length;
    // 1-3, 5-7, 11, 13, 14, 16, 18, 21-25, 27, 28
    expect(tied).toBe(18);
  });

  it('goes through two bars of the chase in three crotchets', () => {
    const [first, second] = [13, 14].map((bar) => parseHand(chase.bars[bar]!.right));
    // crotchet, quaver tied to quaver, crotchet: 4 + (2 + 2) + 4 semiquavers
    expect(first!.map((event) => event.length)).toEqual([4, 2]);
    expect(first!.at(-1)!.pitches[0]!.tied).toBe(true);
    expect(second!.map((event) => event.length)).toEqual([2, 4]);
    expect(filled([...first!, ...second!])).toBe(12);
  });

  it('sets three quavers against two dotted ones', () => {
    const bar = chase.bars[24]!;
    expect([parseHand(bar.right), parseHand(bar.left)].map((events) => events.map((event) => event.at))).toEqual([[0, 2, 4], [0, 3]]);
  });
});
