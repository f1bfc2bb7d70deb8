import { describe, expect, it } from 'vitest';
import { accidentalMemory, alterInKey, copyHand, MIDDLE_LINE } from '../../src/demo/engravingRules.js';
import { parseHand, parsePitch } from '../../src/demo/notation.js';

const beams = (text: string, beat: number): readonly (readonly string[])[] => copyHand(parseHand(text), beat, MIDDLE_LINE.treble).map((copy) => copy.beams);

describe('beams', () => {
  it('join three quavers of a dotted beat and no more', () => {
    expect(beams('A4:8 A4:8 A4:8 A4:8 A4:8 A4:8', 6)).toEqual([['begin'], ['continue'], ['end'], ['begin'], ['continue'], ['end']]);
  });

  it('hook the short note of a dotted pair backwards', () => {
    expect(beams('A4:8. A4:16 A4:4', 4)).toEqual([['begin'], ['end', 'backward hook'], []]);
  });

  it('leave a single quaver its flag, and stop at a rest', () => {
    expect(beams('A4:4 A4:8 A4:8 r:8 A4:8', 6)).toEqual([[], [], [], [], []]);
  });

  it('join semiquavers twice', () => {
    expect(beams('A4:16 A4:16 A4:8', 4)).toEqual([['begin', 'begin'], ['continue', 'end'], ['end']]);
  });
});

describe('stems', () => {
  const stems = (text: string, beat = 4): readonly string[] => copyHand(parseHand(text), beat, MIDDLE_LINE.treble).map((copy) => copy.stem);

  it('point down from the middle line upwards', () => {
    expect(stems('A4:4 B4:4 C5:4')).toEqual(['up', 'down', 'down']);
  });

  it('follow the farthest note of a beamed group', () => {
    // E4 lies four places below the middle line, C5 one above
    expect(stems('E4:8 C5:8')).toEqual(['up', 'up']);
  });
});

describe('accidentals', () => {
  const printed = (fifths: number, bars: readonly (readonly string[])[]): readonly (string | null)[] => {
    const memory = accidentalMemory(fifths);
    return bars.flatMap((bar) => {
      memory.barLine();
      return bar.map((text) => {
        const accidental = memory.next(parsePitch(text));
        return accidental && `${accidental.name}${accidental.reminds ? '?' : ''}`;
      });
    });
  };

  it('hold to the bar line and remind in the next bar only', () => {
    expect(printed(0, [['G#4', 'G#4'], ['G4', 'G4'], ['G4']])).toEqual(['sharp', null, 'natural?', null, null]);
  });

  it('are not printed where the key signature has them', () => {
    expect(printed(1, [['F#4', 'F4', 'F#4']])).toEqual([null, 'natural', 'sharp']);
  });

  it('belong to one octave', () => {
    expect(printed(0, [['C#5', 'C4']])).toEqual(['sharp', null]);
  });

  it('follow the order of sharps and flats', () => {
    // two sharps: F and C; three flats: B, E and A
    expect(['F', 'C', 'G'].map((step) => alterInKey(step, 2))).toEqual([1, 1, 0]);
    expect(['B', 'E', 'A', 'D'].map((step) => alterInKey(step, -3))).toEqual([-1, -1, -1, 0]);
  });
});
