import { describe, expect, it } from 'vitest';
import { chordLabel, degreeLabel, writeLabel, type LabelPiece } from '../../../src/engrave/index.js';

const text = (value: string): LabelPiece => ({ kind: 'text', text: value });
const raised = (value: string): LabelPiece => ({ kind: 'raised', text: value });
const stacked = (upper: string, lower: string): LabelPiece => ({ kind: 'stacked', upper, lower });
const FLAT: LabelPiece = { kind: 'flat' };
const SHARP: LabelPiece = { kind: 'sharp' };

// how print sets them: one figure raised, two over each other, signs before the numeral (textbook usage)
describe('degrees', () => {
  it.each<[string, readonly LabelPiece[]]>([
    ['I', [text('I')]],
    ['V7', [text('V'), raised('7')]],
    ['ii65', [text('ii'), stacked('6', '5')]],
    ['V(64)', [text('V'), stacked('6', '4')]],
    ['viiø7', [text('vii'), raised('ø7')]],
    ['viio65/V', [text('vii'), raised('°'), stacked('6', '5'), text('/'), text('V')]],
    ['V7/bVI', [text('V'), raised('7'), text('/'), FLAT, text('VI')]],
    ['bVI', [FLAT, text('VI')]],
    ['#ivo', [SHARP, text('iv'), raised('°')]],
    ['N6', [text('N'), raised('6')]],
    ['Ger6', [text('Ger'), raised('6')]],
    ['III+', [text('III'), raised('+')]],
    ['Imaj7', [text('I'), raised('maj7')]],
    ['V9', [text('V'), raised('9')]],
    // nothing that is known: as it stands
    ['what?', [text('what?')]],
  ])('%s', (degree, pieces) => {
    expect(degreeLabel(degree, 18).pieces).toEqual(pieces);
  });
});

describe('chord names', () => {
  it.each<[string, readonly LabelPiece[]]>([
    ['Am', [text('Am')]],
    ['Bbm7/Db', [text('B'), FLAT, text('m7/D'), FLAT]],
    ['F#dim7', [text('F'), SHARP, text('dim7')]],
    ['Gm7b5', [text('Gm7'), FLAT, text('5')]],
    ['Bb5/F', [text('B'), FLAT, text('5/F')]],
    ['E six-four', [text('E'), stacked('6', '4')]],
    ['C7b9', [text('C7'), FLAT, text('9')]],
    ['F##m', [text('F'), SHARP, SHARP, text('m')]],
  ])('%s', (name, pieces) => {
    expect(chordLabel(name, 15).pieces).toEqual(pieces);
  });
});

describe('drawing a label', () => {
  it('advances by the widths of its pieces and keeps hostile text inert', () => {
    // Alegreya's V is 610 thousandths wide: 10.98 px at 18; the figure stands half a pixel behind it
    const drawn = writeLabel(degreeLabel('V7', 18), 100, 20);
    expect(drawn).toContain('<text x="100" y="20" font-size="18"');
    expect(drawn).toContain('<text x="111.48"');
    expect(degreeLabel('<script>', 18).widthPx).toBeGreaterThan(0);
    expect(writeLabel(degreeLabel('<script>', 18), 0, 0)).not.toContain('<script');
  });
});
