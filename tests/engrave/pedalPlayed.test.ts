import { describe, expect, it } from 'vitest';
import { pedalPlayed, type Lane } from '../../src/engrave/index.js';
import type { PedalChange, PedalSmear } from '../../src/measure/index.js';
import type { ControlPoint } from '../../src/recording/index.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { engraving, headAt, material, occurrence, pressed, visit } from './playing.js';

const system = engraving.systems[0] ?? (() => { throw new RangeError('no system'); })();

/** Bar 1 is played from 1 s on, one of its four crotchets a second; bar 2 never comes. */
function lane(sustain: readonly ControlPoint[], changes: readonly PedalChange[] = [], smears: readonly PedalSmear[] = []): Lane {
  const ids = ['top-line', 'bottom-line', 'middle-c', 'middle-line'];
  const of = material({
    notes: ids.map((_, i) => pressed(i, 1 + 2 * i, 60)),
    alignment: { pairs: ids.map((id, note) => ({ occurrence: occurrence(id), note, stretch: 0, attempt: 1, octaveSlip: 0 })) },
    measures: { bars: [{ ...visit(0), startS: 1, endS: 7 }], pedal: { ...NO_MEASURES.pedal, changes, smears } },
  });
  return pedalPlayed(system, { ...of, recording: { ...of.recording, sustain } }, () => ({ title: 'E of the old harmony rings on', number: 2 }));
}

const line = ({ svg }: Lane): string => /class="foot-line" d="([^"]+)"/.exec(svg)?.[1] ?? '';

describe('the foot under a system', () => {
  it('stands low while the pedal is down and high where it is up, and goes under the note at which it moved', () => {
    // down as the second note sounds (3 s), up as the third does (5 s)
    const path = line(lane([{ timeS: 3, value: 127 }, { timeS: 5, value: 0 }]));
    const [down, up] = [headAt('bottom-line').x, headAt('middle-c').x].map((x) => `H${Number(x.toFixed(2))}`);
    expect(path).toContain(`${down}V24`);
    expect(path).toContain(`${up}V6`);
  });

  it('takes the height between for a half pedal: 6 + 18 × 64 / 127 = 15.07', () => {
    expect(line(lane([{ timeS: 3, value: 64 }]))).toContain('V15.07');
  });

  it('knows where the foot was before the system began', () => {
    expect(line(lane([{ timeS: 0.2, value: 127 }]))).toMatch(/^M[\d.]+ 24H/);
  });

  it('hatches a blur with its sentence, closer where it is worse, and nothing that is slight', () => {
    const blur = (value: number): PedalChange => ({
      stretch: 0, visitIndex: 0, tick: 0, untilTick: 1, writtenTick: 0, harmony: 0, certainty: 1, soundS: 3, untilS: 7, foot: 'held', liftS: null, pressS: null, gapS: 0, bass: null,
      carried: [], overlapS: 3, blur: value, blurParts: { heldOver: value, caught: 0 }, roughness: null, course: [],
    });
    const strokes = (value: number): number => (/class="blur".*?d="([^"]+)"/.exec(lane([], [blur(value)]).svg)?.[1] ?? '').split('M').length - 1;
    expect(lane([], [blur(0.5)]).svg).toContain('<title>E of the old harmony rings on</title>');
    expect(lane([], [blur(0.5)]).svg).toContain('aria-hidden="true">2</text>');
    expect(strokes(0.9)).toBeGreaterThan(strokes(0.3));
    expect(strokes(0.3)).toBeGreaterThan(0);
    expect(lane([], [blur(0.1)]).svg).not.toContain('class="blur"');
  });

  it('hatches what rings on inside one harmony only where it is plain', () => {
    const smear = (value: number): PedalSmear => ({
      stretch: 0, visitIndex: 0, tick: 0, writtenTick: 0, harmony: 0, soundS: 3, untilS: 7, carried: [], overlapS: 3, blur: value, blurParts: { heldOver: value, caught: 0 }, roughness: null, course: [],
    });
    expect(lane([], [], [smear(0.4)]).svg).toContain('class="blur"');
    expect(lane([], [], [smear(0.39)]).svg).not.toContain('class="blur"');
  });

  it('a system of which nothing was matched has no lane', () => {
    expect(pedalPlayed(system, material({}), () => ({ title: '', number: null })).heightPx).toBe(0);
  });
});
