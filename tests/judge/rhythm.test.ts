import { describe, expect, it } from 'vitest';
import type { Direction, Occurrence, Score } from '../../src/score/index.js';
import { left, played, right, run, scoreOf, steady, TICKS, type Written } from '../measure/piece.js';
import { crotchets, DOTTED_PAIRS, exact, HANDS_TOGETHER, leftBehind, over, shortNotesEarly } from './plantedFaults.js';
import { foundShare, judged, kinds, observed, take } from './rhythmPiece.js';

describe('dotted pairs, from exact to even and beyond (crotchet 0.6 s, 20 players with 8 ms of scatter each)', () => {
  const score = DOTTED_PAIRS;
  const early = (ms: number) => ({ lateMs: shortNotesEarly(ms) });

  it.each([0, 10, 20])('%d ms early (a share of 0.72 and more): silent', (ms) => {
    expect(foundShare(score, 'evenDots', early(ms))).toBe(0);
    expect(foundShare(score, 'tripletDots', early(ms))).toBe(0);
  });

  it.each([120, 150, 180])('%d ms early (0.55 to 0.45): found', (ms) => {
    expect(foundShare(score, 'evenDots', early(ms))).toBe(1);
  });

  it('50 ms early is two to one, a triplet: found as that', () => {
    expect(foundShare(score, 'tripletDots', early(50))).toBeGreaterThanOrEqual(0.95);
    expect(foundShare(score, 'evenDots', early(50))).toBe(0);
  });

  it('the same figure wrong every time is one observation, with its places and words', () => {
    const all = judged(take(score, { seed: 1, ...early(150) }));
    const one = observed(all, 'evenDots');
    expect(one).toMatchObject({ hand: 'right', text: 'Right hand, bars 3–6: the dotted pairs are even.', advice: 'Count four semiquavers and place the short note on the last.' });
    expect(one.places.map(({ fromBar, toBar }) => [fromBar, toBar])).toEqual([[2, 2], [3, 3], [4, 4], [5, 5]]);
    expect(all.observations.map(({ text, measured }) => [text, measured])).toEqual([[one.text, one.measured]]);
    expect(all.summary).toBe(one.text);
  });

  it('a hesitation after a dotted pair is none of the dot', () => {
    const waits = played(score, { clock: (c) => 0.6 * c + (c >= 12 ? 0.6 : 0) });
    expect(kinds(judged(waits))).not.toContain('evenDots');
  });

  it('against triplets of the other hand two to one is the player\'s choice', () => {
    const against = exact(scoreOf([...over([0.75, 0.25], 4, false), ...over([1 / 3], 4, false).map((one) => ({ ...one, staff: 2, pitch: 40 }))]));
    const late = { lateMs: (one: Occurrence) => one.staff === 1 && crotchets(one) % 1 === 0.75 ? -50 : 0 };
    expect(foundShare(against, 'tripletDots', late)).toBe(0);
  });

  it('a habit of sharper dots is told once and weighs little', () => {
    const sharp = observed(judged(take(score, { seed: 2, ...early(-60) })), 'overDotted'); // 510 of 600 ms: 5.7 to one
    expect(sharp.weight).toBeLessThan(0.3);
  });
});

describe('a hand that lags, from below hearing to gross', () => {
  const score = HANDS_TOGETHER;
  const behind = (ms: number) => ({ lateMs: leftBehind(ms) });

  // 22 ms: the order of two onsets is heard three times in four (Sapp); 30 ms is the usual lead of the tune (Goebl 2001)
  it.each([0, 10, 22, 30])('left hand %d ms behind in four bars: silent', (ms) => {
    expect(foundShare(score, 'behind', behind(ms))).toBe(0);
  });

  it.each([60, 80, 120, 200])('%d ms behind: found', (ms) => {
    expect(foundShare(score, 'behind', behind(ms))).toBeGreaterThanOrEqual(0.95);
  });

  it('names the hand and the bars', () => {
    expect(observed(judged(take(score, { seed: 3, ...behind(110) })), 'behind')).toMatchObject({
      hand: 'left', text: 'Left hand, bars 5–8: behind the right.', places: [{ fromBar: 4, toBar: 7, pass: 1, attempt: 1 }],
    });
  });

  it('always behind by 90 ms is a fault as well; a tune that always leads by 30 ms is none, nor a left hand first by 70', () => {
    const always = (ms: number) => ({ lateMs: ({ staff }: Occurrence) => staff === 2 ? ms : 0 });
    expect(foundShare(score, 'behind', always(90))).toBe(1);
    for (const ms of [30, -70]) expect(foundShare(score, 'behind', always(ms))).toBe(0);
  });
});

it('hands that strike evenly in turn do not lag: from 150 ms on, at half of the way to the next stroke', () => {
  // crotchets of 400 ms: 200 ms are half of it; 120 ms at half of 240 ms are near enough to be a lag, 200 ms of 600 ms no half
  const late = (ms: number, crotchetS: number) => foundShare(HANDS_TOGETHER, 'behind', { lateMs: leftBehind(ms), crotchetS });
  expect(late(200, 0.4)).toBe(0);
  expect(late(120, 0.24)).toBe(1);
  expect(late(200, 0.6)).toBe(1);
});

describe('equal notes', () => {
  const semiquavers = scoreOf(over([0.25], 6));
  const limp = (ms: number) => ({ lateMs: (one: Occurrence) => (crotchets(one) * 4) % 2 === 1 ? ms : 0 });

  // semiquavers of 150 ms: the second of two late by 15 ms makes 165 and 135 ms (0.55), by 60 ms 210 and 90 (0.7)
  it.each([0, 8, 15])('every second one %d ms late: silent', (ms) => {
    expect(foundShare(semiquavers, 'longShort', limp(ms))).toBe(0);
    expect(foundShare(semiquavers, 'unevenRun', limp(ms))).toBe(0);
  });

  it.each([45, 60, 75])('every second one %d ms late: limping', (ms) => {
    expect(foundShare(semiquavers, 'longShort', limp(ms))).toBe(1);
  });

  it('a run of random lengths is uneven, but not a good player\'s', () => {
    // scatter of 35 ms more at 150 ms a note: sqrt(2) * 36 / 150 = 34 % variation; without it sqrt(2) * 8 / 150 = 8 %
    const scattered = take(semiquavers, { seed: 4, lateMs: ({ index }) => 50 * Math.sin(7919 * index * index) });
    expect(kinds(judged(scattered))).toContain('unevenRun');
    expect(foundShare(semiquavers, 'unevenRun', {})).toBe(0);
  });

  it('under a heading "Swing" straight is the fault, 1.3 to 3 to one are right', () => {
    const heading: Direction = { kind: 'words', barIndex: 0, onsetTick: 0, untilTick: null, staff: null, text: 'Easy swing', value: null };
    const swing = { ...scoreOf(over([0.5], 6)), directions: [heading] };
    // quavers of 300 ms: at r to one the second comes at 600 r / (r + 1)
    const to = (ratio: number) => ({ lateMs: (one: Occurrence) => crotchets(one) % 1 === 0.5 ? (600 * ratio) / (ratio + 1) - 300 : 0 });
    expect(foundShare(swing, 'straight', to(1))).toBe(1);
    for (const ratio of [1.5, 2, 3]) expect(kinds(judged(take(swing, { seed: 5, ...to(ratio) })))).toEqual([]);
    expect(foundShare(scoreOf(over([0.5], 6)), 'longShort', to(2))).toBe(1);
  });
});

describe('triplets and cross-rhythms', () => {
  const triplets = exact(scoreOf(over([1 / 3], 4)));
  /** How much later the second and third of three come, ms. */
  const moved = (second: number, third: number) => ({ lateMs: (one: Occurrence) => one.staff === 1 ? [0, second, third][Math.round(crotchets(one) * 3) % 3]! : 0 });

  it('two semiquavers and a quaver: found; a triplet that leans a little: silent', () => {
    // of 600 ms, due at 200 and 400; as quarters at 150 and 300
    expect(foundShare(triplets, 'quarteredTriplets', moved(-50, -100))).toBe(1);
    expect(observed(judged(take(triplets, { seed: 6, ...moved(-50, -100) })), 'quarteredTriplets').text).toBe('Right hand, bars 1–4: the triplets come out as two semiquavers and a quaver.');
    for (const ms of [0, 15]) expect(foundShare(triplets, 'quarteredTriplets', moved(ms, -ms))).toBe(0);
  });

  /** Four bars of so many to the beat in the right hand and in the left. */
  const cross = (inRight: number, inLeft: number) => exact(scoreOf([...over([1 / inRight], 4, false), ...over([1 / inLeft], 4, false).map((one) => ({ ...one, staff: 2, pitch: 40 }))]));
  /** One hand played on other places of its beat: each of its notes that much later, in crotchets. */
  const instead = (staff: number, parts: number, late: readonly number[]) => (one: Occurrence) => (one.staff === staff ? 600 * late[Math.round((crotchets(one) % 1) * parts) % parts]! : 0);

  it.each([
    // of a beat of 600 ms: the second of two at 400 with the third of three instead of at 300
    ['three against two, the two give in', { parts: [3, 2], lateMs: instead(2, 2, [0, 1 / 6]), hand: 'left' }],
    // the three as quaver and two semiquavers, 0 300 450 instead of 0 200 400
    ['three against two, the three give in', { parts: [3, 2], lateMs: instead(1, 3, [0, 1 / 6, 1 / 12]), hand: 'right' }],
    ['two against three', { parts: [2, 3], lateMs: instead(1, 2, [0, 1 / 6]), hand: 'right' }],
    // the four on the places of the three: 0 200 300 400 instead of 0 150 300 450
    ['four against three, the four give in', { parts: [4, 3], lateMs: instead(1, 4, [0, 1 / 12, 0, -1 / 12]), hand: 'right' }],
    // the three as a quaver and two semiquavers: 0 300 450
    ['four against three, the three give in', { parts: [4, 3], lateMs: instead(2, 3, [0, 1 / 6, 1 / 12]), hand: 'left' }],
    // two of the four on the middle one of the three
    ['three against four', { parts: [3, 4], lateMs: instead(2, 4, [0, 1 / 12, 0, -1 / 12]), hand: 'left' }],
    // the five as four and one more: 0 150 300 450 and 550; five strokes of which the second meets the second of four
    ['five against four', { parts: [5, 4], lateMs: instead(1, 5, [0, 1 / 20, 1 / 10, 3 / 20, 1 / 10]), hand: 'right' }],
  ] as const)('%s: found and named; as written silent', (_, { parts, lateMs, hand }) => {
    const score = cross(parts[0], parts[1]);
    expect(foundShare(score, 'squared', { lateMs })).toBeGreaterThanOrEqual(0.95);
    expect(foundShare(score, 'squared', {})).toBe(0);
    expect(observed(judged(take(score, { seed: 6, lateMs })), 'squared')).toMatchObject({ topic: parts.join(':'), hand });
  });

  it.each([10, 20, 30])('the second of two leaning by %d ms of 100: silent', (ms) => {
    expect(foundShare(cross(3, 2), 'squared', { lateMs: (one) => (one.staff === 2 && crotchets(one) % 1 === 0.5 ? ms : 0) })).toBe(0);
  });

  it('rubato within the beat moves both hands, and is no fault', () => {
    // every beat begins slowly: what stands at x of it comes at x + 0.1 sin(pi x)
    expect(foundShare(cross(3, 2), 'squared', { lateMs: (one) => 60 * Math.sin(Math.PI * (crotchets(one) % 1)) })).toBe(0);
  });
});

describe('beats', () => {
  /** A dotted minim at the end of bar 2, with or without a left hand. */
  const written = (length: number): Written[] => [...run(right, 5), right(2, 2, 70, length), ...run(right, 16).map((one) => ({ ...one, bar: one.bar + 2 }))];
  const from8 = (beats: number) => (c: number): number => 0.6 * (c >= 8 ? c + beats : c);

  it.each([[3, 'longNoteCut'], [1, 'restSwallowed']] as const)('a beat lost after a note of %d beats', (length, kind) => {
    expect(kinds(judged(played(scoreOf(written(length)), { clock: from8(-1) })))).toEqual([kind]);
    expect(kinds(judged(played(scoreOf(written(length)), { clock: from8(-0.3) })))).toEqual([]);
  });

  it('one hand alone early or late, the other counting', () => {
    const score = scoreOf([...written(1), ...run(left, 24).map((one) => ({ ...one, pitch: one.pitch - 24 }))]);
    const entry = (beats: number) => judged(played(score, { clock: steady(0.6), shiftMs: ({ staff, onsetTick }) => staff === 1 && onsetTick >= 8 * TICKS && onsetTick < 12 * TICKS ? 600 * beats : 0 }));
    expect(observed(entry(1), 'entryLate')).toMatchObject({ hand: 'right', places: [{ fromBar: 1 }] });
    expect(observed(entry(-1), 'restSwallowed')).toMatchObject({ hand: 'right', places: [{ fromBar: 1 }] });
  });

  it('crotchets played as quavers; one wait before a bar is no wrong length', () => {
    // the last two crotchets of every second bar in half their time: 1.2 s less a bar... 0.6 s
    const clock = (c: number): number => { const inBar = c % 8; return 0.6 * (7 * Math.floor(c / 8) + (inBar <= 2 ? inBar : inBar <= 4 ? 2 + (inBar - 2) / 2 : inBar - 1)); };
    expect(observed(judged(played(scoreOf(run(right, 48)), { clock })), 'halved').text).toBe('Right hand, bars 1, 3, 5, 7 and two more places: some crotchets are played as quavers.');
    expect(kinds(judged(played(scoreOf(run(right, 48)), { clock: (c) => 0.6 * c + (c >= 20 ? 0.6 : 0) })))).toEqual([]);
  });
});

describe('fingers', () => {
  it('chords that fall apart, from 30 ms (normal, Goebl 2001) to 150', () => {
    const score = scoreOf(run(right, 16).flatMap((one) => [one, { ...one, pitch: one.pitch + 4 }, { ...one, pitch: one.pitch + 7 }]));
    // the middle note late: no roll from the bottom up
    const apart = (ms: number) => ({ lateMs: (one: Occurrence) => one.index % 3 === 1 ? ms : 0 });
    for (const ms of [0, 30, 50]) expect(foundShare(score, 'raggedChords', apart(ms))).toBe(0);
    for (const ms of [120, 150]) expect(foundShare(score, 'raggedChords', apart(ms))).toBe(1);
  });

  it('a crushed note of 400 ms is long, one of 120 is not', () => {
    const score = scoreOf([...run(right, 16), { ...right(3, 1, 80), kind: 'grace' }]);
    const early = (ms: number) => judged(played(score, { clock: steady(0.6), shiftMs: ({ onsetTick, endTick }) => endTick === onsetTick ? -ms : 0 }));
    expect(kinds(early(120))).toEqual([]);
    expect(observed(early(400), 'longGrace').text).toBe('Right hand, bar 3: the crushed note is too long.');
  });
});

describe('what is not judged', () => {
  it('a bar that was stumbled through', () => {
    const score = scoreOf(over([0.75, 0.25], 4));
    const shiftMs = (one: Occurrence): number => one.staff === 1 && crotchets(one) % 1 === 0.75 ? -150 : 0;
    const presses = Array.from({ length: 6 }, (_, i) => ({ atS: 2.5 + i / 10, pitch: 90, near: 14 }));
    const places = observed(judged(played(score, { clock: steady(0.6), shiftMs, presses })), 'evenDots').places;
    expect(places.map(({ fromBar }) => fromBar)).toEqual([0, 2, 3]);
  });

  it('fewer than four notes', () => {
    expect(judged(played(scoreOf(run(right, 3)), { clock: steady(0.5) }))).toEqual({ aspect: 'rhythm', concern: { measured: false, reason: 'too few notes were played to tell a rhythm' }, summary: '', observations: [] });
  });
});

describe('praise', () => {
  const texts = (score: Score, lateMs: (one: Occurrence) => number = () => 0): readonly string[] => (judged(take(score, { seed: 8, lateMs })).praise ?? []).map(({ text }) => text);

  it('for dots, runs and cross-rhythms that are right', () => {
    // 8 ms of scatter at 600 ms a figure are some 2 % of its share
    expect(texts(scoreOf(over([0.75, 0.25], 4)))).toEqual(['Right hand: the dotted pairs are exact throughout.']);
    const cross = exact(scoreOf([...over([1 / 3], 4, false), ...over([0.5], 4, false).map((one) => ({ ...one, staff: 2, pitch: 40 }))]));
    expect(texts(cross)).toContain('Three against two sits throughout.');
    // 4 ms more or less at 150 ms a note: sqrt(2) * 4 / 150 = 4 %
    const runs = played(scoreOf(over([0.25], 8)), { clock: steady(0.6), shiftMs: ({ index }) => 4 * (index % 3 - 1) });
    expect((judged(runs).praise ?? []).map(({ text }) => text)).toEqual(['Right hand: the runs are even throughout.']);
  });

  it('none where they are not, where there are few, or for plain crotchets', () => {
    expect(texts(scoreOf(over([0.75, 0.25], 4)), (one) => one.staff === 1 && crotchets(one) % 1 === 0.75 ? -150 : 0)).toEqual([]);
    expect(texts(scoreOf(over([0.75, 0.25], 1)))).toEqual([]);
    expect(texts(scoreOf(over([1], 8)))).toEqual([]);
  });
});

it('concern rises with what is below the thresholds too', () => {
  const score = scoreOf(over([0.75, 0.25], 8));
  const concern = (ms: number): number => {
    const { concern: value } = judged(take(score, { seed: 7, lateMs: (one) => crotchets(one) % 1 === 0.75 ? -ms : 0 }));
    return value.measured ? value.value : -1;
  };
  const values = [0, 20, 50, 100, 150].map(concern);
  expect(values).toEqual([...values].sort((a, b) => a - b));
  expect(new Set(values).size).toBe(5);
});
