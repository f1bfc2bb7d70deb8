import { describe, expect, it } from 'vitest';
import { pieces, type Piece } from '../../src/demo/index.js';
import { filled, parseHand, parsePitch, type WrittenEvent } from '../../src/demo/notation.js';
import { fullBar } from '../../src/demo/piece.js';
import { unfold } from '../../src/demo/visits.js';

/** Semitones above the root that a chord symbol allows; textbook spellings. */
const QUALITIES: Readonly<Record<string, readonly number[]>> = { '': [0, 4, 7], m: [0, 3, 7], '7': [0, 4, 7, 10] };

function chordClasses(symbol: string): readonly number[] {
  const [, root = '', quality = ''] = /^([A-G][#b]?)(.*)$/.exec(symbol) ?? [];
  return (QUALITIES[quality] ?? []).map((semitones) => (parsePitch(`${root}4`).midi + semitones) % 12);
}

interface OuterVoices {
  readonly bar: string;
  readonly tune: number;
  readonly bass: number;
  readonly newPhrase: boolean;
}

/** Tune and bass on each half bar where both hands strike together; where the pedal is marked, the bass is the lowest note that it holds. */
function outerVoices(piece: Piece): readonly OuterVoices[] {
  return piece.bars.flatMap((bar, barIndex) => {
    const left = parseHand(bar.left);
    const pedalled = piece.bars.some((each) => each.marks.some((mark) => mark.kind === 'pedal'));
    return parseHand(bar.right).filter((event) => event.at % (fullBar(piece) / 2) === 0).flatMap((event): OuterVoices[] => {
      const from = pedalled ? (bar.harmony.filter(([at]) => at <= event.at).at(-1)?.[0] ?? 0) : event.at;
      const bass = left.find((each) => each.at === from)?.pitches[0]?.midi;
      const tune = event.pitches.at(-1)?.midi;
      const newPhrase = event.at === 0 && piece.phrases.some(([first]) => first === barIndex);
      return bass === undefined || tune === undefined ? [] : [{ bar: bar.number, tune, bass, newPhrase }];
    });
  });
}

describe.each(pieces.map((piece) => [piece.slug, piece] as const))('%s', (_slug, piece) => {
  it('fills every bar in both hands; upbeat and last bar make one bar', () => {
    const lengths = piece.bars.map((bar) => [filled(parseHand(bar.right)), filled(parseHand(bar.left))]);
    expect(lengths.every(([right, left]) => right === left)).toBe(true);
    expect(lengths.slice(1, -1).every(([right]) => right === fullBar(piece))).toBe(true);
    expect((lengths[0]?.[0] ?? 0) + (lengths.at(-1)?.[0] ?? 0)).toBe(fullBar(piece));
  });

  it('numbers its bars from 0 without gaps', () => {
    expect(piece.bars.map((bar) => bar.number)).toEqual(piece.bars.map((_, i) => String(i)));
  });

  it('spells the planned harmony in the left hand and nothing else', () => {
    const strange = piece.bars.flatMap((bar) => parseHand(bar.left).flatMap((event) => {
      const chord = bar.harmony.filter(([at]) => at <= event.at).at(-1)?.[1];
      const classes = chord === undefined ? [] : chordClasses(chord);
      return event.pitches.filter((pitch) => !classes.includes(pitch.midi % 12)).map((pitch) => `bar ${bar.number}: ${String(pitch.midi)} in ${chord ?? 'nothing'}`);
    }));
    expect(strange).toEqual([]);
  });

  it('has no parallel octaves or fifths between tune and bass from half bar to half bar of a phrase', () => {
    const voices = outerVoices(piece);
    const parallels = voices.slice(1).filter(({ tune, bass, newPhrase }, i) => {
      const before = voices[i]!;
      const interval = (tune - bass) % 12;
      const similar = (tune - before.tune) * (bass - before.bass) > 0;
      return !newPhrase && similar && [0, 7].includes(interval) && interval === (before.tune - before.bass) % 12;
    });
    expect(parallels).toEqual([]);
  });

  it('keeps the hands apart and each within an octave', () => {
    const spans = (event: WrittenEvent): number => (event.pitches.at(-1)?.midi ?? 0) - (event.pitches[0]?.midi ?? 0);
    for (const bar of piece.bars) {
      const right = parseHand(bar.right);
      const left = parseHand(bar.left);
      expect(Math.max(...[...right, ...left].map(spans))).toBeLessThanOrEqual(12);
      for (const event of right.filter((each) => each.pitches.length > 0)) {
        const under = left.filter((each) => each.at < event.at + event.length && event.at < each.at + each.length).flatMap((each) => each.pitches);
        expect(Math.max(...under.map((pitch) => pitch.midi))).toBeLessThan(event.pitches[0]!.midi);
      }
    }
  });
});

describe('playing order', () => {
  const numbers = (slug: string): string => unfold(pieces.find((piece) => piece.slug === slug)!).map((visit) => `${visit.bar.number}${visit.pass === 2 ? "'" : ''}`).join(' ');

  it('of the march takes the repeat, then the second ending', () => {
    const after = Array.from({ length: 17 }, (_, i) => String(i + 9)).join(' ');
    expect(numbers('quayside-march')).toBe(`0 1 2 3 4 5 6 7 8 1' 2' 3' 4' 5' 6' 7' ${after}`);
  });

  it('of the barcarolle goes straight through', () => {
    expect(numbers('rowing-home')).toBe(Array.from({ length: 31 }, (_, i) => String(i)).join(' '));
  });
});
