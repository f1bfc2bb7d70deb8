import { describe, expect, it } from 'vitest';
import { chorale, judged, legato, marked, type ChordName, type Playing } from './pedalPiece.js';
import { pedalInWords, pedalReport } from '../../src/review/index.js';
import { inputOf } from './pedalPiece.js';
import { judgePedal } from '../../src/judge/pedal.js';

const CHORDS: readonly ChordName[] = ['C', 'F', 'G', 'C', 'Am', 'Dm', 'G', 'C'];
const written = chorale(CHORDS, 'held');
const keyS = (_: unknown, writtenS: number): number => 0.5 * writtenS;
const clean: Playing = { written, crotchetS: 0.6, foot: legato(1, 8), keyS };
const held: Playing = { ...clean, foot: legato(1, 8).filter(({ bar }) => bar !== 3) };

function told(playing: Playing): readonly string[] {
  return judged(playing).observations.map(({ text, advice }) => `${text} ${advice}`.trim());
}

describe('sentences', () => {
  // bar 2 is F major over the low F (41), bar 3 G major over G (43): the F lies under the new bass
  it('a blur names the old note, the new bass and what to do', () => {
    expect(told(held)).toEqual(["Bar 3: the old F rings on under the left hand's G. Foot up as G sounds, down again when it is clear."]);
  });

  // bar 3 is G major, bar 4 C major over a lower C: B and D jar above it
  it('notes above the new bass ring on into its chord', () => {
    expect(told({ ...clean, foot: legato(1, 8).filter(({ bar }) => bar !== 4) })).toEqual([expect.stringMatching(/^Bar 4: the old (B|D) and (B|D) ring on into C major\. Foot up as C sounds, down again when it is clear\.$/)]);
  });

  it('several blurs are told once, the worst by its notes', () => {
    const foot = legato(1, 8).filter(({ bar }) => bar !== 3 && bar !== 6);
    expect(told({ ...clean, foot })).toEqual([expect.stringMatching(/^Bars 3 and 6: the old harmony rings on into the new one\. In bar (3|6) the old .+\. Foot up as the new chord sounds, down again when it is clear\.$/)]);
  });

  it('a caught chord', () => {
    const foot = [...legato(1, 8).filter(({ bar }) => bar !== 3), { bar: 3, afterS: 0.01, value: 0 }, { bar: 3, afterS: 0.09, value: 127 }];
    expect(told({ ...clean, foot })).toEqual([expect.stringMatching(/^Bar 3: the pedal goes down before the old sound is gone and catches the .+\. Let the new chord sound by itself, then press\.$/)]);
  });

  it('a marked pedal that is not used', () => {
    const foot = [...legato(1, 2), { bar: 3, afterS: 0.02, value: 0 }];
    expect(told({ ...clean, keyS: (_, writtenS) => writtenS, foot, marks: CHORDS.map((_, i) => marked(i + 1, i + 1)) })).toEqual(['Bars 3–8: the pedal is marked and not used. Left hand and foot first, then both hands.']);
  });

  it('no decimals, no program words', () => {
    for (const text of told(held)) expect(text).not.toMatch(/\d\.\d|CC|MIDI|threshold|value|event/);
  });
});

describe('the list of changes', () => {
  it('has what belongs to no change after them', () => {
    // una corda in bars 3 and 4 of a clean pedal, by somebody whose soft pedal is used in bar 6 alone; the words stand a crotchet into the bar
    const marks = [{ kind: 'words', text: 'una corda', onsetTick: 9 * 480, untilTick: null }, { kind: 'words', text: 'tre corde', onsetTick: 16 * 480, untilTick: null }] as const;
    const soft = [{ bar: 6, afterS: 0, value: 127 }, { bar: 6, afterS: 1, value: 0 }];
    expect(pedalInWords(inputOf({ ...clean, marks, soft }))).toMatch(/\n\nBetween the changes\nBars 3–4: una corda not used\n$/);
    expect(pedalInWords(inputOf(clean))).not.toContain('Between the changes');
  });
});

describe('the aspect as a whole', () => {
  it('clean pedal is praised and causes no concern', () => {
    const { concern, summary, observations, praise = [] } = judged(clean);
    expect(observations).toEqual([]);
    expect(summary).toBe('The pedal is clean.');
    expect(concern).toEqual({ measured: true, value: 0 });
    expect(praise.map(({ text }) => text)).toEqual(['Bars 2–8: the pedal is clean, changed with every harmony.']);
  });

  it('a clean stretch among many blurs is no praise, beside one it is', () => {
    // sixteen bars: changes 2-8 are clean, seven of them; then the foot leaves out one, or three and so more than a third of seven
    const written = chorale([...CHORDS, ...CHORDS], 'held');
    const without = (...bars: readonly number[]): readonly string[] => (judged({ ...clean, written, foot: legato(1, 16).filter(({ bar }) => !bars.includes(bar)) }).praise ?? []).map(({ text }) => text);
    expect(without(10)).toHaveLength(1);
    expect(without(10, 12, 14)).toEqual([]);
  });

  it('more blur, more concern', () => {
    const concerns = [[], [3], [3, 6], [2, 3, 6, 7]].map((bars) => judged({ ...clean, foot: legato(1, 8).filter(({ bar }) => !bars.includes(bar)) }).concern);
    const values = concerns.map((one) => (one.measured ? one.value : -1));
    values.slice(1).forEach((value, i) => { expect(value).toBeGreaterThan(values[i] ?? 1); });
  });

  it('a pedal that was guessed from the sound is half as sure', () => {
    const input = inputOf(held);
    const guessed = { ...input, recording: { ...input.recording, limits: [{ kind: 'guessed-pedal', text: '' } as const] } };
    expect(judgePedal(guessed).observations[0]?.confidence).toBeCloseTo(0.5 * (judgePedal(input).observations[0]?.confidence ?? 0), 10);
  });

  it('without pedal data nothing is said, unless a pedal is marked', () => {
    const nothing = { kind: 'no-pedal', text: 'The recording holds no pedal.' } as const;
    const input = inputOf({ ...clean, foot: [] });
    const dry = { ...input, recording: { ...input.recording, limits: [nothing] } };
    expect(pedalInWords(dry)).toContain('no pedal');
    expect(judged({ ...clean, foot: [], marks: [marked(1, 8)] }).observations.map(({ kind }) => kind)).toEqual(['notUsed']);
  });
});

describe('change by change', () => {
  it('one line a change, in words and numbers', () => {
    const lines = pedalInWords(inputOf(held)).split('\n');
    expect(lines.filter((line) => line.startsWith('Bar '))).toHaveLength(8);
    expect(lines).toContainEqual(expect.stringMatching(/^Bar 2, beat 1: F major; up 0\.02 s after the chord, down 0\.26 s after the chord$/));
    expect(lines).toContainEqual(expect.stringMatching(/^Bar 3, beat 1: G major; pedal held down; the old .+ still sound for \d\.\d\d s, about .+ - blurred$/));
    expect(lines).toContain('As a rule up 0.02 s after the chord, down 0.26 s after the chord.');
  });

  it('the same for programs', () => {
    const { format, changes } = pedalReport(inputOf(held));
    expect(format).toBe('barwise-pedal/1');
    expect(changes.map(({ bar, findings }) => [bar, ...findings])).toEqual([['1'], ['2'], ['3', 'blurred'], ['4'], ['5'], ['6'], ['7'], ['8']]);
    expect(changes[1]).toMatchObject({ pass: 1, offset: 0, chord: 'F major', foot: 'changed', lift: 0.02, press: 0.26, carried: [], blur: 0, roughness: null, gap: 0 });
  });
});
