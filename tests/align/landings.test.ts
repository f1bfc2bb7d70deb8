import { describe, expect, it } from 'vitest';
import { LAND_ANYWHERE_SLOTS, MAX_LANDINGS } from '../../src/align/costs.js';
import { indexTriples, landingsFor, tripleOf, TRIPLE_STEP } from '../../src/align/landings.js';
import { layOutSlots } from '../../src/align/slots.js';
import { likelyShift } from '../../src/align/transposition.js';
import { score } from './build.js';
import { plays, tune } from './tune.js';

describe('three-note groups', () => {
  it('are the same in any order, and move by one step a semitone', () => {
    expect(tripleOf(64, 60, 67)).toBe(tripleOf(60, 64, 67));
    expect(tripleOf(60, 64, 68)).not.toBe(tripleOf(60, 64, 67));
    expect(tripleOf(62, 66, 69)).toBe(tripleOf(60, 64, 67) + 2 * TRIPLE_STEP);
  });

  it('are found within three slots, of both hands and of each alone', () => {
    const slots = layOutSlots(score([{ right: 'C4 D4 E4 F4', left: 'C3/2 G3/2' }, { right: 'G4 A4 B4 C5', left: 'E3/4' }]));
    const index = indexTriples(slots);
    expect(index.get(tripleOf(60, 62, 64))).toEqual([0]);
    // C3 with the right hand's first two
    expect(index.get(tripleOf(48, 60, 62))).toEqual([0]);
    // the left hand alone: C3 G3 E3 stand in slots 0, 2 and 4, three slots of the left hand
    expect(index.get(tripleOf(48, 55, 52))).toEqual([0]);
    // C4 E4 F4 span four slots
    expect(index.get(tripleOf(60, 65, 64))).toBeUndefined();
  });

  it('list each place once, ascending, though both hands and one alone find it', () => {
    // the right hand's C4 D4 E4 are alone in bars 1 and 5; in bar 3 a left-hand note comes between them
    const [figure, other] = ['C4 D4 E4 r', 'G4 B4 A4 F4'];
    const index = indexTriples(layOutSlots(score([figure, other, { right: 'C4/2 D4 E4', left: 'r C3/3' }, other, figure])));
    // three slots, four, four with the left hand's own, four
    expect(index.get(tripleOf(60, 62, 64))).toEqual([0, 7, 15]);
    for (const list of index.values()) expect([...list]).toEqual([...new Set(list)].sort((a, b) => a - b));
  });
});

describe('where a jump may land', () => {
  it('is wherever the key is written in a short score', () => {
    const slots = layOutSlots(score(['C4 D4 E4 C4', 'G4 A4 C4 C5']));
    expect([...Array.from(landingsFor(slots, indexTriples(slots), { keys: [60, 0, 0, 0], from: 0 }))]).toEqual([0, 3, 6]);
  });

  // one bar of four different notes, and a bar of its own every tenth time
  const bars = Array.from({ length: 300 }, (_, i) => (i % 10 === 9 ? 'D#4 F#4 A#4 C#5' : 'C4 E4 G4 B4'));
  const long = layOutSlots(score(bars));
  const index = indexTriples(long);

  it('is where the next three notes fit as well in a long one', () => {
    expect(long.count).toBeGreaterThan(LAND_ANYWHERE_SLOTS);
    // D#4 F#4 A#4 C#5 begin bars 10, 20, …: slots 36, 76, …
    const landings = Array.from(landingsFor(long, index, { keys: [63, 66, 70, 73], from: 0 }));
    expect(landings).toHaveLength(30);
    expect(landings.slice(0, 3)).toEqual([36, 76, 116]);
    expect(Array.from(landingsFor(long, index, { keys: [63, 66, 61, 61], from: 0 }))).toEqual([]);
  });

  it('is near the last place where it might be nearly everywhere', () => {
    const landings = Array.from(landingsFor(long, index, { keys: [60, 64, 67, 71], from: 600 }));
    expect(landings).toHaveLength(MAX_LANDINGS);
    // slot 600 begins bar 151, a plain one: it is among them, with about as many before as after
    expect(landings).toContain(600);
    expect(Math.abs(landings.filter((slot) => slot < 600).length - MAX_LANDINGS / 2)).toBeLessThanOrEqual(1);
  });
});

describe('a transposed keyboard', () => {
  const index = indexTriples(layOutSlots(tune()));
  const inTime = plays(1, 8, 0).sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch).map((key) => key.pitch);

  it.each([0, 1, -1, 7, 12, -24, 24])('is guessed from three-note groups: %d', (shift) => {
    expect(likelyShift(index, inTime.map((key) => key + shift))).toBe(shift);
  });

  it('is not looked for beyond two octaves, nor in fewer than three notes', () => {
    expect(likelyShift(index, [61, 63])).toBe(0);
    expect(likelyShift(index, [])).toBe(0);
    expect(Math.abs(likelyShift(index, inTime.map((key) => key + 25)))).not.toBe(25);
  });
});
