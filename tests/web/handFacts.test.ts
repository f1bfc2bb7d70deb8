import { describe, expect, it } from 'vitest';
import type { BeatPlace, HandPlace } from '../../src/analysis/index.js';
import { beatFact } from '../../src/web/beatFacts.js';
import { distance, handFact } from '../../src/web/handFacts.js';

const SPOT = { fromBar: 0, toBar: 0, fromTick: 0, hand: 'left', notes: [] } as const;
const BEAT = { fromBar: 0, toBar: 0, fromTick: 0, hand: 'right', counting: null } as const;

describe('distances on the keyboard', () => {
  // semitones of the intervals: any theory book
  it.each([[12, 'an octave'], [13, 'a minor ninth'], [16, 'a major tenth'], [17, 'an octave and a fourth'], [19, 'an octave and a fifth'], [24, 'two octaves'], [31, 'two octaves and a fifth'], [36, 'three octaves'], [7, 'a fifth']])('%d semitones are %s', (semitones, words) => {
    expect(distance(semitones)).toBe(words);
  });
});

describe('what a hand has to do, in a clause', () => {
  it.each<[HandPlace, string]>([
    [{ ...SPOT, kind: 'jump', semitones: 24, up: false, ticks: 1, seconds: 0.5, rest: false }, 'a jump of two octaves down'],
    [{ ...SPOT, kind: 'stretch', semitones: 16, helped: true }, 'a stretch of a major tenth; the right hand could help'],
    [{ ...SPOT, kind: 'octaves', count: 4, perSecond: 2 }, 'four octaves in a row'],
    [{ ...SPOT, kind: 'crossing', crossing: 'left', semitones: 5 }, 'the left hand goes above the right'],
    [{ ...SPOT, kind: 'fastRun', count: 8, perSecond: 7.6, ticks: 1, stepwise: true }, 'eight quick notes by step, about eight a second'],
    [{ ...SPOT, kind: 'ornament', sign: 'mordent', names: ['C', 'B', 'C'], goesOn: false, fits: true }, 'mordent: C, B, C'],
    [{ ...SPOT, kind: 'positionChange', moves: 1 }, 'one change of position'],
  ])('%#', (place, words) => {
    expect(handFact(place)).toBe(words);
  });
});

describe('where the beat hides, in a clause', () => {
  it.each<[BeatPlace, string]>([
    [{ ...BEAT, kind: 'entryAfterRest', count: 'the "&" of 2', otherOnBeat: true, afterBeats: false, opening: false }, 'comes in on the "&" of 2 after a rest'],
    [{ ...BEAT, kind: 'crossRhythm', ratio: [3, 2], spanTicks: 4 }, 'three in the right hand against two in the left'],
    [{ ...BEAT, kind: 'metreChange', from: { beats: 3, beatType: 4, symbol: null }, to: { beats: 6, beatType: 8, symbol: null }, keeps: null, beatChanges: true } as BeatPlace, 'the time changes from 3/4 to 6/8, and with it what counts as the beat'],
    [{ ...BEAT, kind: 'longRest', bars: 3, otherPlays: true }, 'rests for three bars while the other hand plays'],
    [{ ...BEAT, kind: 'emptyFirstBeat', cause: 'held' }, 'the first beat is held over, not struck'],
  ])('%#', (place, words) => {
    expect(beatFact(place)).toBe(words);
  });
});
