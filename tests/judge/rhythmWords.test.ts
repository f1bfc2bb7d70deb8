import { describe, expect, it } from 'vitest';
import { tellRhythm } from '../../src/judge/rhythmWords.js';
import type { Untold } from '../../src/judge/merge.js';
import { run, right, scoreOf } from '../measure/piece.js';

const score = scoreOf(run(right, 32));

function untold(kind: string, topic = ''): Untold {
  const place = { fromBar: 4, toBar: 7, pass: 1, attempt: 1, notes: [], startS: 0, weight: 0.5 };
  return { aspect: 'rhythm', kind, hand: 'right', topic, places: [place], measured: { value: 2, unit: 'times', threshold: 1 }, weight: 0.5, confidence: 1 };
}

const KINDS = [
  'evenDots', 'tripletDots', 'looseDoubleDots', 'evenSnap', 'overDotted', 'longShort', 'shortLong', 'straight', 'quarteredTriplets', 'squared', 'evenLongShort', 'longNoteCut',
  'longNoteDoubled', 'restSwallowed', 'entryLate', 'beatAdded', 'halved', 'doubled', 'longUpbeat', 'unevenRun', 'unevenTrill', 'stoppedTrill', 'unevenTurn', 'raggedChords', 'longGrace', 'behind',
];

describe.each(['british', 'american'] as const)('%s', (language) => {
  it.each(KINDS)('%s: where, what was heard, what to do, and no figures', (kind) => {
    const { text, advice } = tellRhythm({ score, language }, untold(kind, kind === 'squared' ? '3:2' : '0.5'));
    expect(text).toMatch(language === 'british' ? /^Right hand, bars 5–8: [a-z].*\.$/ : /^Right hand, measures 5–8: [a-z].*\.$/);
    expect(advice).toMatch(/^[A-Z].*\.$/);
    expect(`${text} ${advice}`.replace('5–8', '')).not.toMatch(/\d/);
  });
});

it('values by their names on either side of the sea', () => {
  expect(tellRhythm({ score, language: 'british' }, untold('halved', '1')).text).toBe('Right hand, bars 5–8: some crotchets are played as quavers.');
  expect(tellRhythm({ score, language: 'american' }, untold('doubled', '1.5')).text).toBe('Right hand, measures 5–8: some dotted quarter notes are played as dotted half notes.');
  expect(tellRhythm({ score, language: 'british' }, untold('halved', '0.4')).text).toBe('Right hand, bars 5–8: some notes are half as long as written.');
  expect(tellRhythm({ score, language: 'american' }, untold('evenDots')).advice).toBe('Count four sixteenth notes and place the short note on the last.');
});

it('cross-rhythms by their names, and in which order the hands strike', () => {
  const squared = (topic: string) => tellRhythm({ score, language: 'british' }, untold('squared', topic));
  expect(squared('3:2').text).toBe('Right hand, bars 5–8: three against two is squared, with notes struck together that should come in turn.');
  // 3 : 2 strikes at 0 2 3 4 of six slots: both, right, left, right; 2 : 3 the other way round (common practice)
  expect(squared('3:2').advice).toBe('Tap it slowly on the lid, together, right, left, right; then play it to the same tapping.');
  expect(squared('2:3').advice).toBe('Tap it slowly on the lid, together, left, right, left; then play it to the same tapping.');
  // 4 : 3 at 0 3 4 6 8 9 of twelve
  expect(squared('4:3').text).toContain('four against three');
  expect(squared('4:3').advice).toBe('Tap it slowly on the lid, together, right, left, right, left, right; then play it to the same tapping.');
  expect(squared('3:8').text).toContain('eight against three');
  expect(squared('3:8').advice).toMatch(/^Play each hand alone/);
  expect(() => squared('3')).toThrow(RangeError);
});

it('a single pair is one', () => {
  const one = untold('evenDots');
  expect(tellRhythm({ score, language: 'british' }, { ...one, places: one.places.map((place) => ({ ...place, notes: [4, 5] })) }).text).toBe('Right hand, bars 5–8: the dotted pair is even.');
});

it('a kind without words is our own mistake', () => {
  expect(() => tellRhythm({ score, language: 'british' }, untold('nothing'))).toThrow(RangeError);
});
