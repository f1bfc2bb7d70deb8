/** Words on the pedals: "con pedale", "senza pedale", "una corda", "tre corde". One chord a bar, a crotchet of 0.6 s, so a bar of 2.4 s. */
import { describe, expect, it } from 'vitest';
import type { Direction } from '../../src/score/index.js';
import { chorale, judged, legato, namesOf, type ChordName, type Movement, type Playing } from './pedalPiece.js';
import { TICKS } from '../measure/piece.js';

const CHORDS: readonly ChordName[] = ['C', 'F', 'G', 'C', 'Am', 'Dm', 'G', 'C'];
const BARS = CHORDS.length;
const written = chorale(CHORDS, 'held');
const crotchetS = 0.6;

/** Words at the beginning of a bar, from 1. */
const words = (bar: number, text: string): Pick<Direction, 'kind' | 'text' | 'onsetTick' | 'untilTick'> => ({ kind: 'words', text, onsetTick: (bar - 1) * 4 * TICKS, untilTick: null });

/** What is said, with where. */
const said = (playing: Pick<Playing, 'foot'> & Partial<Playing>): readonly string[] => judged({ written, crotchetS, ...playing }).observations.map(({ text }) => text);

/** The left foot down from one bar to another, from 1, the second exclusive. */
const soft = (from: number, to: number): readonly Movement[] => [{ bar: from, afterS: -0.1, value: 127 }, { bar: to, afterS: -0.1, value: 0 }];

describe('con pedale', () => {
  it('not used at all is one remark on all of its bars', () => {
    expect(said({ foot: [], marks: [words(1, 'con pedale')] })).toEqual(['Bars 1–8: "con pedale" is marked, and the foot never goes down.']);
  });

  it('holds from its bar on; two bars in a row of four seconds and more count', () => {
    // the foot is lifted in bar 6 and not taken again: bars 6, 7 and 8 are dry
    const left = judged({ written, crotchetS, foot: [...legato(1, 5), { bar: 6, afterS: 0.02, value: 0 }], marks: [words(3, 'con ped.')] });
    expect(namesOf(left)).toEqual(['notUsed 6']);
    expect(left.observations[0]?.places[0]).toMatchObject({ fromBar: 5, toBar: 7 });
  });

  it('one dry bar is a choice', () => {
    expect(said({ foot: [...legato(1, 4), { bar: 5, afterS: 0.02, value: 0 }, ...legato(6, BARS).slice(1)], marks: [words(1, 'con pedale')] })).toEqual([]);
  });

  it('used, nothing is said', () => {
    expect(said({ foot: legato(1, BARS), marks: [words(1, 'con pedale')] })).toEqual([]);
  });

  it('where the teacher plans none, none is wanting', () => {
    expect(said({ foot: [], marks: [words(1, 'con pedale')], planned: [{ barIndex: 0, offset: 0, kind: 'none' }] })).toEqual([]);
  });
});

describe('senza pedale', () => {
  it('used nevertheless', () => {
    const found = judged({ written, crotchetS, foot: legato(1, BARS), marks: [words(1, 'con pedale'), words(5, 'senza pedale')] });
    expect(found.observations.map(({ kind }) => kind)).toEqual(['notDry']);
    expect(found.observations[0]?.text).toMatch(/^Bar [5-8]: no pedal is marked here, and the foot is down\.$/);
  });

  it('kept, nothing is said', () => {
    expect(said({ foot: [...legato(1, 4), { bar: 5, afterS: 0.02, value: 0 }], marks: [words(1, 'con pedale'), words(5, 'senza ped.')] })).toEqual([]);
  });
});

describe('una corda', () => {
  const foot = legato(1, BARS);
  const marks = [words(3, 'una corda'), words(5, 'tre corde')];

  it('followed, nothing is said', () => {
    expect(said({ foot, marks, soft: soft(3, 5) })).toEqual([]);
  });

  it('not used, by somebody who has a soft pedal', () => {
    expect(said({ foot, marks, soft: soft(7, 8) })).toEqual(['Bars 3–4: "una corda" is marked, and the soft pedal stays up.']);
  });

  it('nothing is said where no soft pedal was ever sent', () => {
    expect(said({ foot, marks })).toEqual([]);
  });

  it('still down after tre corde', () => {
    expect(said({ foot, marks, soft: soft(3, 8) })).toEqual(['Bars 5–6: "tre corde" is marked, and the soft pedal is still down.']);
  });

  it('lifted half a bar late, nothing is said', () => {
    expect(said({ foot, marks, soft: [{ bar: 3, afterS: -0.1, value: 127 }, { bar: 5, afterS: 1.2, value: 0 }] })).toEqual([]);
  });
});
