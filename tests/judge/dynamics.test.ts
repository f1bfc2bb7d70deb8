import { describe, expect, it } from 'vitest';
import { notMeasured } from '../../src/base/index.js';
import { judgeDynamics } from '../../src/judge/dynamics.js';
import type { Observation } from '../../src/judge/index.js';
import type { Occurrence } from '../../src/score/index.js';
import { barOf, beatOf, marked, type Mark } from '../measure/loudness.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { played, right, scoreOf, steady, TICKS, type Written } from '../measure/piece.js';
import { playedBy, shareOf, songOf } from './levelPlayers.js';

const SEEDS = 20;

type Level = (one: Occurrence) => number;

/** What is said of a piece without scatter. */
const said = (score: ReturnType<typeof songOf>, level: Level): readonly Observation[] => judgeDynamics(playedBy(score, { seed: 1, level, scatter: 0 })).observations;

/** Share of seeded players of whom one kind of remark is made. */
const shareSaid = (score: ReturnType<typeof songOf>, kind: string, level: Level): number => shareOf(SEEDS, (seed) => judgeDynamics(playedBy(score, { seed, level })).observations.some((one) => one.kind === kind));

const pToF = songOf(16, { bar: 1, text: 'p' }, { bar: 9, text: 'f' });

describe('a marked change', () => {
  const step = (units: number): Level => (one) => 60 + (barOf(one) >= 9 ? units : 0);

  it.each([15, 9])('p to f made by %i units is left alone', (units) => {
    expect(shareSaid(pToF, 'changeNotMade', step(units))).toBe(0);
  });

  it.each([0, -3, -10])('p to f made by %i units is found', (units) => {
    expect(shareSaid(pToF, 'changeNotMade', step(units))).toBeGreaterThanOrEqual(0.95);
  });

  it('is spoken of from what must be made of it on, three tenths of 15: under 4.5 units', () => {
    // 4 and 5 units without scatter; the accent on each first beat is the same on both sides
    expect(said(pToF, step(5)).map(({ kind }) => kind)).not.toContain('changeNotMade');
    expect(said(pToF, step(4)).map(({ kind }) => kind)).toContain('changeNotMade');
  });

  it('one step must only not go the other way', () => {
    const pToMp = songOf(16, { bar: 1, text: 'p' }, { bar: 9, text: 'mp' });
    expect(said(pToMp, step(0)).map(({ kind }) => kind)).not.toContain('changeNotMade');
    expect(said(pToMp, step(-3)).map(({ kind }) => kind)).toContain('changeNotMade');
  });

  it('that is led up to is made', () => {
    // from 60 in bar 1 evenly up to 80 in bar 8, and on at 80: the last four bars are almost as loud, the first four are not
    expect(said(pToF, (one) => Math.min(80, 60 + (20 / 7) * (barOf(one) - 1))).map(({ kind }) => kind)).not.toContain('changeNotMade');
  });

  it('is told by its place, its mark and what to do', () => {
    expect(said(pToF, step(0)).map(({ text, advice }) => `${text} ${advice}`)).toContain('Bar 9 is no louder than bar 8, where f is marked. Keep the sound back before it, and begin it with more weight, without hurrying.');
    // three bars of p, so that they are no echo of the four before
    const softer = songOf(16, { bar: 1, text: 'f' }, { bar: 9, text: 'p' }, { bar: 12, text: 'mp' });
    expect(said(softer, step(0)).map(({ text, advice }) => `${text} ${advice}`)).toContain('Bar 9 is as loud as bar 8, where p is marked. Begin it softer than feels necessary, without slowing.');
    expect(said(softer, step(6)).map(({ text }) => text)).toContain('Bar 9 is louder than bar 8, where p is marked.');
  });

  it('the same bars once more, softer, are an echo; una corda counts towards it', () => {
    const echo = songOf(16, { bar: 1, text: 'f' }, { bar: 5, text: 'p' });
    const input = playedBy(echo, { seed: 1, scatter: 0, level: () => 60 });
    expect(judgeDynamics(input).observations.map(({ text }) => text)).toEqual(['Bar 5: the echo is as loud as what it repeats.']);
    // 4 units are less than three tenths of 15, but they are heard
    const soft = (units: number, pedal: boolean): number => judgeDynamics(playedBy(echo, { seed: 1, scatter: 0, level: (one) => (barOf(one) >= 5 ? 60 - units : 60) }, pedal ? [{ timeS: 7.9, value: 127 }] : [])).observations.length;
    expect([soft(4, false), soft(4, true), soft(2, true)]).toEqual([1, 0, 1]);
  });

  it('several are one remark', () => {
    const many = songOf(16, { bar: 1, text: 'p' }, { bar: 5, text: 'f' }, { bar: 9, text: 'p' }, { bar: 13, text: 'f' });
    // the beginning is loud, so that the piece as a whole has more than one level
    const found = said(many, (one) => (barOf(one) <= 2 ? 85 : 60)).filter(({ kind }) => kind === 'changeNotMade');
    expect(found.map(({ text, places }) => [text, places.length])).toEqual([['Bars 5, 9 and 13: the marked changes of level are hardly heard.', 3]]);
  });
});

describe('a hairpin', () => {
  const pin = (until: number): ReturnType<typeof songOf> => songOf(16, { bar: 5, text: '<', until: [until, 1] });
  /** From bar 5 on over four bars. */
  const growing = (units: number): Level => (one) => 60 + units * Math.min(1, Math.max(0, (one.onsetTick / TICKS - 16) / 16));

  it.each([20, 9])('of four bars that grows by %i units is left alone', (units) => {
    expect(shareSaid(pin(9), 'hairpinNotMade', growing(units))).toBe(0);
  });

  it.each([-6, -12])('of four bars that goes %i units the other way is found', (units) => {
    expect(shareSaid(pin(9), 'hairpinNotMade', growing(units))).toBeGreaterThanOrEqual(0.95);
  });

  it('that stays flat is told, and one that turns round is told as that', () => {
    const texts = (level: Level): readonly string[] => said(pin(9), level).filter(({ kind }) => kind === 'hairpinNotMade').map(({ text }) => text);
    expect(texts(growing(-12))).toEqual(['Bars 5–8: the crescendo gets softer instead.']);
    // the tune's long notes and the accents of the metre leave a unit or two
    expect(texts(growing(-3))).toEqual(['Bars 5–8: the crescendo does not grow.']);
  });

  it('a short one alone is left to the phrase; where short ones are never made it is a habit', () => {
    expect(said(pin(6), growing(-40)).map(({ kind }) => kind)).not.toContain('hairpinNotMade');
    const two = songOf(16, { bar: 5, text: '<', until: [6, 1] }, { bar: 7, text: '<', until: [8, 1] });
    expect(said(two, growing(-40)).find(({ kind }) => kind === 'hairpinNotMade')?.places).toHaveLength(2);
  });
});

describe('a note that sticks out', () => {
  const plain = songOf(16, { bar: 1, text: 'mf' });
  /** The second note of bar 7, in the middle of a rising line. */
  const poked = (units: number): Level => (one) => 60 + (barOf(one) === 7 && beatOf(one) === 2 && one.staff === 1 ? units : 0);

  it('is not made of human scatter, nor of what is hardly heard', () => {
    expect(shareSaid(plain, 'sticksOut', poked(0))).toBe(0);
    expect(shareSaid(plain, 'sticksOut', poked(6))).toBe(0);
  });

  it.each([36, 45])('by %i units is found', (units) => {
    expect(shareSaid(plain, 'sticksOut', poked(units))).toBeGreaterThanOrEqual(0.95);
  });

  it('is named with its hand, bar and note, and what to do', () => {
    expect(said(plain, poked(30)).map(({ text, advice, places }) => [text, advice, places[0]?.notes.length])).toEqual([
      ['Right hand, bar 7: the C sticks out.', 'Play the notes around it slowly, listening for one even line.', 1],
    ]);
  });

  it('counts from 15 units over its surroundings on, from 21 where it may be meant', () => {
    const line: Written[] = Array.from({ length: 32 }, (_, i) => right(1 + Math.floor(i / 4), 1 + (i % 4), [72, 71, 69, 71][i % 4] ?? 72));
    const kinds = (pitch: number, units: number): readonly string[] => judgeDynamics(playedBy(scoreOf(line), { seed: 1, scatter: 0, level: (one) => (beatOf(one) === 1 ? 57 : 60) + (barOf(one) === 5 && one.midi === pitch && beatOf(one) !== 4 ? units : 0) })).observations.map(({ kind }) => kind);
    // the lowest note of the line is nobody's high point, the highest may be
    expect([kinds(69, 14), kinds(69, 15)]).toEqual([[], ['sticksOut']]);
    expect([kinds(72, 20), kinds(72, 21)]).toEqual([[], ['sticksOut']]);
  });

  it('a written accent is asked for', () => {
    const notes = plain.notes.map((note) => (note.barIndex === 6 && note.staff === 1 ? { ...note, articulations: ['accent' as const] } : note));
    expect(said({ ...plain, notes }, poked(30))).toEqual([]);
  });

  it('the top of a chord may be louder; a note under it may not', () => {
    const chords: Written[] = Array.from({ length: 32 }, (_, i) => [60, 64, 67].map((pitch) => right(1 + Math.floor(i / 4), 1 + (i % 4), pitch))).flat();
    const kinds = (level: Level): readonly string[] => judgeDynamics(playedBy(scoreOf(chords), { seed: 1, scatter: 0, level: (one) => level(one) - (beatOf(one) === 1 ? 3 : 0) })).observations.map(({ kind }) => kind);
    expect(kinds(({ midi }) => (midi === 67 ? 80 : 55))).toEqual([]);
    // 60 under tops of 50, around which the tops are 50 too: 10 over the surroundings, but only 10 over the top; then 16 and 16
    const thumb = (units: number): Level => (one) => (one.midi === 60 && barOf(one) === 5 && beatOf(one) === 3 ? 50 + units : 50);
    expect([kinds(thumb(10)), kinds(thumb(16))]).toEqual([[], ['sticksOut']]);
  });
});

describe('a sforzando', () => {
  const marks: readonly Mark[] = [{ bar: 3, text: 'sf' }, { bar: 7, text: 'sf' }];
  const kinds = (one: readonly Mark[], units: number): readonly string[] => said(marked(songOf(16), ...one), (note) => 60 + (beatOf(note) === 1 ? -3 : 0) + (beatOf(note) === 1 && (barOf(note) === 3 || barOf(note) === 7) ? units : 0)).map(({ kind }) => kind);

  it('is missed where all of them are like their neighbours, and where one is softer', () => {
    expect(kinds(marks, 0)).toEqual(['accentNotHeard']);
    expect(kinds(marks, 8)).toEqual([]);
    expect(kinds(marks.slice(0, 1), 0)).toEqual([]);
    expect(kinds(marks.slice(0, 1), -8)).toEqual(['accentNotHeard']);
  });
});

describe('notes that do not speak', () => {
  const input = playedBy(songOf(8), { seed: 1, scatter: 0, level: () => 60 });
  const told = (count: number, kind: 'silent' | 'split'): readonly string[] => {
    const { levels } = input.measures;
    if (!levels.measured) throw new RangeError(levels.reason);
    const unspoken = Array.from({ length: count }, (_, i) => ({ kind, hand: 'left' as const, stretch: 0, visitIndex: i, startS: 2 * i, noteIndex: 0 }));
    return judgeDynamics({ ...input, measures: { ...input.measures, levels: { measured: true, value: { ...levels.value, unspoken } } } }).observations.map(({ text }) => text);
  };

  it('are told from three in a hand on', () => {
    expect([told(2, 'silent'), told(3, 'silent'), told(3, 'split')]).toEqual([[], ['Left hand, bars 1–3: soft inner notes did not speak.'], ['Left hand, bars 1–3: neighbouring keys were struck along.']]);
  });
});

describe('praise', () => {
  const twice = songOf(16, { bar: 1, text: 'p' }, { bar: 5, text: 'f' }, { bar: 11, text: 'p' });
  const praised = (up: number, down: number): readonly string[] => (judgeDynamics(playedBy(twice, { seed: 1, scatter: 0, level: (one) => 60 + (barOf(one) < 5 ? 0 : barOf(one) <= 10 ? up : up - down) })).praise ?? []).map(({ text }) => text);

  it('is for two contrasts made in full, three steps of 5 units, and none left out', () => {
    expect(praised(15, 15)).toEqual(['Bars 5 and 11: the marked contrasts are plain to hear.']);
    expect(praised(14, 14)).toEqual([]);
  });
});

describe('the whole', () => {
  it('all on one level is told once, where marks ask for more', () => {
    const twice = songOf(16, { bar: 1, text: 'p' }, { bar: 5, text: 'f' }, { bar: 11, text: 'p' });
    expect(said(twice, () => 60).map(({ kind, text, places }) => [kind, text, places.length])).toEqual([['oneLevel', 'Loud and soft are nearly the same from beginning to end, also where bars 5 and 11 ask for more or less.', 2]]);
    // an accent on every first beat makes no range of the bars, a loud end does
    expect(said(twice, (one) => (barOf(one) >= 13 ? 75 : 60)).map(({ kind }) => kind)).not.toContain('oneLevel');
    expect(said(songOf(16, { bar: 1, text: 'mf' }), () => 60)).toEqual([]);
  });

  it('concern rises with what is wanting', () => {
    const concern = (units: number): number => {
      const judged = judgeDynamics(playedBy(pToF, { seed: 3, level: (one) => 60 + (barOf(one) >= 9 ? units : 0) })).concern;
      return judged.measured ? judged.value : -1;
    };
    const order = [20, 12, 6, 0].map(concern);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(new Set(order).size).toBe(4);
  });

  it('nothing is judged that was not measured', () => {
    const piece = played(scoreOf([right(1, 1, 60)]), { clock: steady(0.5) });
    const none = notMeasured('the instrument gives every note the same strength');
    expect(judgeDynamics({ ...playedBy(pToF, { seed: 1, level: () => 60 }), ...piece, measures: { ...NO_MEASURES, levels: none } })).toEqual({ aspect: 'dynamics', concern: none, summary: '', observations: [] });
  });

  it('a bar that was stumbled through is not judged', () => {
    const input = playedBy(songOf(16, { bar: 1, text: 'mf' }), { seed: 1, scatter: 0, level: (one) => (barOf(one) === 7 && beatOf(one) === 2 && one.staff === 1 ? 95 : 60) });
    const stumbled = { ...input, measures: { ...input.measures, bars: input.measures.bars.map((bar) => (bar.barIndex === 6 ? { ...bar, missed: 8 } : bar)) } };
    expect([judgeDynamics(input).observations.length, judgeDynamics(stumbled).observations.length]).toEqual([1, 0]);
  });
});
