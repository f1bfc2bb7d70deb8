import { describe, expect, it } from 'vitest';
import { clashOf } from '../../src/measure/clash.js';
import { clearingS, firstRate } from '../../src/measure/decay.js';
import { pedalFacts } from '../../src/measure/pedalFacts.js';
import { plausibleFoot } from '../../src/measure/plausibleFoot.js';
import type { PedalChange } from '../../src/measure/index.js';
import { chorale, inputOf, legato, type ChordName, type Movement } from '../judge/pedalPiece.js';
import { AWKWARD } from './awkward.js';
import { analysed } from './piece.js';

const C_MAJOR = { classes: new Set([0, 4, 7]), lowest: 48 };

describe('clash of an old note', () => {
  // full weight up to the E below middle C (52), a semitone 1, a whole tone 0.6, thirds and fourths 0.15, tritone 0.3, wrong bass 0.7
  it.each([
    ['a note of the new harmony', 52, 0], ['a semitone', 49, 1], ['a whole tone', 50, 0.6], ['a semitone above the fifth', 44, 1],
    ['a foreign note under the new bass', 45, 0.7],
  ])('%s', (_, pitch, clash) => {
    expect(clashOf(pitch, C_MAJOR)).toBeCloseTo(clash, 10);
  });

  it('weighs less and less towards the top', () => {
    const clashes = [49, 61, 73, 85, 97].map((pitch) => clashOf(pitch, C_MAJOR));
    clashes.slice(1).forEach((clash, i) => { expect(clash).toBeLessThanOrEqual(clashes[i] ?? 0); });
    expect(clashes[3]).toBeCloseTo(0.15, 10);
  });

  it('the test pair of the trade: into D minor C, E and G clash, into an inversion of its own chord none', () => {
    const dMinor = { classes: new Set([2, 5, 9]), lowest: 50 };
    expect([60, 64, 67].every((pitch) => clashOf(pitch, dMinor) > 0)).toBe(true);
    expect([60, 64, 67].map((pitch) => clashOf(pitch, { ...C_MAJOR, lowest: 52 }))).toEqual([0, 0, 0]);
  });
});

/** Two bars of a second a crotchet, chords held by the pedal alone; keys up after two seconds. */
function secondBar(chords: readonly [ChordName, ChordName], foot: readonly Movement[], keyS = 2): PedalChange {
  const { measures } = inputOf({ written: chorale(chords, 'held'), crotchetS: 1, foot, keyS: () => keyS });
  const change = measures.pedal.changes.find(({ writtenTick }) => writtenTick === 4 * 480);
  if (change === undefined) throw new RangeError('no change at the second bar');
  return change;
}

/** Pitches carried over, in order. */
function carriedInto(chords: readonly [ChordName, ChordName], foot: readonly Movement[], keyS?: number): readonly number[] {
  return secondBar(chords, foot, keyS).carried.map(({ pitch }) => pitch).sort((a, b) => a - b);
}

const DOWN: readonly Movement[] = [{ bar: 1, afterS: 0.3, value: 127 }];

/*
 * Which notes ring when, by hand. The left hand has the chord (C: 36 55 60 64, F: 41 57 60 65, G: 43 55 59 62, A minor: 45 57 60 64, D minor: 38 57 62 65)
 * and the right hand its top note an octave higher; all struck alike at the bar line, keys up after 2 s, the new chord after 4 s.
 * After 4 s a string has lost 12 dB and a third of its first rate for the time after that; those far softer than the new sound are covered.
 */
describe('five blurs worked by hand', () => {
  // C into F: of 36 55 60 64 76, C is in F. Foreign: 55 (a tone from F and A), 64 (a semitone from F) and 76; 76 has lost 12 + (4 - 12/18.6) * 6.2 = 33 dB and is covered
  it('C held into F: G and E', () => {
    expect(carriedInto(['C', 'F'], DOWN)).toEqual([55, 64]);
  });

  // F into G: 41 57 60 65 77; F is a tone from G, A from G, C a semitone from B: all foreign, 77 covered as above
  it('F held into G: F, A, C and F', () => {
    expect(carriedInto(['F', 'G'], DOWN)).toEqual([41, 57, 60, 65]);
  });

  // G into C: 43 55 59 62 74; G is in C; B a semitone from C, D a tone from C and E; 74 has lost 12 + (4 - 12/17.3) * 5.8 = 31 dB
  it('G held into C: B and D', () => {
    expect(carriedInto(['G', 'C'], DOWN)).toEqual([59, 62]);
  });

  // A minor into G: 45 57 60 64 76; all foreign to G B D: A and C a tone or semitone from G and B, E a tone from D
  it('A minor held into G: A, A, C and E', () => {
    expect(carriedInto(['Am', 'G'], DOWN)).toEqual([45, 57, 60, 64]);
  });

  // C into D minor: 36 55 60 64; C and E and G foreign to D F A, the low C under the new bass too
  it('C held into D minor: C, G, C and E', () => {
    expect(carriedInto(['C', 'Dm'], DOWN)).toEqual([36, 55, 60, 64]);
  });
});

describe('five clean changes worked by hand', () => {
  // up with the chord, 0.26 s later down: the slowest string, 36, needs 0.3 - 0.2 * 12/48 = 0.25 s to clear
  it.each([['C', 'F'], ['F', 'G'], ['G', 'C'], ['Am', 'G'], ['C', 'Dm']] as const)('%s to %s: nothing rings on', (one, other) => {
    const change = secondBar([one, other], legato(1, 2, { liftS: 0, pressS: 0.26 }));
    expect(clearingS(36)).toBeCloseTo(0.25, 10);
    expect(change).toMatchObject({ foot: 'changed', carried: [], blur: 0, overlapS: 0, roughness: null, gapS: 0 });
    expect(change.liftS).toBeCloseTo(0, 6);
    expect(change.pressS).toBeCloseTo(0.26, 6);
  });
});

describe('what is told of a change', () => {
  it('a held pedal is rougher than a clean one, and the blur lies before any press', () => {
    const { roughness, blur, blurParts, foot } = secondBar(['F', 'G'], DOWN);
    expect(foot).toBe('held');
    expect(roughness?.played ?? 0).toBeGreaterThan(roughness?.clean ?? Infinity);
    expect(blurParts).toEqual({ heldOver: blur, caught: 0 });
  });

  // the later the lift, the more is heard; after 20, 100, 400 and 800 ms
  it('grows with the time that the foot is late', () => {
    const blurs = [0.02, 0.1, 0.4, 0.8].map((liftS) => secondBar(['F', 'G'], legato(1, 2, { liftS, pressS: liftS + 0.3 })).blur);
    blurs.slice(1).forEach((blur, i) => { expect(blur).toBeGreaterThanOrEqual(blurs[i] ?? 0); });
    expect(blurs[0]).toBe(0);
    expect(blurs[3]).toBeGreaterThan(blurs[1] ?? 0);
  });

  it('what a finger holds over is not the foot\'s', () => {
    expect(secondBar(['F', 'G'], [], 4.5)).toMatchObject({ foot: 'up', carried: [], blur: 0 });
  });

  it('old sound fades as its register does', () => {
    const { course } = secondBar(['F', 'G'], DOWN);
    const levels = course.flatMap(({ oldDb }) => oldDb ?? []);
    expect(levels.length).toBeGreaterThan(5);
    levels.slice(1).forEach((level, i) => { expect(level).toBeLessThanOrEqual(levels[i] ?? 0); });
    // no faster than the quickest string in it, no slower than a third of the slowest
    const lost = (levels[0] ?? 0) - (levels.at(-1) ?? 0);
    const lastedS = (course.at(-1)?.atS ?? 0) - (course[0]?.atS ?? 0);
    expect(lost / lastedS).toBeGreaterThanOrEqual(firstRate(41) / 3 - 0.01);
    expect(lost / lastedS).toBeLessThanOrEqual(firstRate(77));
  });

  it('a hole before the chord is as long as the silence', () => {
    // fingers up after 2 s, the foot 0.5 s before the chord; the slowest string is gone 0.25 s later at the latest
    const { gapS } = secondBar(['F', 'G'], [...DOWN, { bar: 2, afterS: -0.5, value: 0 }, { bar: 2, afterS: 0.26, value: 127 }]);
    expect(gapS).toBeGreaterThanOrEqual(0.25);
    expect(gapS).toBeLessThanOrEqual(0.5);
  });
});

describe('lifts that no foot can make', () => {
  const down = { timeS: 0, value: 127 };

  it('are drawn out to quick ones; others stay', () => {
    expect(plausibleFoot([down, { timeS: 1, value: 0 }, { timeS: 1.02, value: 127 }]).map(({ timeS }) => timeS)).toEqual([0, 1, 1.15]);
    expect(plausibleFoot([down, { timeS: 1, value: 0 }, { timeS: 1.07, value: 127 }]).map(({ timeS }) => timeS)).toEqual([0, 1, 1.07]);
  });

  it('slopes stay as they were sent', () => {
    const slope = [127, 60, 20, 0, 30, 90].map((value, i) => ({ timeS: i / 100, value }));
    expect(plausibleFoot(slope)).toEqual(slope);
  });

  it('nothing is drawn out beyond what comes next', () => {
    expect(plausibleFoot([down, { timeS: 1, value: 0 }, { timeS: 1.02, value: 127 }, { timeS: 1.1, value: 0 }]).map(({ timeS }) => timeS)).toEqual([0, 1, 1.1, 1.1]);
  });
});

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('every number is finite and inside its range, changes in order', () => {
    const { changes, smears, habits, cuts } = pedalFacts(analysed(piece), []);
    for (const { blur, overlapS, gapS, soundS, untilS, certainty } of changes) {
      for (const value of [blur, overlapS, gapS, soundS, untilS, certainty]) expect(Number.isFinite(value)).toBe(true);
      expect(blur >= 0 && blur <= 1 && untilS >= soundS).toBe(true);
    }
    for (const { blur } of smears) expect(blur > 0 && blur <= 1).toBe(true);
    for (const { liftS } of cuts) expect(Number.isFinite(liftS)).toBe(true);
    expect(habits.downShare >= 0 && habits.downShare <= 1).toBe(true);
    expect(habits.lifted).toBeLessThanOrEqual(habits.reachedDown);
  });
});
