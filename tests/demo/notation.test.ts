import { describe, expect, it } from 'vitest';
import { filled, parseHand, parsePitch } from '../../src/demo/notation.js';

describe('the text language of the demo pieces', () => {
  it('reads pitch, value, dots and signs', () => {
    // a dotted crotchet is 6 semiquavers, a semiquaver 1, a staccato crotchet 4: they stand at 0, 6 and 7
    const events = parseHand("E5:4.( F#4:16) B3+D4:4'");
    expect(events.map((event) => [event.at, event.length, event.type, event.dots])).toEqual([[0, 6, 'quarter', 1], [6, 1, '16th', 0], [7, 4, 'quarter', 0]]);
    expect(events.map((event) => event.signs)).toEqual([['('], [')'], ["'"]]);
    expect(filled(events)).toBe(11);
  });

  it('counts MIDI numbers from middle C = 60 and A4 = 69', () => {
    expect(['C4', 'A4', 'F#3', 'Bb2', 'A2'].map((text) => parsePitch(text).midi)).toEqual([60, 69, 54, 46, 45]);
  });

  it('sorts a chord from below and knows rests', () => {
    expect(parseHand('D4+B3:4')[0]?.pitches.map((pitch) => pitch.midi)).toEqual([59, 62]);
    expect(parseHand('r:8')[0]).toMatchObject({ pitches: [], length: 2 });
  });

  it('gives a double dot three quarters more', () => {
    // a doubly dotted minim: 8 + 4 + 2
    expect(parseHand('C4:2..')[0]?.length).toBe(14);
  });

  it('reads ties, ornaments, broken chords and fingers', () => {
    const [tied, trill] = parseHand('Ab4~+Db5:4z Eb5:4(t{3}');
    expect(tied?.pitches.map((pitch) => pitch.tied)).toEqual([true, false]);
    expect(tied).toMatchObject({ signs: ['z'], finger: null });
    expect(trill).toMatchObject({ signs: ['(', 't'], finger: 3 });
  });

  it.each(['H4:4', 'C4:4{6}', 'r~:4', 'C4', 'C4:3', 'C4:4!', 'C:4', ''])('refuses %j with a RangeError', (text) => {
    expect(() => parseHand(text)).toThrow(RangeError);
  });
});
