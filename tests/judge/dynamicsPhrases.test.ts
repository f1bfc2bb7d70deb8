/** Seeded players of a song in four-bar phrases: its tune begins on crotchets 0 1 2 3 | 4 5.5 6 | 8 9 9.5 10 11 | 12 of each. */
import { describe, expect, it } from 'vitest';
import { judgeDynamics } from '../../src/judge/dynamics.js';
import type { AspectJudgement } from '../../src/judge/index.js';
import type { Occurrence, Score } from '../../src/score/index.js';
import type { Mark } from '../measure/loudness.js';
import { TICKS } from '../measure/piece.js';
import { inPhrases, playedBy, shareOf, songOf } from './levelPlayers.js';

const SEEDS = 20;

type Level = (one: Occurrence) => number;

const song = songOf(16, { bar: 1, text: 'mf' });
const place = ({ onsetTick }: Occurrence): number => (onsetTick / TICKS) % 16;
const phrase = ({ onsetTick }: Occurrence): number => Math.floor(onsetTick / TICKS / 16);

const judgedBy = (score: Score, level: Level, { seed = 1, scatter = 0 } = {}): AspectJudgement => judgeDynamics(inPhrases(playedBy(score, { seed, level, scatter })));
const kinds = (judgement: AspectJudgement): readonly string[] => judgement.observations.map(({ kind }) => kind);

/** Share of seeded players, each stroke with a scatter of four units, of whom something is said. */
const shareSaid = (kind: string, level: Level): number => shareOf(SEEDS, (seed) => kinds(judgedBy(song, level, { seed, scatter: 4 })).includes(kind));

/** A phrase that rises by so many units to crotchet 6 and falls back to its last note at 12. */
const shaped = (units: number): Level => (one) => 60 + Math.round(units * (1 - Math.abs(place(one) - 6) / 6));

/** Its last notes so many units louder than the rest, in some of the phrases. */
const ends = (units: number, which: (phrase: number) => boolean = () => true): Level => (one) => shaped(12)(one) + (one.staff === 1 && place(one) === 12 && which(phrase(one)) ? units : 0);

describe('the end of a phrase', () => {
  it.each([-6, 0, 3])('%d units over the notes before it is left alone', (units) => {
    expect(shareSaid('endBumped', ends(units))).toBe(0);
  });

  // the rest falls by 12 units from the high point to the end: an end of 24 more stands 24 - 4 over the loudest of the three that lead to it
  it('bumped every time is found', () => {
    expect(shareSaid('endBumped', ends(24))).toBeGreaterThanOrEqual(0.95);
  });

  it('once only where it is gross', () => {
    const once = (units: number): Level => ends(units, (which) => which === 1);
    // without scatter: crotchets 9.5, 10 and 11 have 65, 64 and 62, the last 60 and 3 for its first beat: the end stands units - 2 over the loudest
    expect(kinds(judgedBy(song, once(19)))).not.toContain('endBumped');
    expect(kinds(judgedBy(song, once(20)))).toContain('endBumped');
  });

  it('is told once, as the end and not as a note that sticks out', () => {
    const said = judgedBy(song, ends(40, (which) => which === 1)).observations;
    expect(said.map(({ text }) => text)).toEqual(['Right hand, bar 8: the end of the phrase is bumped.']);
    expect(judgedBy(song, ends(24)).observations[0]?.text).toBe('Right hand, bars 4, 8, 12 and 16: the ends of the phrases are bumped.');
  });

  it.each<[string, readonly Mark[]]>([
    ['a crescendo leads there', [{ bar: 7, text: '<', until: [8, 1] }]],
    ['a louder mark stands there', [{ bar: 8, text: 'ff' }]],
    ['a sforzando stands there', [{ bar: 8, text: 'sfz' }]],
  ])('%s: nothing is said of it', (_, marks) => {
    expect(kinds(judgedBy(songOf(16, { bar: 1, text: 'mf' }, ...marks), ends(24, (which) => which === 1)))).not.toContain('endBumped');
  });
});

describe('flat phrases', () => {
  it('are said once, at the flattest', () => {
    const said = judgedBy(song, () => 60).observations.find(({ kind }) => kind === 'phrasesFlat');
    expect(said?.places).toHaveLength(3);
    expect(said?.text).toMatch(/^The phrases of the tune stay on one level, most of all in bars /);
  });

  it.each([12, 9])('a rise of %d units is heard', (units) => {
    expect(shareSaid('phrasesFlat', shaped(units))).toBe(0);
  });

  it('nothing more is said where all is on one level at its marks', () => {
    const marks = songOf(16, { bar: 1, text: 'p' }, { bar: 5, text: 'f' }, { bar: 9, text: 'p' }, { bar: 13, text: 'f' });
    expect(kinds(judgedBy(marks, () => 60))).toEqual(['oneLevel']);
  });
});

describe('praise', () => {
  const praised = (level: Level): readonly string[] => (judgedBy(song, level).praise ?? []).map(({ text }) => text);

  it('for phrases that rise and fall', () => {
    expect(praised(shaped(24)).some((text) => text.endsWith('the phrases rise and fall.'))).toBe(true);
    expect(praised(shaped(4)).some((text) => text.endsWith('the phrases rise and fall.'))).toBe(false);
  });

  it('for ends that are rounded off', () => {
    expect(praised(ends(-8))).toContain('Bars 4, 8 and 12: the ends of the phrases are rounded off.');
    expect(praised(ends(3)).some((text) => text.includes('rounded off'))).toBe(false);
  });

  it('for an echo', () => {
    // bars 5-8 repeat bars 1-4
    expect(praised((one) => shaped(12)(one) - (phrase(one) === 1 ? 8 : 0))).toContain('Bars 5–8: the echo is softer than what it repeats.');
    expect(praised((one) => shaped(12)(one) - (phrase(one) === 1 ? 4 : 0)).some((text) => text.includes('echo'))).toBe(false);
  });

  it('none for the shape where ends are bumped', () => {
    expect(praised(ends(24)).some((text) => text.includes('phrases'))).toBe(false);
  });
});
