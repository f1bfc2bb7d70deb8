/** A song of four-bar phrases: its tune begins on crotchets 0 1 2 3 | 4 5.5 6 | 8 9 9.5 10 11 | 12 of each. */
import { describe, expect, it } from 'vitest';
import { measured } from '../../src/base/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import type { PhraseFacts } from '../../src/measure/index.js';
import { levelFacts } from '../../src/measure/levels.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import type { Occurrence, Score } from '../../src/score/index.js';
import { fourBarPhrases, songOf } from '../judge/levelPlayers.js';
import { AWKWARD } from './awkward.js';
import { struck } from './loudness.js';
import { played, steady, TICKS } from './piece.js';

/** Phrases of the song, its tune as loud as asked and its accompaniment at 40. */
function phrasesOf(score: Score, level: (crotchet: number) => number): PhraseFacts {
  const piece = struck(played(score, { clock: steady(0.5) }), ({ onsetTick, staff }: Occurrence) => (staff === 1 ? level(onsetTick / TICKS) : 40));
  const found = levelFacts({ ...piece, analysis: { phrases: fourBarPhrases(score) } }, barFacts(piece, onsetDeviations(piece)));
  if (!found.measured) throw new RangeError(found.reason);
  return found.value.phrases;
}

/** Quarters of three crotchets at 60, 70, 80 and 65, and the last note at 50; six units less in the second phrase. */
const arch = (crotchet: number): number => {
  const place = crotchet % 16;
  return (place === 12 ? 50 : ([60, 70, 80, 65][Math.floor(place / 3)] ?? 65)) - (crotchet >= 16 ? 6 : 0);
};

describe('the shape of a phrase', () => {
  it('by quarters of its way', () => {
    const { phrases } = phrasesOf(songOf(8), arch);
    // three notes at 60, three at 70, two at 80, four at 65 and one at 50: the last quarter (260 + 50) / 5 = 62, all 860 / 13
    expect(phrases).toHaveLength(2);
    expect(phrases[0]).toMatchObject({ phrase: 0, hand: 'right', fromVisit: 0, toVisit: 3, startS: 0, notes: 13, quarters: measured([60, 70, 80, 62]) });
    expect(phrases[0]?.level).toBeCloseTo(860 / 13, 10);
    // the second begins after sixteen crotchets of half a second
    expect(phrases[1]).toMatchObject({ phrase: 1, fromVisit: 4, toVisit: 7, startS: 8, quarters: measured([54, 64, 74, 56]) });
  });
});

describe('the end of a phrase', () => {
  it('against what leads to it', () => {
    const { endings } = phrasesOf(songOf(8), (crotchet) => (crotchet % 16 === 12 ? 75 : crotchet % 16 === 9.5 ? 70 : 60));
    // led to by 70 (9.5), 60 (10) and 60 (11): 15 over the last, 5 over the loudest; three crotchets after one, on a downbeat
    expect(endings).toHaveLength(2);
    expect(endings[0]).toMatchObject({ of: 'phrase', hand: 'right', visitIndex: 3, startS: 6, overLast: 15, overLoudest: 5, weak: false, longer: 3 });
  });

  it('the end of a slur over three notes and more as well, of one over two not', () => {
    const score = songOf(4);
    const slurred = (fromTick: number, toTick: number): Score => ({
      ...score, notes: score.notes.map((note) => (note.staff === 1 && (note.onsetTick === fromTick || note.onsetTick === toTick) ? { ...note, slurs: [{ number: 1, kind: note.onsetTick === fromTick ? 'start' as const : 'stop' as const }] } : note)),
    });
    const level = (crotchet: number): number => (crotchet === 3 ? 68 : 60);
    expect(phrasesOf(slurred(0, 3 * TICKS), level).endings.filter(({ of }) => of === 'slur')).toMatchObject([{ startS: 1.5, overLast: 8, overLoudest: 8, weak: true, longer: 1 }]);
    expect(phrasesOf(slurred(2 * TICKS, 3 * TICKS), level).endings.filter(({ of }) => of === 'slur')).toEqual([]);
  });

  it('none where the playing broke off', () => {
    const score = songOf(8);
    const piece = struck(played(score, { clock: steady(0.5), visits: [0, 2] }, { clock: steady(0.5, 10), visits: [0, 7] }), () => 60);
    const found = levelFacts({ ...piece, analysis: { phrases: fourBarPhrases(score) } }, barFacts(piece, onsetDeviations(piece)));
    expect(found.measured && found.value.phrases.endings.map(({ stretch }) => stretch)).toEqual([1, 1]);
  });
});

describe('an echo', () => {
  it('four bars that come again, six units softer', () => {
    const { echoes } = phrasesOf(songOf(8), arch);
    expect(echoes).toMatchObject([{ fromVisit: 4, toVisit: 7, startS: 8 }]);
    expect(echoes[0]?.over).toBeCloseTo(-6, 10);
  });

  it('none where a pitch is another one', () => {
    const score = songOf(8);
    const other = score.occurrences.map((one) => (one.staff === 1 && one.onsetTick === 17 * TICKS ? { ...one, midi: one.midi + 1 } : one));
    expect(phrasesOf({ ...score, occurrences: other }, arch).echoes).toEqual([]);
  });
});

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('every number is finite', () => {
    const found = levelFacts({ ...piece, analysis: { phrases: fourBarPhrases(piece.score) } }, barFacts(piece, onsetDeviations(piece)));
    if (!found.measured) {
      expect(found.reason).not.toBe('');
      return;
    }
    const { phrases, endings, echoes } = found.value.phrases;
    for (const value of [...phrases.map(({ level }) => level), ...endings.flatMap(({ overLast, overLoudest, longer }) => [overLast, overLoudest, longer]), ...echoes.map(({ over }) => over)]) expect(Number.isFinite(value)).toBe(true);
  });
});
