import { describe, expect, it } from 'vitest';
import { findPitfalls } from '../../src/analysis/pitfallPlaces.js';
import { pitfallPlace, pitfallRemarks } from '../../src/analysis/pitfallRemarks.js';
import type { Pitfall, PitfallKind } from '../../src/analysis/pitfallTypes.js';
import { analyseHarmony } from '../../src/harmony/index.js';
import { readScore } from '../../src/score/index.js';
import { demoFiles } from '../../src/demo/index.js';
import { score, type WrittenBar } from '../align/build.js';
import { direction, note } from '../score/build.js';
import { readBars } from '../score/read.js';

const ALL = { most: 100 };
const CROTCHETS = 'C3 C3 C3 C3';
const words = (text: string): string => direction(`<words>${text}</words>`);
const signature = (fifths: number): string => `<attributes><key><fifths>${fifths}</fifths></key></attributes>`;
const tempo = (figure: number): string => direction(`<metronome><beat-unit>quarter</beat-unit><per-minute>${figure}</per-minute></metronome>`, `<sound tempo="${figure}"/>`);

function found(kind: PitfallKind, bars: readonly (WrittenBar | string)[], time = '4/4'): readonly Pitfall[] {
  return findPitfalls(score(bars, time), ALL).filter((pitfall) => pitfall.kind === kind);
}
const places = (pitfall: Pitfall | undefined): readonly string[] => (pitfall?.places ?? []).map(({ bars: [first, last] }) => (first === last ? first : `${first}-${last}`));

describe('one pitfall for one trouble', () => {
  it('has all its places, neighbours joined', () => {
    const late: WrittenBar = { right: 'r r/0.5 D5/0.5 C5/2', left: CROTCHETS };
    const plain: WrittenBar = { right: 'C5/4', left: CROTCHETS };
    const [pitfall, ...more] = found('entryAfterRest', [late, late, plain, plain, late]);
    expect(more).toEqual([]);
    expect(places(pitfall)).toEqual(['1-2', '5']);
    expect(pitfall).toMatchObject({ hand: 'right', bars: ['1', '2'] });
    expect(pitfall!.sentence).toContain('comes in on the "&" of 2, just after the left');
    expect(pitfall!.counting).toMatchObject({ barIndex: 0, line: '1 & 2 **&** **3** & 4 &' });
  });
  it('is ranked by weight, at most so many', () => {
    const bars: WrittenBar[] = [{ right: 'C5/0.75 D5/0.25 C5/0.5 D5/0.5 C5/2', left: 'C2 C4+E4 C2 C4+E4', before: tempo(120) }, { right: 'C5/4', left: CROTCHETS }];
    const all = findPitfalls(score(bars), ALL);
    expect(all.map((one) => one.kind)).toEqual(['jump', 'divisionChange']);
    expect(all[0]!.weight).toBeGreaterThan(all[1]!.weight);
    expect(findPitfalls(score(bars), { most: 1 })).toEqual(all.slice(0, 1));
    expect(findPitfalls(score(bars), { most: 0 })).toEqual([]);
  });
  it('refuses a broken number', () => {
    expect(() => findPitfalls(score(['C5/4']), { most: -1 })).toThrow(RangeError);
    expect(() => findPitfalls(score(['C5/4']), { most: Number.NaN })).toThrow(RangeError);
  });
});

describe('accidentals', () => {
  it('that hold to the end of the bar', () => {
    const [pitfall] = found('accidentalHolds', ['G#4 A4 B4 G#4']);
    expect(pitfall!.sentence).toBe('G sharp comes again later in the bar, and will be read the second time as G natural.');
  });
  it('not at once, not in a chord that is only struck again, not in another octave', () => {
    expect(found('accidentalHolds', ['G#4/0.5 G#4/0.5 A4/3', 'E4+G#4 E4+G#4 E4+G#4 r', 'G#4 A4 B4 G#5'])).toEqual([]);
  });
  it('that lapse in the next bar or are taken back in the same', () => {
    expect(found('accidentalLapses', ['G#4/4', 'G4/4'])[0]!.sentence).toBe('G sharp is followed by G natural in the next bar, and the one will be played for the other.');
    expect(found('accidentalLapses', ['G#4/2 G4/2'])[0]!.sentence).toContain('within the bar');
    expect(found('accidentalLapses', ['G#4/4', 'A4/4', 'G4/4'])).toEqual([]);
  });
  it('a flat of the signature that is made natural', () => {
    const bars: WrittenBar[] = [{ right: 'C4/4' }, { right: 'C4/4', before: signature(-2) }, { right: 'B4 A4 G4 B4' }];
    expect(found('accidentalHolds', bars)[0]!.sentence).toBe('B natural comes again later in the bar, and will be read the second time as B flat.');
  });
});

describe('signatures', () => {
  it('that change', () => {
    const bars: WrittenBar[] = [{ right: 'C4/4' }, { right: 'C4/4', before: signature(-3) }];
    expect(found('signatureChange', bars)[0]!.sentence).toBe('The signature changes from no sharps or flats to three flats, and the old one will be read on.');
    expect(found('signatureChange', ['C4/4', 'C4/4'])).toEqual([]);
  });
  it('the last sharp where it is first met, from two sharps on', () => {
    const inKey = (fifths: number): readonly Pitfall[] => {
      const first = `<attributes><divisions>2</divisions><key><fifths>${fifths}</fifths></key></attributes>${note('D4', 8)}`;
      return findPitfalls(readBars([first, note('C#5', 8), note('C#5', 8), note('C#5', 8)]), ALL).filter((one) => one.kind === 'signatureSlip');
    };
    const [pitfall] = inKey(2);
    expect(pitfall!.sentence).toContain('C sharp is the last sharp of the signature');
    expect(places(pitfall)).toEqual(['2']);
    expect(inKey(1)).toEqual([]);
  });
});

describe('returns', () => {
  const tune = ['C5 D5 E5 C5', 'D5 E5 F5 D5'];
  it('that go another way', () => {
    const [pitfall] = found('changedReturn', [...tune, 'E5 F5 G5/2', 'r/4', ...tune, 'E5 F5 A5/2']);
    expect(places(pitfall)).toEqual(['7']);
    expect(pitfall!.sentence).toBe('The bar begins like bar 3 but goes to A where that had G, and the fingers will play the old one.');
  });
  it('not an exact return, nor a bar that begins otherwise', () => {
    expect(found('changedReturn', [...tune, 'E5 F5 G5/2', 'r/4', ...tune, 'E5 F5 G5/2'])).toEqual([]);
    expect(found('changedReturn', [...tune, 'E5 F5 G5/2', 'r/4', ...tune, 'A5/4'])).toEqual([]);
  });
  it('not the second ending, which the bracket shows', () => {
    const ending = (number: number, repeat = ''): Pick<WrittenBar, 'before' | 'after'> => ({
      before: `<barline location="left"><ending number="${number}" type="start"/></barline>`,
      after: `<barline location="right"><ending number="${number}" type="stop"/>${repeat}</barline>`,
    });
    const bars: WrittenBar[] = [{ right: 'C5 D5 E5 C5' }, { right: 'E5 F5 G5/2', ...ending(1, '<repeat direction="backward"/>') }, { right: 'C5 D5 E5 C5' }, { right: 'E5 F5 A5/2', ...ending(2) }];
    expect(found('changedReturn', bars)).toEqual([]);
  });
});

describe('rhythm', () => {
  /** Bars of crotchets as dotted quaver and semiquaver, so many of them. */
  const dotted = (pairs: number): string =>
    `<attributes><divisions>4</divisions><time><beats>${pairs}</beats><beat-type>4</beat-type></time></attributes>` +
    Array.from({ length: pairs }, (_, i) => note('C5', 3, { inside: '<dot/>' }) + note(i % 2 ? 'D5' : 'E5', 1)).join('');
  const dottedIn = (xml: string): readonly Pitfall[] => findPitfalls(readBars([xml]), ALL).filter((one) => one.kind === 'dottedPairs');
  it('two dotted pairs are an exception, three a matter of practice', () => {
    expect(dottedIn(dotted(2))).toEqual([]);
    expect(dottedIn(dotted(3))[0]!.practise).toBe('Count four semiquavers and place the short note on the last.');
  });
  it('the same rhythm without dots, cut off by rests, is none', () => expect(dottedIn(dotted(3).replaceAll('<dot/>', ''))).toEqual([]));
  it('three against two has its saying, with the hands in order', () => {
    const third = String(8 / 24);
    const [pitfall] = found('crossRhythm', [{ right: 'C5/0.5 D5/0.5 C5/3', left: `C3/${third} D3/${third} E3/${third} C3/3` }]);
    expect(pitfall!.practise).toBe('Tap "nice cup of tea" on the knees: together, left, right, left.');
  });
});

describe('tempo', () => {
  it('back in time after a slowing, and a slowing at the end', () => {
    const bars: WrittenBar[] = [{ right: 'C4/4' }, { right: 'C4/4', before: words('rit.') }, { right: 'C4/4', before: words('a tempo') }, { right: 'C4/4', before: words('rall.') }, { right: 'C4/4' }];
    expect(places(found('backInTime', bars)[0])).toEqual(['3']);
    expect(places(found('closingRitardando', bars)[0])).toEqual(['4-5']);
  });
  it('none without marks, and none for a tempo that nothing slowed before', () => {
    expect(found('backInTime', [{ right: 'C4/4' }, { right: 'C4/4', before: words('a tempo') }])).toEqual([]);
    expect(found('closingRitardando', ['C4/4'])).toEqual([]);
  });
});

describe('in words', () => {
  it('hand and bars first, then what happens, then what to do, then the count', () => {
    const written = score([{ right: 'r r/0.5 D5/0.5 C5/2', left: CROTCHETS }]);
    const pitfalls = findPitfalls(written, ALL).filter((one) => one.kind === 'entryAfterRest');
    expect(pitfallPlace(written, pitfalls[0]!)).toBe('Right hand, bar 1');
    expect(pitfallRemarks(written, pitfalls)[0]!.text).toMatch(/^Right hand, bar 1: After a rest .* Count bar 1: 1 & 2 \*\*&\*\* \*\*3\*\* & 4 &\.$/);
  });
  it('American words on the switch', () => {
    const [british] = found('accidentalLapses', ['G#4/4', 'G4/4']);
    const [american] = findPitfalls(score(['G#4/4', 'G4/4']), { language: 'american' });
    expect(british!.sentence).toContain('in the next bar,');
    expect(american!.sentence).toContain('in the next measure,');
  });
});

describe('the pieces of the demo room', () => {
  const pieces = demoFiles().filter((file) => file.path.endsWith('score.musicxml')).map((file) => [file.path, readScore(file.bytes, { fileName: file.path })] as const);
  const of = (name: string): readonly Pitfall[] => {
    const written = pieces.find(([path]) => path.includes(name))![1];
    return findPitfalls(written, { harmony: analyseHarmony(written) });
  };
  const kinds = (name: string): readonly PitfallKind[] => of(name).map((one) => one.kind);

  // what each piece was written to practise
  it('the barcarolle: the bass to catch, the slowing at the end', () => expect(kinds('rowing-home')).toEqual(expect.arrayContaining(['bassToCatch', 'closingRitardando'])));
  it('the march: two touches, dotted pairs, C sharp in bar 15', () => {
    expect(kinds('quayside-march').slice(0, 2)).toEqual(['twoTouches', 'dottedPairs']);
    expect(places(of('quayside-march').find((one) => one.kind === 'accidentalHolds'))).toEqual(['15']);
  });
  it('the evening piece: ties over the bar line, the tenth to break, back in time', () => {
    expect(kinds('evening')).toEqual(expect.arrayContaining(['tieAcross', 'wideChord', 'backInTime']));
    // a tie over the bar line is one trouble, not two
    expect(kinds('evening')).not.toContain('syncopation');
    expect(places(of('evening').find((one) => one.kind === 'wideChord'))).toEqual(['21', '32']);
  });
  it('the quick piece: crossing jumps, three against two, the hemiola', () => {
    expect(kinds('gull-chase')).toEqual(expect.arrayContaining(['jump', 'crossRhythm', 'hemiola', 'crossing', 'ornament']));
    expect(places(of('gull-chase').find((one) => one.kind === 'hemiola'))).toEqual(['13-14']);
    expect(places(of('gull-chase').find((one) => one.kind === 'crossRhythm'))).toEqual(['24-25']);
  });
  it.each(pieces)('%s: one sentence each, no decimals, no program words', (_, written) => {
    const pitfalls = findPitfalls(written, { harmony: analyseHarmony(written) });
    expect(pitfalls.length).toBeGreaterThan(0);
    expect(pitfalls.length).toBeLessThanOrEqual(10);
    for (const { sentence, practise, weight, places: at } of pitfalls) {
      for (const text of [sentence, practise]) expect(text).toMatch(/^[A-Z](?!.*(\d\.\d|undefined|null|NaN|tick|MIDI)).*[^. ]\.$/);
      expect(sentence).not.toMatch(/\. [A-Z]/);
      expect(weight > 0 && weight <= 1).toBe(true);
      expect(at.length).toBeGreaterThan(0);
    }
  });
});

describe('awkward scores', () => {
  it('rests alone, one note', () => {
    expect(findPitfalls(score([{ right: 'r/4', left: 'r/4' }]))).toEqual([]);
    expect(findPitfalls(score(['C5/4']))).toEqual([]);
  });
  it('a bar as long as a piece gives what can be said without bars', () => {
    const free = score([`${'C4/0.5 E4/0.5 '.repeat(20)}C4+E5/1 r`]);
    expect(findPitfalls(free, ALL).map((one) => one.kind)).toEqual(['stretch']);
  });
  it('five thousand notes give no more than ten', () => {
    const bar: WrittenBar = { right: 'C5/0.5 D#5/0.25 E5/0.25 F5/0.5 G5/1 A5/0.5 C4+E5 r/0.5 D5/0.5', left: 'C2 E3+G3 C2 E4+G4' };
    const long = score(Array.from({ length: 340 }, (_, i) => (i % 3 === 0 ? bar : { ...bar, right: `C5/0.5 D5/0.25 E5/0.25 F5/0.5 G5/1 A5/0.5 C4+E5 r/0.5 ${'CDEFGAB'.charAt(i % 7)}5/0.5` })));
    expect(long.notes.length).toBeGreaterThan(5000);
    const found = findPitfalls(long);
    expect(found.length).toBeGreaterThan(0);
    expect(found.length).toBeLessThanOrEqual(10);
  });
});
