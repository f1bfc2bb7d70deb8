import { describe, expect, it } from 'vitest';
import { decided, decidedAbout, undecided } from '../../src/judge/decisions.js';
import { NO_DECISIONS, type AspectJudgement, type Decisions, type Finding, type FoundPlace, type RightAsPlayed } from '../../src/judge/index.js';
import { observe } from '../../src/judge/merge.js';
import { observation } from '../review/observations.js';

const score = { bars: ['0', '1', '2', '3'].map((number) => ({ number })), notes: [{ id: 'a' }, { id: 'b' }] };
const place = (bar: number, notes: readonly number[] = []): FoundPlace => ({ fromBar: bar, toBar: bar, pass: 1, attempt: 1, notes, startS: bar });
const finding = (more: Partial<Finding>): Finding => ({
  aspect: 'rhythm', kind: 'swung', hand: 'right', place: place(1, [0]), measured: { value: 2, unit: 'times', threshold: 1 }, severity: 0.5, confidence: 1, topic: '', ...more,
});
const findings = [finding({}), finding({ place: place(3, [1]) }), finding({ kind: 'late', hand: null, place: place(0), severity: 0.3 })];

const right = (more: Partial<RightAsPlayed>): Decisions => ({ ...NO_DECISIONS, rightAsPlayed: [{ aspect: 'rhythm', kind: null, hand: null, notes: [], bars: null, ...more }] });
/** Kinds and bars of what remains. */
const left = (decisions: Decisions): readonly string[] => undecided(findings, { score, decisions }).map(({ kind, place: { fromBar } }) => `${kind} ${String(fromBar)}`);

describe('what the teacher decided', () => {
  it('without a decision nothing changes', () => {
    expect(undecided(findings, { score })).toBe(findings);
    expect(decidedAbout(NO_DECISIONS, 'rhythm')).toBe(false);
  });

  it('a note that is right as played is not remarked on; the same thing elsewhere still is', () => {
    expect(left(right({ notes: ['a'] }))).toEqual(['swung 3', 'late 0']);
    expect(left(right({ notes: ['a', 'b'] }))).toEqual(['late 0']);
  });

  it('bars by their printed numbers, both included; a bar that the score does not have covers nothing', () => {
    expect(left(right({ kind: 'swung', bars: [['1', '2']] }))).toEqual(['swung 3', 'late 0']);
    expect(left(right({ kind: 'swung', bars: [['1', '3']] }))).toEqual(['late 0']);
    expect(left(right({ kind: 'swung', bars: [['99', '99']] }))).toEqual(['swung 1', 'swung 3', 'late 0']);
  });

  it('several stretches cover several places', () => {
    expect(left(right({ kind: 'swung', bars: [['1', '1'], ['3', '3']] }))).toEqual(['late 0']);
  });

  it('a decision that names a hand is about that hand only', () => {
    expect(left(right({ hand: 'left', bars: [['0', '3']] }))).toEqual(['swung 1', 'swung 3', 'late 0']);
    expect(left(right({ hand: 'right', bars: [['0', '3']] }))).toEqual(['late 0']);
  });

  it('the sentence is written from what remains', () => {
    const tell = ({ places }: { readonly places: readonly FoundPlace[] }): string => places.map(({ fromBar }) => String(fromBar)).join(' and ');
    const textOf = (decisions: Decisions): string | undefined => observe({ score, decisions }, findings, tell).find(({ kind }) => kind === 'swung')?.text;
    expect(textOf(NO_DECISIONS)).toBe('1 and 3');
    expect(textOf(right({ bars: [['3', '3']] }))).toBe('1');
    expect(textOf({ ...NO_DECISIONS, left: [{ aspect: 'rhythm', kind: 'swung' }] })).toBeUndefined();
  });
});

describe('concern and strictness', () => {
  const [swung, late] = [observation({ kind: 'swung' }), observation({ kind: 'late', weight: 0.3 })];
  const before: AspectJudgement = { aspect: 'rhythm', concern: { measured: true, value: 0.5 }, summary: '', observations: [swung, late] };

  it('concern goes down with what is left alone', () => {
    const after = decided({ ...before, observations: [late] }, before, { ...NO_DECISIONS, left: [{ aspect: 'rhythm', kind: 'swung' }] });
    // 1 - 0.5 (1 - 0.15) = 0.575 before, 0.3 after: 0.5 × 0.3 / 0.575
    expect(after.concern.measured ? after.concern.value : null).toBeCloseTo(0.2609, 4);
  });

  it('ornaments are strict or lenient by themselves', () => {
    const grace: AspectJudgement = { ...before, observations: [observation({ kind: 'longGrace' }), late] };
    const decisions: Decisions = { ...NO_DECISIONS, preferences: { strictness: { ornaments: 'lenient', rhythm: 'strict' }, lookAt: [] } };
    expect(decidedAbout(decisions, 'rhythm')).toBe(true);
    expect(decidedAbout({ ...NO_DECISIONS, preferences: { strictness: { ornaments: 'strict' }, lookAt: [] } }, 'pedal')).toBe(false);
    expect(decided(grace, grace, decisions).observations.map(({ weight }) => weight)).toEqual([0.25, 0.375]);
  });

  it('lenient halves weights and passes over what is then slight; strict adds a quarter', () => {
    const weights = (how: 'lenient' | 'strict'): readonly number[] =>
      decided(before, before, { ...NO_DECISIONS, preferences: { strictness: { rhythm: how }, lookAt: [] } }).observations.map(({ weight }) => weight);
    expect(weights('lenient')).toEqual([0.25]);
    expect(weights('strict')).toEqual([0.625, 0.375]);
  });
});
