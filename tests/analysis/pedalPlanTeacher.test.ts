import { describe, expect, it } from 'vitest';
import { analyseScore, editPlan, planTicks, plannedOf, readTeachersPlan, withTeachersPlan, type PlanEdit, type TeachersPlan } from '../../src/analysis/index.js';
import { InputError } from '../../src/base/index.js';
import type { Score } from '../../src/score/index.js';
import { score } from '../align/build.js';
import { direction } from '../score/build.js';

const foot = (type: string): string => direction(`<pedal type="${type}" line="yes"/>`);

/** Four bars of 4/4: pedal marked over bars 1 and 2 with a change between; two bars without a mark are longer than a released gap, and dry. */
const written = score([{ left: 'C3/4', before: foot('start') }, { left: 'F3/4', before: foot('change'), after: foot('stop') }, { left: 'C3/4' }, { left: 'C4 C4 C4 C4' }]);
const analysis = analyseScore(written);
const own = plannedOf(analysis.pedalPlan);
const bar = (number: number, crotchets = 0): number => (written.bars[number - 1]?.startTick ?? NaN) + crotchets * written.ticksPerQuarter;

/** "2+1.5 pedal": every point. */
const said = (planned: TeachersPlan): readonly string[] => planned.map(({ barIndex, offset, kind }) => `${barIndex + 1}${offset === 0 ? '' : `+${offset}`} ${kind}`);
const entriesOf = (planned: TeachersPlan, of: Score = written): readonly string[] =>
  withTeachersPlan(of, analysis, planned).pedalPlan.entries.map(({ barIndex, offset, kind, source }) => `${barIndex + 1}${offset === 0 ? '' : `+${offset}`} ${kind} ${source}`);
const after = (...edits: readonly PlanEdit[]): TeachersPlan => edits.reduce((planned, edit) => editPlan(written, planned, edit), own);

describe('a plan as the teacher’s own', () => {
  it('is the program’s as long as she changes nothing', () => {
    expect(said(own)).toEqual(['1 pedal', '2 pedal', '3 none']);
    expect(withTeachersPlan(written, analysis, own).pedalPlan).toEqual(analysis.pedalPlan);
  });

  it('keeps the source of what she left, and takes the rest for hers', () => {
    expect(entriesOf(after({ act: 'set', atTick: bar(4), kind: 'pedal', untilTick: null }))).toEqual(['1 down printed', '2 change printed', '3 none harmony', '4 down teacher']);
  });

  it('holds what came before where she takes a change away', () => {
    const { entries } = withTeachersPlan(written, analysis, after({ act: 'remove', atTick: bar(2) })).pedalPlan;
    expect(entries.map(({ fromTick, toTick, kind, source }) => [fromTick, toTick, kind, source])).toEqual([[bar(1), bar(3), 'down', 'teacher'], [bar(3), bar(4, 4), 'none', 'harmony']]);
  });

  it('leaves no gaps, and ends with the piece', () => {
    const { entries } = withTeachersPlan(written, analysis, [{ barIndex: 1, offset: 2, kind: 'ring' }]).pedalPlan;
    expect(entries.map(({ fromTick, toTick, kind }) => [fromTick, toTick, kind])).toEqual([[0, bar(2, 2), 'none'], [bar(2, 2), bar(4, 4), 'ring']]);
  });

  it('leaves out what a later score has no place for', () => {
    expect(entriesOf([...own, { barIndex: 9, offset: 0, kind: 'ring' }, { barIndex: 3, offset: 4, kind: 'ring' }])).toEqual(entriesOf(own));
  });

  it('calls a press while the foot is down a change, and gives the dampers time', () => {
    const { entries } = withTeachersPlan(written, analysis, after({ act: 'set', atTick: bar(1, 2), kind: 'pedal', untilTick: null })).pedalPlan;
    // C3 is MIDI 48: between 48 and 59 a fifth to a quarter of a second, below it longer
    expect(entries[1]).toMatchObject({ kind: 'change', source: 'teacher', barIndex: 0, offset: 2 });
    expect(entries[1]?.clearS).toBeGreaterThan(0);
    expect(entries[0]?.clearS).toBeNull();
  });

  it('is told in the teaching notes', () => {
    const notes = (planned: TeachersPlan): string => withTeachersPlan(written, analysis, planned).notes.beforeTeaching.map(({ text }) => text).join(' ');
    expect(notes(own)).not.toContain('the plan proposes it too');
    expect(notes(after({ act: 'set', atTick: bar(4), kind: 'pedal', untilTick: null }))).toContain('the plan proposes it too in bar 4');
  });
});

describe('one change of the plan', () => {
  it('sets something up to the next point, or over a stretch after which all goes on as before', () => {
    expect(said(after({ act: 'set', atTick: bar(3), kind: 'ring', untilTick: null }))).toEqual(['1 pedal', '2 pedal', '3 ring']);
    expect(said(after({ act: 'set', atTick: bar(1, 2), kind: 'none', untilTick: bar(2, 1) }))).toEqual(['1 pedal', '1+2 none', '2+1 pedal', '3 none']);
    expect(said(after({ act: 'set', atTick: bar(2), kind: 'ring', untilTick: bar(4) }))).toEqual(['1 pedal', '2 ring', '4 none']);
  });

  it('says nothing twice: a foot that is up is not lifted', () => {
    expect(said(after({ act: 'set', atTick: bar(3), kind: 'none', untilTick: null }, { act: 'set', atTick: bar(4), kind: 'none', untilTick: null }))).toEqual(['1 pedal', '2 pedal', '3 none']);
  });

  it('moves a point between its neighbours', () => {
    expect(said(after({ act: 'move', atTick: bar(3), toTick: bar(2, 3) }))).toEqual(['1 pedal', '2 pedal', '2+3 none']);
    for (const toTick of [bar(2), bar(1), bar(4, 4), -1, bar(2) + 0.5]) {
      expect(() => after({ act: 'move', atTick: bar(3), toTick })).toThrow(expect.objectContaining({ name: 'InputError', code: 'bad-value' }));
    }
  });

  it('knows what is there: the beginning stays, what has gone is gone', () => {
    expect(() => after({ act: 'remove', atTick: 0 })).toThrow(expect.objectContaining({ code: 'bad-value' }));
    expect(() => after({ act: 'move', atTick: 0, toTick: bar(1, 1) })).toThrow(expect.objectContaining({ code: 'bad-value' }));
    expect(() => after({ act: 'remove', atTick: bar(4) })).toThrow(expect.objectContaining({ code: 'not-found' }));
    expect(() => after({ act: 'set', atTick: bar(3), kind: 'ring', untilTick: bar(3) })).toThrow(InputError);
  });
});

describe('places for changes', () => {
  it('are the beats and the onsets', () => {
    expect(planTicks(written)).toEqual([1, 2, 3, 4].flatMap((number) => [0, 1, 2, 3].map((beat) => bar(number, beat))));
    const off = score([{ left: 'C4/1.5 C4/2.5' }]);
    expect(planTicks(off).map((tick) => tick / off.ticksPerQuarter)).toEqual([0, 1, 1.5, 2, 3]);
  });
});

describe('a plan from outside', () => {
  it('is read as it was written', () => {
    expect(readTeachersPlan(JSON.parse(JSON.stringify(own)))).toEqual(own);
  });

  it.each([
    [{}], ['pedal'], [[null]], [[{ barIndex: -1, offset: 0, kind: 'ring' }]], [[{ barIndex: 0.5, offset: 0, kind: 'ring' }]],
    [[{ barIndex: 0, offset: Infinity, kind: 'ring' }]], [[{ barIndex: 0, offset: '0', kind: 'ring' }]], [[{ barIndex: 0, offset: 0, kind: 'half' }]], [[{ offset: 0, kind: 'up' }]],
  ])('is refused: %j', (value) => {
    expect(() => readTeachersPlan(value)).toThrow(expect.objectContaining({ name: 'InputError', code: 'bad-value' }));
  });
});
