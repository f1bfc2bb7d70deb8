import { describe, expect, it } from 'vitest';
import { CLEAR_DB, clearingS, damperRate, firstRate, freeRate, KNEE_DB } from '../../src/measure/decay.js';
import { contactOf, contacts, footDowns, isDownAt } from '../../src/measure/footCurve.js';
import { levelAt, levelIfDamped, ringsOf, SILENT_DB, silentFrom, type Ring } from '../../src/measure/ringing.js';
import { levelDbOf } from '../../src/measure/velocityLevel.js';
import type { ControlPoint, RecordedNote, Recording } from '../../src/recording/index.js';

interface Key {
  readonly pitch: number;
  readonly fromS: number;
  readonly toS: number;
  readonly velocity?: number;
}

function recordingOf(keys: readonly Key[], pedals: Partial<Pick<Recording, 'sustain' | 'sostenuto'>> = {}): Recording {
  const notes = keys.map(({ pitch, fromS, toS, velocity = 127 }, index): RecordedNote => ({ index, onsetS: fromS, releaseS: toS, pitch, velocity, releaseVelocity: null, hanging: false }));
  return { notes, sustain: [], sostenuto: [], soft: [], durationS: 20, limits: [], ...pedals };
}

function ring(key: Key, pedals: Parameters<typeof recordingOf>[1] = {}, ...more: readonly Key[]): Ring {
  const found = ringsOf(recordingOf([key, ...more], pedals))[0];
  if (found === undefined) throw new RangeError('no note');
  return found;
}

const DOWN: readonly ControlPoint[] = [{ timeS: 0, value: 127 }];
const KEYBOARD = Array.from({ length: 88 }, (_, i) => 21 + i);

describe('decay', () => {
  it('the higher the string, the faster it fades', () => {
    KEYBOARD.slice(1).forEach((midi) => { expect(firstRate(midi)).toBeGreaterThan(firstRate(midi - 1)); });
  });

  // Fletcher and Rossing, from memory: bass few dB/s, middle 5-15, top octave 50 and more (its end; the octave begins at 97)
  it('has the orders of magnitude of the literature', () => {
    expect(firstRate(28)).toBeLessThan(5);
    for (const midi of [48, 60, 66]) expect(firstRate(midi) >= 5 && firstRate(midi) <= 15).toBe(true);
    expect(firstRate(104)).toBeGreaterThan(50);
  });

  it('slows down once the first stage is over', () => {
    expect(freeRate(60, KNEE_DB)).toBeLessThan(freeRate(60, KNEE_DB - 0.001));
  });

  // teachers' common practice: low bass 0.2-0.3 s, treble 0.1 s
  it('dampers clear the bass more slowly than the treble', () => {
    for (const midi of [24, 30, 36, 43]) expect(clearingS(midi) >= 0.2 && clearingS(midi) <= 0.3).toBe(true);
    for (const midi of [72, 80, 88]) expect(clearingS(midi)).toBeCloseTo(0.1, 10);
    KEYBOARD.slice(1).forEach((midi) => { expect(clearingS(midi)).toBeLessThanOrEqual(clearingS(midi - 1)); });
  });

  // a piano technician's page: dampers end at MIDI 88, on some pianos at 94; from 95 on nothing is damped
  it('the highest strings have no dampers', () => {
    expect(damperRate(88)).toBeCloseTo(CLEAR_DB / 0.1, 8);
    for (const midi of [89, 94, 95, 108]) expect(damperRate(midi)).toBe(0);
  });
});

describe('the dampers', () => {
  it.each([[0, 1], [32, 1], [48, 0.5], [56, 0.25], [63, 0], [64, 0], [127, 0]])('at controller value %d: contact %d', (value, contact) => {
    expect(contactOf(value)).toBe(contact);
  });

  it('a step only where contact changes', () => {
    expect(contacts([{ timeS: 1, value: 5 }, { timeS: 2, value: 70 }, { timeS: 3, value: 120 }, { timeS: 4, value: 0 }])).toEqual([{ timeS: -Infinity, contact: 1 }, { timeS: 2, contact: 0 }, { timeS: 4, contact: 1 }]);
  });

  it('the foot is down from 48 on', () => {
    const downs = footDowns([{ timeS: 1, value: 47 }, { timeS: 2, value: 48 }, { timeS: 3, value: 90 }, { timeS: 4, value: 47 }, { timeS: 6, value: 127 }], 9);
    expect(downs).toEqual([{ fromS: 2, toS: 4, depth: 90 }, { fromS: 6, toS: 9, depth: 127 }]);
    expect([1.9, 2, 3.9, 4, 6, 8].map((timeS) => isDownAt(downs, timeS))).toEqual([false, true, true, false, true, true]);
  });
});

describe('ringing', () => {
  it('begins at the level of the stroke and only falls', () => {
    const one = ring({ pitch: 60, fromS: 1, toS: 2, velocity: 64 }, { sustain: [{ timeS: 1.5, value: 127 }, { timeS: 3, value: 50 }, { timeS: 3.2, value: 80 }, { timeS: 5, value: 0 }] });
    expect(levelAt(one, 1)).toBeCloseTo(levelDbOf(64), 10);
    expect(levelAt(one, 0.999)).toBe(-Infinity);
    const levels = Array.from({ length: 600 }, (_, i) => levelAt(one, 1 + i / 100));
    levels.slice(1).forEach((level, i) => { expect(level).toBeLessThanOrEqual(levels[i] ?? 0); });
  });

  // middle C: 2.5 · 24^(39/87) = 10.4 dB/s; damped 30 dB in 0.3 − 0.2 · 36/48 = 0.15 s = 200 dB/s.
  // From -10.39 the knee at -12 comes 1.61/210.4 = 0.0077 s after the release, the other 0.0923 s take 203.5 dB/s: −12 − 18.79
  it('key alone: free to the release, then damped', () => {
    const one = ring({ pitch: 60, fromS: 0, toS: 1 });
    expect(levelAt(one, 1)).toBeCloseTo(-10.39, 1);
    expect(levelAt(one, 1.1)).toBeCloseTo(-30.79, 1);
    expect(levelAt(one, 1.3)).toBe(-Infinity);
  });

  // 12 dB after 12/10.39 = 1.155 s, then a third of the rate, 3.46 dB/s: after 3 s −12 − 1.845 · 3.46 = −18.4
  it('under the pedal: two stages', () => {
    expect(levelAt(ring({ pitch: 60, fromS: 0, toS: 0.2 }, { sustain: DOWN }), 3)).toBeCloseTo(-18.4, 1);
  });

  // half way (value 48) the dampers touch with contact 1/2, a quarter of the full rate: 50 + 10.4 dB/s over 0.1 s
  it('half pedal: free, fast, slow again', () => {
    const one = ring({ pitch: 60, fromS: 0, toS: 0.1 }, { sustain: [{ timeS: 0, value: 127 }, { timeS: 0.2, value: 48 }, { timeS: 0.3, value: 127 }] });
    expect(levelAt(one, 0.2) - levelAt(one, 0.3)).toBeCloseTo(6.04, 1);
    expect(levelAt(one, 0.1) - levelAt(one, 0.2)).toBeCloseTo(1.04, 1);
    expect(levelAt(one, 0.3) - levelAt(one, 0.4)).toBeCloseTo(1.04, 1);
  });

  it('a key struck again ends the sound it had', () => {
    const one = ring({ pitch: 60, fromS: 0, toS: 0.2 }, { sustain: DOWN }, { pitch: 60, fromS: 1, toS: 1.2 });
    expect(silentFrom(one)).toBe(1);
    expect(levelAt(one, 1)).toBe(-Infinity);
    expect(levelAt(one, 0.999)).toBeGreaterThan(SILENT_DB);
  });

  it('the sostenuto holds what was down when it came, and nothing else', () => {
    const sostenuto = [{ timeS: 0.5, value: 127 }, { timeS: 4, value: 0 }];
    expect(ring({ pitch: 48, fromS: 0, toS: 1 }, { sostenuto }).letGoS).toBe(4);
    expect(ring({ pitch: 48, fromS: 0.6, toS: 1 }, { sostenuto }).letGoS).toBe(1);
    expect(ring({ pitch: 48, fromS: 0, toS: 0.4 }, { sostenuto }).letGoS).toBe(0.4);
  });

  it('from MIDI 89 on the foot makes no difference', () => {
    const [dry, wet] = [ring({ pitch: 89, fromS: 0, toS: 0.1 }), ring({ pitch: 89, fromS: 0, toS: 0.1 }, { sustain: DOWN })];
    for (const timeS of [0.1, 0.3, 0.8]) expect(levelAt(dry, timeS)).toBe(levelAt(wet, timeS));
    expect(levelAt(ring({ pitch: 88, fromS: 0, toS: 0.1 }), 0.5)).toBe(-Infinity);
  });

  it('had the damper fallen earlier, the note would have gone then', () => {
    const one = ring({ pitch: 60, fromS: 0, toS: 0.2 }, { sustain: DOWN });
    expect(levelIfDamped(one, 1, 0.9)).toBe(levelAt(one, 0.9));
    // 0.1 s at 200 dB/s
    expect(levelIfDamped(one, 1, 1.1)).toBeCloseTo(levelAt(one, 1) - 20, 6);
    expect(levelIfDamped(one, 1, 1.3)).toBe(-Infinity);
  });
});
