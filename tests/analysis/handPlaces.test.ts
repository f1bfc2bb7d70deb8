import { describe, expect, it } from 'vitest';
import { findHandPlaces, type HandOptions } from '../../src/analysis/handPlaces.js';
import type { HandKind, HandPlace } from '../../src/analysis/handTypes.js';
import { score, type WrittenBar } from '../align/build.js';
import { direction, note } from '../score/build.js';
import { readBars } from '../score/read.js';

type Of<K extends HandKind> = Extract<HandPlace, { kind: K }>;

/** Crotchet = figure, printed. */
const tempo = (figure: number): string =>
  direction(`<metronome><beat-unit>quarter</beat-unit><per-minute>${figure}</per-minute></metronome>`, `<sound tempo="${figure}"/>`);

function found<K extends HandKind>(kind: K, bars: readonly (WrittenBar | string)[], options: HandOptions & { time?: string } = {}): Of<K>[] {
  const { time, ...rest } = options;
  return findHandPlaces(score(bars, time), rest).filter((place): place is Of<K> => place.kind === kind);
}

describe('wide chords', () => {
  // C4 to C5 12, D5 14, E5 16, F5 17 semitones
  const bars = [{ right: 'C4+C5 C4+D5 C4+E5 C4+F5', left: 'C2 C2 r C2' }];
  it('a ninth is for small hands, a tenth a stretch, more must be broken', () => {
    expect(found('smallHandStretch', bars)).toMatchObject([{ semitones: 14, helped: false }]);
    expect(found('stretch', bars)).toMatchObject([{ semitones: 16, helped: true }]);
    expect(found('wideChord', bars)).toMatchObject([{ semitones: 17, marked: false }]);
  });
  it('the other hand helps where it strikes within its span', () => {
    // C3 48 is an octave below C4; A2 45 is a minor tenth below it, 15 semitones
    expect(found('stretch', [{ right: 'C4+E5 C4+E5 r/2', left: 'C3 A2 r/2' }]).map((place) => place.helped)).toEqual([true, false]);
  });
  it('a hand of an octave stretches for a ninth', () => {
    expect(found('stretch', bars, { span: 12 }).map((place) => place.semitones)).toEqual([14, 16]);
    expect(found('smallHandStretch', bars, { span: 12 })).toEqual([]);
  });
  it('an octave is none, and a span that no hand has is refused', () => {
    expect(found('stretch', ['C4+C5'], { span: 12 })).toEqual([]);
    expect(() => findHandPlaces(score(bars), { span: 40 })).toThrow(RangeError);
  });
});

describe('octaves', () => {
  it('four in a row, not three', () => {
    expect(found('octaves', ['C4+C5 D4+D5 E4+E5 F4+F5'])).toMatchObject([{ count: 4 }]);
    expect(found('octaves', ['C4+C5 D4+D5 E4+E5 F4+G4'])).toEqual([]);
  });
});

describe('jumps', () => {
  it('wider than an octave, with the time there is for it', () => {
    // C2 36 to C4 60: 24 semitones in a crotchet at 120 = half a second
    const bars = [{ right: 'C5/4', left: 'C2 C4+E4 C3/2', before: tempo(120) }];
    expect(found('jump', bars)).toMatchObject([{ hand: 'left', semitones: 24, up: true, seconds: 0.5, rest: false }]);
  });
  it('an octave is in the hand', () => expect(found('jump', [{ left: 'C2 C3 C2 C3', before: tempo(120) }])).toEqual([]));
  it('to a chord the nearest note counts; between chords the lesser way', () => {
    // C3 48 to E4 64 below G4: 16; C4+C5 (60, 72) to E5+G5 (76, 79): 16 and 7, the lesser is 7
    expect(found('jump', [{ left: 'C3 E4+G4 r/2', before: tempo(120) }])).toMatchObject([{ semitones: 16 }]);
    expect(found('jump', [{ right: 'C4+C5 E5+G5 r/2', before: tempo(120) }])).toEqual([]);
    // C4+E4 to D6+F6 is 26 and 25
    expect(found('jump', [{ right: 'C4+E4 D6+F6 r/2', before: tempo(120) }])).toMatchObject([{ semitones: 25 }]);
  });
  it('with time to look there is none: 9 semitones a second is the edge', () => {
    // 18 semitones (F#2 to C4) in two crotchets at 60: exactly 9 a second, still a jump; at 59 slower
    expect(found('jump', [{ left: 'F#2/2 C4/2', before: tempo(60) }])).toHaveLength(1);
    expect(found('jump', [{ left: 'F#2/2 C4/2', before: tempo(59) }])).toEqual([]);
  });
  it('none where the open hand covers both', () => {
    // a ninth, 14 semitones
    expect(found('jump', [{ right: 'C4 D5/3', before: tempo(120) }])).toEqual([]);
    expect(found('jump', [{ right: 'C4 D5/3', before: tempo(120) }], { span: 12 })).toHaveLength(1);
  });
  it('none to another voice while the first note is held and the other hand is free', () => {
    const bars = (left: string): WrittenBar[] => [{ right: 'C5/4', under: 'r A3/3', left, before: tempo(120) }];
    // C5 72 to A3 57: 15 semitones, beyond a ninth; C2 is too far away to help
    expect(found('jump', bars('r/4'))).toEqual([]);
    expect(found('jump', bars('C2/4'))).toHaveLength(1);
  });
  it('none from a first ending to the second', () => {
    const ending = (number: number, content = ''): Pick<WrittenBar, 'before' | 'after'> => ({
      before: `${tempo(120)}<barline location="left"><ending number="${number}" type="start"/></barline>`,
      after: `<barline location="right"><ending number="${number}" type="stop"/>${content}</barline>`,
    });
    const bars = [{ right: 'C4/4' }, { right: 'C4/3 C4', ...ending(1, '<repeat direction="backward"/>') }, { right: 'C6/4', ...ending(2) }];
    // C4 to C6 is printed side by side, but bar 3 is played after bar 1
    expect(found('jump', bars)).toEqual([]);
  });
});

describe('moving hands', () => {
  it('three moves in a bar, an octave at a time', () => {
    expect(found('positionChange', ['C4/0.5 G5/0.5 C4/0.5 G5/0.5 C5/2'])).toMatchObject([{ moves: 3 }]);
    expect(found('positionChange', ['C4 D4 E4 C5'])).toEqual([]);
  });
});

describe('hands that meet', () => {
  it('the left hand over the right', () => {
    const [place] = found('crossing', [{ right: 'C4/4', left: 'C3 G4 C3/2' }]);
    // G4 67 over C4 60
    expect(place).toMatchObject({ crossing: 'left', semitones: 7, hand: 'left' });
  });
  it('the right hand under the left', () => expect(found('crossing', [{ right: 'C5 C3/3', left: 'E3/4' }])).toMatchObject([{ crossing: 'right', semitones: 4 }]));
  it('none after the key is let go', () => expect(found('crossing', [{ right: 'C4 r/3', left: 'C3 G4 C3/2' }])).toEqual([]));
  it('a key for both, together or held', () => {
    expect(found('sharedKey', [{ right: 'C4/4', left: 'C4/4' }])).toMatchObject([{ how: 'together', hand: 'both' }]);
    expect(found('sharedKey', [{ right: 'r C4/3', left: 'C4/4' }])).toMatchObject([{ how: 'held' }]);
    expect(found('sharedKey', [{ right: 'r C4/3', left: 'C4 r/3' }])).toEqual([]);
  });
});

describe('held notes', () => {
  it('above or among moving ones, within the span', () => {
    expect(found('heldVoice', [{ right: 'A5/4', under: 'C5 D5 E5 F5' }])).toMatchObject([{ above: true, hand: 'right' }]);
    expect(found('heldVoice', [{ right: 'C5/4', under: 'r D5 E5 F5' }])).toMatchObject([{ above: false, moves: 3 }]);
  });
  it('not one move alone, nor beyond the span, where the pedal holds', () => {
    expect(found('heldVoice', [{ right: 'A5/4', under: 'C5/2 D5/2' }])).toEqual([]);
    expect(found('heldVoice', [{ right: 'C5/4', under: 'r C4 A3 C4' }])).toEqual([]);
  });
});

describe('quick notes', () => {
  const scale = 'C4/0.25 D4/0.25 E4/0.25 F4/0.25 G4/0.25 A4/0.25 B4/0.25 C5/0.25 D5/2';
  it('a run with its speed', () => {
    // semiquavers at crotchet = 120: eight a second; eight of them, then the note that ends the last one's distance
    const [place] = found('fastRun', [{ right: scale, before: tempo(120) }]);
    expect(place).toMatchObject({ count: 9, stepwise: true });
    expect(place!.perSecond).toBeCloseTo(8, 9);
  });
  it('the edge is 16/3 a second: semiquavers at 80', () => {
    expect(found('fastRun', [{ right: scale, before: tempo(80) }])).toHaveLength(1);
    expect(found('fastRun', [{ right: scale, before: tempo(79) }])).toEqual([]);
  });
  it('broken chords are no steps', () => {
    const arpeggio = 'C4/0.25 E4/0.25 G4/0.25 C5/0.25 E5/0.25 G5/0.25 C6/0.25 G5/0.25 E5/2';
    expect(found('fastRun', [{ right: arpeggio, before: tempo(120) }])).toMatchObject([{ stepwise: false }]);
  });
  it('repeated notes', () => {
    const bars = (figure: number): WrittenBar[] => [{ right: 'E5/0.5 E5/0.5 E5/0.5 E5/0.5 r/2', before: tempo(figure) }];
    // quavers at 120: four a second, the edge
    expect(found('repeatedNotes', bars(120))).toMatchObject([{ count: 4, chord: false }]);
    expect(found('repeatedNotes', bars(119))).toEqual([]);
  });
});

describe('ornaments (common practice: trills from above on the beat)', () => {
  const sign = (name: string): string => `<ornaments><${name}/></ornaments>`;
  const ornament = (name: string, length = 2, key = ''): Of<'ornament'>[] =>
    findHandPlaces(readBars([`${key}${note('A4', length, { signs: sign(name) })}`])).filter((place): place is Of<'ornament'> => place.kind === 'ornament');
  it.each([
    ['mordent', 'A G A'], ['inverted-mordent', 'A B A'], ['turn', 'B A G A'], ['inverted-turn', 'G A B A'], ['delayed-turn', 'A B A G A'],
  ])('%s', (name, names) => expect(ornament(name)[0]!.names.join(' ')).toBe(names));
  it('a trill has as many pairs as there is time for', () => {
    // no tempo: 84 crotchets a minute, 0.714 s a crotchet, at 8 a second 5.7 notes: two pairs; a minim 11.4: goes on after four pairs
    expect(ornament('trill-mark')[0]).toMatchObject({ names: ['B', 'A', 'B', 'A'], goesOn: false, fits: true });
    expect(ornament('trill-mark', 4)[0]).toMatchObject({ names: 'B A B A B A B A'.split(' '), goesOn: true });
  });
  it('neighbours follow the signature and the bar', () => {
    const inKey = '<attributes><divisions>2</divisions><key><fifths>-1</fifths></key></attributes>';
    expect(ornament('turn', 2, inKey)[0]!.names).toEqual(['B flat', 'A', 'G', 'A']);
    const after = readBars([note('G#4', 2) + note('A4', 2, { signs: sign('turn') })]);
    expect(findHandPlaces(after).filter((place) => place.kind === 'ornament')[0]!.names).toEqual(['B', 'A', 'G sharp', 'A']);
  });
  it('a long grace note takes its half, a slashed one none', () => {
    const grace = (slash: string): string => `<note><grace${slash}/><pitch><step>B</step><octave>4</octave></pitch><voice>1</voice></note>${note('A4', 2)}`;
    expect(findHandPlaces(readBars([grace('')]))).toMatchObject([{ sign: 'appoggiatura', names: ['B', 'A'] }]);
    expect(findHandPlaces(readBars([grace(' slash="yes"')]))).toEqual([]);
  });
});

describe('awkward scores', () => {
  it('rests alone and one note give nothing', () => {
    expect(findHandPlaces(score([{ right: 'r/4', left: 'r/4' }]))).toEqual([]);
    expect(findHandPlaces(score(['C5/4']))).toEqual([]);
  });
});
