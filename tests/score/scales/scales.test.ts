import { describe, expect, it } from 'vitest';
import { readScore, SCALE_KINDS, scaleProblem, scaleTitle, scaleXml, TONICS, type Score, type ScalePlan } from '../../../src/score/index.js';

const PLAN: ScalePlan = { tonic: 'C', kind: 'major', octaves: 1, hands: 'right', tempo: 80, notesPerBeat: 4, touch: 'plain' };

const made = (plan: Partial<ScalePlan>): Score => readScore(new TextEncoder().encode(scaleXml({ ...PLAN, ...plan })), { fileName: 'scale.musicxml' });
const sounding = (score: Score, staff: number): readonly number[] => score.occurrences.filter((one) => one.staff === staff).map(({ midi }) => midi);
/** Names with their signs, as printed. */
const spelled = (plan: Partial<ScalePlan>): string => {
  const { notes, occurrences } = made(plan);
  return occurrences.map(({ noteIndex }) => notes[noteIndex]!.pitch).map(({ step, alter }) => step + ({ [-2]: 'bb', [-1]: 'b', 0: '', 1: '#', 2: '##' }[alter] ?? '?')).join(' ');
};

describe('a scale as a score', () => {
  it('goes up and down with the top once', () => {
    expect(sounding(made({}), 1)).toEqual([60, 62, 64, 65, 67, 69, 71, 72, 71, 69, 67, 65, 64, 62, 60]);
  });

  // common practice: any textbook of scales
  it.each([
    [{ tonic: 'G', kind: 'harmonicMinor' }, 'G A Bb C D Eb F# G F# Eb D C Bb A G'],
    [{ tonic: 'A', kind: 'melodicMinor' }, 'A B C D E F# G# A G F E D C B A'],
    [{ tonic: 'E', kind: 'naturalMinor' }, 'E F# G A B C D E D C B A G F# E'],
    [{ tonic: 'G#', kind: 'harmonicMinor' }, 'G# A# B C# D# E F## G# F## E D# C# B A# G#'],
    [{ tonic: 'Eb', kind: 'majorArpeggio' }, 'Eb G Bb Eb Bb G Eb'],
    [{ tonic: 'B', kind: 'minorArpeggio' }, 'B D F# B F# D B'],
    [{ tonic: 'G', kind: 'dominantSeventh' }, 'G B D F G F D B G'],
    [{ tonic: 'B', kind: 'diminishedSeventh' }, 'B D F Ab B Ab F D B'],
    [{ tonic: 'D', kind: 'chromatic' }, 'D D# E F F# G G# A A# B C C# D Db C B Bb A Ab G Gb F E Eb D'],
  ] as const)('%o is spelled %s', (plan, names) => expect(spelled(plan)).toBe(names));

  it('has both hands an octave apart, or away from one another', () => {
    const together = made({ hands: 'together', octaves: 2 });
    expect(sounding(together, 2)).toEqual(sounding(together, 1).map((midi) => midi - 12));
    const contrary = made({ hands: 'contrary' });
    // mirrored in pitch only for the dorian scale; both begin and end on middle C and meet an octave away
    expect([sounding(contrary, 1)[0], sounding(contrary, 2)[0], sounding(contrary, 1)[7], sounding(contrary, 2)[7]]).toEqual([60, 60, 72, 48]);
  });

  it('holds its last note to the end of its beat and rests from there, whatever the values', () => {
    for (const notesPerBeat of [1, 2, 3, 4] as const) {
      for (const octaves of [1, 2, 3, 4]) {
        const score = made({ notesPerBeat, octaves });
        const last = score.occurrences.at(-1)!;
        const crotchet = score.ticksPerQuarter;
        expect([last.endTick % crotchet, last.endTick - last.onsetTick <= crotchet], `${notesPerBeat} to a beat, ${octaves} octaves`).toEqual([0, true]);
        expect(score.warnings).toEqual([]);
        for (const { lengthTicks, nominalTicks } of score.bars) expect(lengthTicks).toBe(nominalTicks);
      }
    }
  });

  it('can be read in every key that can be printed, within the keyboard', () => {
    for (const tonic of TONICS) {
      for (const kind of SCALE_KINDS) {
        const plan: ScalePlan = { ...PLAN, tonic, kind, octaves: 4, hands: 'together' };
        if (scaleProblem(plan) !== null) continue;
        const pitches = made(plan).occurrences.map(({ midi }) => midi);
        expect([Math.min(...pitches) >= 21, Math.max(...pitches) <= 108], `${tonic} ${kind}`).toEqual([true, true]);
      }
    }
  });

  it('carries tempo, slurs and dots', () => {
    expect(made({ tempo: 96 }).directions.find(({ kind }) => kind === 'tempo')?.value).toBe(96);
    expect(made({ touch: 'staccato' }).notes.slice(0, -1).every(({ articulations }) => articulations.includes('staccato'))).toBe(true);
    expect(made({ touch: 'legato' }).notes.flatMap(({ slurs }) => slurs.map(({ kind }) => kind))).toEqual(['start', 'stop', 'start', 'stop']);
  });

  it('refuses what cannot be played or printed', () => {
    expect(() => scaleXml({ ...PLAN, octaves: 5 })).toThrow(RangeError);
    expect(() => scaleXml({ ...PLAN, tempo: 400 })).toThrow(RangeError);
    expect(() => scaleXml({ ...PLAN, tonic: 'G#', kind: 'major' })).toThrow(RangeError);
    expect(() => scaleXml({ ...PLAN, tonic: 'H' })).toThrow(RangeError);
    expect(() => scaleXml({ ...PLAN, hands: 'contrary', octaves: 4 })).toThrow(RangeError);
  });

  it('is named as a teacher names it', () => {
    expect(scaleTitle({ ...PLAN, tonic: 'Eb', octaves: 2, hands: 'together', touch: 'legato' })).toBe('E flat major, two octaves, hands together, legato');
    expect(scaleTitle({ ...PLAN, tonic: 'F#', kind: 'chromatic' })).toBe('Chromatic scale on F sharp, one octave, right hand');
  });
});
