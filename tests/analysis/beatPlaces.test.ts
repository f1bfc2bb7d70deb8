import { describe, expect, it } from 'vitest';
import { findBeatPlaces } from '../../src/analysis/beatPlaces.js';
import { crossGrid, divisionName, evenDivision } from '../../src/analysis/beatDivisions.js';
import type { BeatKind, BeatPlace } from '../../src/analysis/beatTypes.js';
import { score, type WrittenBar } from '../align/build.js';
import { readBars } from '../score/read.js';

type Of<K extends BeatKind> = Extract<BeatPlace, { kind: K }>;

function found<K extends BeatKind>(kind: K, bars: readonly (WrittenBar | string)[], time = '4/4'): Of<K>[] {
  return findBeatPlaces(score(bars, time)).filter((place): place is Of<K> => place.kind === kind);
}
const time = (beats: number, beatType: number): string =>
  `<attributes><time><beats>${beats}</beats><beat-type>${beatType}</beat-type></time></attributes>`;
const CROTCHETS = 'C3 C3 C3 C3';

describe('entries off the beat', () => {
  it('after a rest that covers the beat, with the line to count', () => {
    const [place] = found('entryAfterRest', [{ right: 'r r/0.5 D5/0.5 C5/2', left: CROTCHETS }]);
    expect(place).toMatchObject({ hand: 'right', fromBar: 0, count: 'the "&" of 2', otherOnBeat: true, afterBeats: false });
    expect(place!.counting!.line).toBe('1 & 2 **&** **3** & 4 &');
  });
  it('tells chords after every beat from an entry', () => {
    const places = found('entryAfterRest', [{ right: 'C5/4', left: 'r/0.5 C4/0.5 r/0.5 C4/0.5 r/0.5 C4/0.5 r/0.5 C4/0.5' }]);
    expect(places.map((place) => [place.hand, place.afterBeats])).toEqual([['left', false], ['left', true], ['left', true], ['left', true]]);
  });
  it('none on the beat, none after a held note', () => {
    expect(found('entryAfterRest', [{ right: 'r D5 C5/2', left: 'C3/1.5 D3/0.5 C3/2' }])).toEqual([]);
  });
  it('opens the piece only where the other hand has not begun', () => {
    expect(found('entryAfterRest', [{ right: 'r/1.5 D5/0.5 C5/2', left: CROTCHETS }])[0]!.opening).toBe(false);
    expect(found('entryAfterRest', [{ right: 'r/1.5 D5/0.5 C5/2', left: 'r/2 C3/2' }])[0]!.opening).toBe(true);
  });
  it('an upbeat stands on the last beat', () => {
    const bars: WrittenBar[] = [{ right: 'r/0.5 G4/0.5', number: '0' }, { right: 'C5/4' }];
    expect(found('entryAfterRest', bars)[0]).toMatchObject({ count: 'the "&" of 4', opening: true, counting: { barIndex: 0, line: '4 **&**' } });
  });
});

describe('the first beat', () => {
  it('is empty by a rest or by a held note', () => {
    const bars: WrittenBar[] = [{ right: 'C5/4_', left: 'C3/4' }, { right: '_C5/2 D5/2', left: 'r C3/3' }, { right: 'r D5/3', left: 'r/4' }];
    expect(found('emptyFirstBeat', bars).map((place) => [place.fromBar, place.cause])).toEqual([[1, 'held'], [2, 'rest']]);
  });
  it('is not missed in a bar of rests, nor where one hand strikes it', () => {
    expect(found('emptyFirstBeat', [{ right: 'r/4', left: 'r/4' }, { right: 'r D5/3', left: 'C3/4' }])).toEqual([]);
  });
});

describe('ties over the bar line', () => {
  it('with and without other notes to strike', () => {
    const bars: WrittenBar[] = [{ right: 'r/3 E5/1_', under: 'C5/4' }, { right: '_E5/1 D5/3', under: 'C5/4' }, { right: 'C5/3.5 E5/0.5_' }, { right: '_E5/4' }];
    const places = found('tieAcross', bars);
    expect(places.map((place) => [place.fromBar, place.partial, place.struckOff])).toEqual([[1, true, false], [3, false, true]]);
  });
  it('not within a bar', () => expect(found('tieAcross', ['C5/2_ _C5/2'])).toEqual([]));
});

describe('syncopation', () => {
  it('a crotchet between two quavers', () => {
    // 4/4 in quavers, lengths 1 2 1 ...: the crotchet stands at weight -3 and passes -2, the second beat: strength 1
    const [place] = found('syncopation', [{ right: 'C5/0.5 D5/1 E5/0.5 C5/2', left: CROTCHETS }]);
    expect(place).toMatchObject({ hand: 'right', strength: 1, notes: 1, otherOnBeat: true });
  });
  it('a run over bars is one place', () => {
    const bars = ['C5/0.5 D5/1 D5/1 D5/1 E5/0.5_', '_E5/0.5 D5/1 D5/1 D5/1 E5/0.5'];
    const places = found('syncopation', bars);
    // the tied E sounds through the bar line: weight -3 passes 0
    expect(places.map((place) => [place.fromBar, place.toBar, place.notes, place.strength])).toEqual([[0, 1, 7, 3]]);
  });
  it('no triplets, and nothing that only crosses the half of a beat', () => {
    const third = String(16 / 24);
    expect(found('syncopation', [`C5/${third} D5/${third} E5/${third} C5/2`, 'C5/0.25 D5/0.5 E5/0.25 C5/1 C5/2'])).toEqual([]);
  });
  it('not where the stronger place is silent, nor in even notes', () => {
    expect(found('syncopation', ['C5/0.5 D5/0.5 r/0.5 E5/0.5 C5/2', 'C5/3 D5'])).toEqual([]);
  });
});

describe('two divisions at once', () => {
  it('published grids of 3:2 and 4:3 (common practice: the common multiple)', () => {
    expect(crossGrid(3, 2)).toEqual({ slots: 6, onsets: [0, 2, 3, 4], lengths: [2, 1, 1, 2] });
    expect(crossGrid(4, 3)).toEqual({ slots: 12, onsets: [0, 3, 4, 6, 8, 9], lengths: [3, 1, 2, 2, 1, 3] });
    expect(() => crossGrid(0, 2)).toThrow(RangeError);
  });
  it('three against two in one beat', () => {
    const triplet = 'C5/0.333333 D5/0.333333 E5/0.333333';
    const bars = [{ right: `${triplet} C5/3`.replaceAll('0.333333', String(8 / 24)), left: 'C3/0.5 D3/0.5 C3/3' }];
    expect(found('crossRhythm', bars)).toMatchObject([{ ratio: [3, 2], fromBar: 0, spanTicks: expect.any(Number) as number }]);
  });
  it('crotchets in threes against four quavers', () => {
    const third = String(16 / 24);
    const bars = [{ right: `C5/${third} D5/${third} E5/${third} C5/2`, left: 'C3/0.5 D3/0.5 E3/0.5 F3/0.5 C3/2' }];
    expect(found('crossRhythm', bars).map((place) => place.ratio)).toEqual([[3, 4]]);
  });
  it('a dotted pair against a triplet is named apart', () => {
    const third = String(8 / 24);
    const bars = [{ right: 'C5/0.75 D5/0.25 C5/3', left: `C3/${third} D3/${third} E3/${third} C3/3` }];
    expect(found('crossRhythm', bars)).toEqual([]);
    expect(found('dotsAgainstTriplets', bars)).toHaveLength(1);
  });
  it('none where one division holds the other', () => expect(found('crossRhythm', [{ right: 'C5/0.25 D5/0.25 E5/0.25 F5/0.25 C5/3', left: 'C3/0.5 D3/0.5 C3/3' }])).toEqual([]));
  it('even divisions, one note missing at most', () => {
    expect(evenDivision([0, 4, 8], 12)).toBe(3);
    expect(evenDivision([0, 8], 12)).toBe(3);
    expect(evenDivision([8], 12)).toBeNull();
    expect(evenDivision([0, 9], 12)).toBeNull();
    expect(evenDivision([], 12)).toBeNull();
  });
  it('names of divisions', () => {
    expect(divisionName([0, 9], 12, false)).toBe('dotted');
    expect(divisionName([0, 6], 12, false)).toBe('even');
    expect(divisionName([0, 6], 12, true)).toBe('duplet');
    expect(divisionName([0, 4, 8], 12, true)).toBe('threes');
    // dotted quaver, semiquaver, quaver
    expect(divisionName([0, 6, 8], 12, true)).toBe('lilt');
    expect(divisionName([0, 4, 8], 12, false)).toBe('triplet');
    expect(divisionName([6], 12, false)).toBe('other');
  });
});

describe('hemiola (definition of the trade)', () => {
  it('two bars of three in twos', () => {
    const places = found('hemiola', [{ right: 'C5/2 D5/1_', left: 'C3 C3 C3' }, { right: '_D5/1 C5/2', left: 'C3 C3 C3' }], '3/4');
    expect(places).toMatchObject([{ fromBar: 0, toBar: 1, hand: 'right', shape: 'acrossTwoBars' }]);
  });
  it('three crotchets in 6/8, on the quavers 0 2 4', () => {
    expect(found('hemiola', [{ right: 'C5 D5 E5', left: 'C3/1.5 D3/1.5' }], '6/8')).toMatchObject([{ shape: 'withinBar', hand: 'right' }]);
  });
  it('not without the note over the bar line', () => {
    expect(found('hemiola', ['C5/2 D5/1', 'r/1 C5/2', 'C5/2 D5', 'C5 C5/2'], '3/4')).toEqual([]);
  });
});

describe('changes of the count', () => {
  it('of metre, and whether the beat changes with it', () => {
    const bars: WrittenBar[] = [{ right: 'C5/2' }, { right: 'C5/3', before: time(3, 4) }, { right: 'C5/3', before: time(6, 8) }, { right: 'C5/3' }];
    expect(found('metreChange', bars, '2/4').map((place) => [place.fromBar, place.to.beats, place.beatChanges])).toEqual([[1, 3, false], [2, 6, true]]);
  });
  it('of division: triplets beside pairs, dots beside pairs', () => {
    const third = String(8 / 24);
    const bars = [`C5/${third} D5/${third} E5/${third} C5/0.5 D5/0.5 C5/2`, 'C5/0.75 D5/0.25 C5/0.5 D5/0.5 C5/2', 'C5/0.75 D5/0.25 C5/1 C5/0.5 D5/0.5 C5'];
    expect(found('divisionChange', bars).map((place) => [place.fromBar, place.between])).toEqual([[0, ['even', 'triplet']], [1, ['dotted', 'even']]]);
  });
});

describe('long rests', () => {
  it('before and between, not after the last note; one bar is none', () => {
    const right = (text: string): WrittenBar => ({ right: text, left: 'r/4' });
    const bars = [right('C5/4'), right('D5/4'), { right: 'C5/4', left: 'C3/4' }, { right: 'r/4', left: 'C3/4' }, { right: 'C5/4', left: 'C3/4' }, right('C5/4'), right('C5/4')];
    expect(found('longRest', bars).map((place) => [place.hand, place.fromBar, place.toBar, place.bars, place.otherPlays])).toEqual([['left', 0, 1, 2, true]]);
  });
});

describe('compound beats are counted as dotted beats (notation)', () => {
  it.each([
    ['6/8', 'C5/1.5 D5/1.5', null],
    ['9/8', 'r/1.5 D5/3', '1 **2** 3'],
    ['12/8', 'r/1.5 D5/4.5', '1 **2** 3 4'],
    ['6/8', 'r/1.5 D5/0.5 E5/1', '1 & a **2** **&** a'],
    ['6/8', 'r/1.5 D5/0.25 E5/1.25', '1 & 2 & 3 & **4** **&** 5 & 6 &'],
  ])('%s: %s', (metre, bar, line) => {
    // a change of metre puts the bar among the places whatever its rhythm
    const places = findBeatPlaces(score([{ right: 'C5/1', before: '' }, { right: bar, before: time(Number(metre.split('/')[0]), Number(metre.split('/')[1])) }], '1/4'));
    expect(places.find((place) => place.kind === 'metreChange')!.counting?.line ?? null).toBe(line);
  });
});

describe('names of places in the bar', () => {
  it('compound time by its quavers', () => {
    expect(found('entryAfterRest', [{ right: 'C5/1.5 r D5/0.5', left: 'C3/3' }], '6/8')[0]!.count).toBe('the sixth quaver');
  });
});

describe('awkward scores', () => {
  it('rests alone, one note, a tune alone', () => {
    expect(findBeatPlaces(score([{ right: 'r/4', left: 'r/4' }]))).toEqual([]);
    expect(findBeatPlaces(score(['C5/4']))).toEqual([]);
    expect(findBeatPlaces(readBars(['<note><pitch><step>C</step><octave>4</octave></pitch><duration>8</duration></note>']))).toEqual([]);
  });
  it('one bar as long as a piece is left alone', () => {
    expect(findBeatPlaces(score(['r/0.5 C5/0.5 '.repeat(20).trim()])).filter((place) => place.kind !== 'longRest')).toEqual([]);
  });
});
