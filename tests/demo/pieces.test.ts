import { describe, expect, it } from 'vitest';
import { pieces, type Piece } from '../../src/demo/index.js';
import { filled, parseHand, parsePitch, type WrittenEvent } from '../../src/demo/notation.js';
import { fullBar } from '../../src/demo/piece.js';
import { unfold } from '../../src/demo/visits.js';

/** Semitones above the root that a chord symbol allows; textbook spellings. */
const QUALITIES: Readonly<Record<string, readonly number[]>> = { '': [0, 4, 7], m: [0, 3, 7], '7': [0, 4, 7, 10], '5': [0, 7], '+6': [0, 4, 10] };

function chordClasses(symbol: string): readonly number[] {
  const [, root = '', quality = ''] = /^([A-G][#b]?)([^/]*)/.exec(symbol) ?? [];
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

  it('strikes the bass that the planned harmony names', () => {
    const others = piece.bars.flatMap((bar) => bar.harmony.flatMap(([at, chord]) => {
      const bass = /\/(.*)$/.exec(chord)?.[1];
      const struck = parseHand(bar.left).find((event) => event.at >= at && event.pitches.length > 0)?.pitches[0];
      const named = bass === undefined || (struck !== undefined && (struck.midi - parsePitch(`${bass}0`).midi) % 12 === 0);
      return named ? [] : [`bar ${bar.number}: ${chord}`];
    }));
    expect(others).toEqual([]);
  });

  it('ties notes only to the same pitch of the next event', () => {
    for (const hand of ['right', 'left'] as const) {
      const events = piece.bars.flatMap((bar) => parseHand(bar[hand]));
      const loose = events.flatMap((event, i) => event.pitches.filter((pitch) => pitch.tied && !events[i + 1]?.pitches.some((next) => next.midi === pitch.midi && next.step === pitch.step)));
      expect(loose).toEqual([]);
    }
  });

  it('keeps the hands apart, the left above where it crosses, and each within an octave but for broken tenths', () => {
    const midis = (event: WrittenEvent): readonly number[] => event.pitches.map((pitch) => pitch.midi);
    const spans = (event: WrittenEvent): number => Math.max(0, ...midis(event)) - Math.min(...midis(event), 127);
    for (const bar of piece.bars) {
      const right = parseHand(bar.right);
      const left = parseHand(bar.left);
      // a tenth: 16 semitones
      for (const event of [...right, ...left]) expect(spans(event)).toBeLessThanOrEqual(event.signs.includes('z') ? 16 : 12);
      for (const event of right.filter((each) => each.pitches.length > 0)) {
        const beside = left.filter((each) => each.at < event.at + event.length && event.at < each.at + each.length).flatMap(midis);
        if (bar.crossing === true) expect(Math.min(...beside)).toBeGreaterThan(Math.max(...midis(event)));
        else expect(Math.max(...beside)).toBeLessThan(Math.min(...midis(event)));
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

  it.each([['rowing-home', 31], ['evening-over-skerrowby', 33]] as const)('of %s goes straight through', (slug, bars) => {
    expect(numbers(slug)).toBe(Array.from({ length: bars }, (_, i) => String(i)).join(' '));
  });

  it('of the quick piece takes the repeat of bars 1-16, then the second ending', () => {
    const bars = (from: number, to: number, stroke = ''): string => Array.from({ length: to - from + 1 }, (_, i) => `${String(i + from)}${stroke}`).join(' ');
    expect(numbers('gull-chase')).toBe(`${bars(0, 16)} ${bars(1, 15, "'")} ${bars(17, 33)}`);
  });
});
