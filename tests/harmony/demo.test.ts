/** The demo pieces against the chords planned bar by bar in their source, and speed. Witness: the plans. */
import { readFileSync } from 'node:fs';
import { expect, test, describe } from 'vitest';
import { pieces } from '../../src/demo/index.js';
import { analyseHarmony } from '../../src/harmony/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import { piece } from './build.js';

const LETTERS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Root of a planned chord such as "F#m" or "Bb7". */
function rootOf(chord: string): number {
  const sign = chord.startsWith('#', 1) ? 1 : chord.startsWith('b', 1) ? -1 : 0;
  return ((LETTERS[chord.charAt(0)] ?? 0) + sign + 12) % 12;
}

function load(slug: string): Score {
  const file = new URL(`../../sample-recordings/${slug}/score.musicxml`, import.meta.url);
  return readScore(new Uint8Array(readFileSync(file)), { fileName: `${slug}.musicxml` });
}

/** Sixteenths, the unit of the plans, to a crotchet. */
const DIVISIONS = 4;

describe.each(['quayside-march', 'rowing-home', 'evening-over-skerrowby'])('%s', (slug) => {
  const score = load(slug);
  const plan = pieces.find((candidate) => candidate.slug === slug)!;
  const { harmonies, globalKey } = analyseHarmony(score);

  test('key', () => {
    expect(globalKey?.mode).toBe(plan.mode);
  });

  test('every planned chord is found where it is planned', () => {
    const found = plan.bars.flatMap(({ harmony, number }, barIndex) =>
      harmony.map(([at, chord]) => {
        const bar = score.bars[barIndex]!;
        const tick = bar.startTick + (at / DIVISIONS) * score.ticksPerQuarter;
        const there = harmonies.findLast(({ fromTick }) => fromTick <= tick);
        // a cadential six-four belongs to its dominant: the plan names it by the notes of its tonic
        const roots = there?.degree === 'V(64)' ? [there.root, (there.root! + 5) % 12] : [there?.root];
        return roots.includes(rootOf(chord)) ? 'right' : `bar ${number}: ${chord} found as ${String(there?.name)}`;
      }),
    );
    expect(found.filter((text) => text !== 'right')).toEqual([]);
  });
});

test('five thousand notes are analysed to the end', () => {
  // 156 bars of eight chords of four notes: 4,992 notes
  const bar = ['E4+G4+C5', 'F4+A4+C5', 'D4+F4+B4', 'E4+G4+C5'].flatMap((chord) => [`${chord}:0.5`, `${chord}:0.5`]).join(' ');
  const bass = 'C3:0.5 C3:0.5 F3:0.5 F3:0.5 G3:0.5 G3:0.5 C3:0.5 C3:0.5';
  const score = piece({ voices: [Array<string>(156).fill(bar).join(' '), Array<string>(156).fill(bass).join(' ')] });
  expect(analyseHarmony(score).harmonies.at(-1)?.barIndex).toBe(155);
});
