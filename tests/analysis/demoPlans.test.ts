/**
 * The demo pieces against what their composer wrote down beside them: sections, cadences, and where a foot moves. Witness: the
 * planned facts; for the pedal the bars worked through by hand in the comments.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyseScore, type Analysis } from '../../src/analysis/index.js';
import { facts, type PieceFacts } from '../../src/demo/index.js';
import { readScore, type Score } from '../../src/score/index.js';

/** A demo piece with its analysis and its plan. */
function piece(slug: string): { readonly score: Score; readonly analysis: Analysis; readonly plan: PieceFacts } {
  const file = new URL(`../../sample-recordings/${slug}/score.musicxml`, import.meta.url);
  const score = readScore(new Uint8Array(readFileSync(file)), { fileName: 'score.musicxml' });
  return { score, analysis: analyseScore(score), plan: facts.find((one) => one.piece === slug)! };
}

const number = (score: Score, bar: number): string => score.bars[bar]!.number;

/** The plans say "half" for what is called imperfect here. */
const kindOf = (kind: string): string => (kind === 'half' ? 'imperfect' : kind);

describe.each(['rowing-home', 'evening-over-skerrowby', 'quayside-march'])('%s', (slug) => {
  const { score, analysis, plan } = piece(slug);

  it('has its sections where they are planned', () => {
    const found = analysis.sections.map(({ fromBar, toBar }) => `${number(score, fromBar)}-${number(score, toBar)}`);
    // an upbeat belongs to the section that it leads into; the analysis counts from the first whole bar
    expect(found).toEqual(plan.sections.map(({ bars: [from, to] }) => `${from === '0' ? '1' : from}-${to}`));
  });

  it('has every planned cadence, but for the close that a second ending writes again', () => {
    const endings = new Set(score.bars.filter((bar) => bar.endings.includes(2)).map((bar) => bar.number));
    const planned = plan.cadences.filter((one) => !endings.has(one.bar)).map((one) => `${one.bar} ${kindOf(one.kind)}`);
    expect(analysis.cadences.map((one) => `${number(score, one.barIndex)} ${one.kind}`)).toEqual(expect.arrayContaining(planned));
  });
});

describe('cadences', () => {
  it.each(['rowing-home', 'evening-over-skerrowby'])('%s has none beside the planned ones', (slug) => {
    const { score, analysis, plan } = piece(slug);
    expect(analysis.cadences.map((one) => `${number(score, one.barIndex)} ${one.kind}`)).toEqual(plan.cadences.map((one) => `${one.bar} ${kindOf(one.kind)}`));
  });
});

/** "2 0 change": printed bar, crotchets into it, what the foot does. */
const moves = (slug: string, bars: readonly string[]): readonly string[] => {
  const { score, analysis } = piece(slug);
  return analysis.pedalPlan.entries.filter((entry) => bars.includes(number(score, entry.barIndex))).map((entry) => `${number(score, entry.barIndex)} ${entry.offset} ${entry.kind}`);
};

describe('where a foot moves', () => {
  it('the evening piece: with each new bass, though the tune is tied over the bar line, and twice where the bar has two harmonies', () => {
    // A flat, E flat 7, A flat over C, E flat, A flat, D flat: one a bar; bar 7 B flat minor and, on three, E flat 7; bar 8 A flat; 9-12 ring
    expect(moves('evening-over-skerrowby', ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'])).toEqual([
      '1 0 down', '2 0 change', '3 0 change', '4 0 change', '5 0 change', '6 0 change', '7 0 change', '7 2 change', '8 0 change', '9 0 ring',
    ]);
  });

  it('the evening piece again: G flat over B flat, the six-four and its dominant, and D flat turned minor', () => {
    expect(moves('evening-over-skerrowby', ['17', '18', '19', '20', '21', '25', '26', '27', '28', '29'])).toEqual([
      '17 0 change', '18 0 change', '18 2 change', '19 0 change', '20 0 change', '21 0 change', '25 0 change', '25 2 change', '26 0 change',
      '27 0 change', '27 2 change', '28 0 change', '28 2 change', '29 0 change',
    ]);
  });

  it('the barcarolle: as marked, with the bar, and on the half bar where the harmony turns there', () => {
    // bar 7 has D minor and E 7, a dotted crotchet each; so have 23 and 26
    expect(moves('rowing-home', ['1', '2', '3', '4', '5', '6', '7', '8', '22', '23', '24', '26', '27'])).toEqual([
      '1 0 down', '2 0 change', '3 0 change', '4 0 change', '5 0 change', '6 0 change', '7 0 change', '7 1.5 change', '8 0 change',
      '22 0 change', '23 0 change', '23 1.5 change', '24 0 change', '26 0 change', '26 1.5 change', '27 0 change',
    ]);
  });

  it('the march and the quick piece: never, since the left hand is staccato', () => {
    for (const slug of ['quayside-march', 'gull-chase']) expect(new Set(piece(slug).analysis.pedalPlan.entries.map((entry) => entry.kind))).toEqual(new Set(['none']));
  });
});

describe('the quick piece', () => {
  it('has its two Italian sixths, though a semiquaver passes through the supertonic', () => {
    const { score, analysis } = piece('gull-chase');
    const found = analysis.harmonies.filter((one) => one.quality === 'italianSixth').map((one) => number(score, one.barIndex));
    expect(found).toEqual(['7', '31']);
  });
});
