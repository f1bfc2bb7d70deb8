/** The teacher's own plan in the judgement: C and F alternate, one chord a bar; the foot changes cleanly but for what each case says. */
import { describe, expect, it } from 'vitest';
import type { PlannedKind } from '../../src/analysis/index.js';
import { chorale, judged, legato, marked, namesOf, type ChordName } from './pedalPiece.js';

const CHORDS: readonly ChordName[] = ['C', 'F', 'G', 'C', 'Am', 'Dm', 'G', 'C'];
const written = chorale(CHORDS, 'held');
const crotchetS = 0.6;
const shortKeys = (_: unknown, writtenS: number): number => 0.5 * writtenS;
const everyBar = legato(1, CHORDS.length);

/** A plan with a point at the first beat of some bars, counted from 1. */
const plan = (...points: readonly (readonly [bar: number, kind: PlannedKind])[]) => points.map(([bar, kind]) => ({ barIndex: bar - 1, offset: 0, kind }));
const allChanged = plan([1, 'pedal'], [2, 'pedal'], [3, 'pedal'], [4, 'pedal'], [5, 'pedal'], [6, 'pedal'], [7, 'pedal'], [8, 'pedal']);

/** The foot stays down over the change at bar 3. */
const heldOver = everyBar.filter(({ bar }) => bar !== 3);

describe('what the teacher plans', () => {
  it('lets a sound ring over a change that would blur', () => {
    const playing = { written, crotchetS, foot: heldOver, keyS: shortKeys };
    expect(namesOf(judged(playing))).toEqual(['blurred 3']);
    expect(namesOf(judged({ ...playing, planned: allChanged }))).toEqual(['blurred 3']);
    // taken away: what begins in bar 2 is held through bar 3
    expect(namesOf(judged({ ...playing, planned: allChanged.filter(({ barIndex }) => barIndex !== 2) }))).toEqual([]);
    expect(namesOf(judged({ ...playing, planned: [...plan([2, 'ring']), ...allChanged.filter(({ barIndex }) => barIndex > 2)] }))).toEqual([]);
  });

  it('asks for a pedal that is not used', () => {
    const dry = { written, crotchetS, foot: [] };
    expect(namesOf(judged(dry))).toEqual([]);
    const said = judged({ ...dry, planned: plan([1, 'none'], [3, 'pedal'], [4, 'none']) });
    expect(namesOf(said)).toEqual(['notUsed 3']);
    expect(said.observations[0]?.text).toContain('planned and not used');
  });

  it('asks for none where the foot is down', () => {
    const said = judged({ written, crotchetS, foot: everyBar, planned: plan([1, 'pedal'], [2, 'pedal'], [3, 'none'], [4, 'pedal'], [5, 'pedal'], [6, 'pedal'], [7, 'pedal'], [8, 'pedal']) });
    expect(namesOf(said)).toEqual(['notDry 3']);
    expect(said.observations[0]?.text).toContain('no pedal is planned here');
  });

  it.each([[0.4, false], [0.6, true]])('a foot that leaves a dry bar after %d s is down in it: %s', (afterS, said) => {
    const foot = [...legato(1, 2), { bar: 3, afterS, value: 0 }];
    expect(namesOf(judged({ written, crotchetS, foot, planned: plan([1, 'pedal'], [2, 'pedal'], [3, 'none']) })).includes('notDry 3')).toBe(said);
  });

  it('takes a mark of the score back', () => {
    const playing = { written, crotchetS, foot: [], marks: [marked(3, 3)] };
    expect(namesOf(judged(playing))).toEqual(['notUsed 3']);
    expect(namesOf(judged({ ...playing, planned: plan([1, 'none']) }))).toEqual([]);
  });
});
