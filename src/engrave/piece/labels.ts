/**
 * Names of harmonies as print sets them: degrees with their figures raised or stacked, chord names with drawn accidentals (the text
 * face has none). A label is a row of pieces whose widths are known, so that it can be placed without asking a browser.
 */
import { fixed } from '../numbers.js';
import { textWidth } from '../textWidth.js';
import { escapeXml } from '../xmlTree.js';

/** A piece of a label. */
export type LabelPiece =
  | { readonly kind: 'text'; readonly text: string }
  /** Raised and small. */
  | { readonly kind: 'raised'; readonly text: string }
  /** Two figures over each other. */
  | { readonly kind: 'stacked'; readonly upper: string; readonly lower: string }
  | { readonly kind: 'flat' | 'sharp' };

/** A label and the room it takes. */
export interface Label {
  readonly pieces: readonly LabelPiece[];
  readonly size: number;
  readonly widthPx: number;
}

/** Figures against the type beside them: 12 px beside 18. */
const SMALL_SHARE = 2 / 3;

/** Heights of raised and stacked figures over the base line, shares of the size. */
const RAISED = 0.36;
const UPPER = 0.42;
const LOWER = -0.12;

/** Widths of the drawn accidentals, shares of the size. */
const SIGN_WIDTH = { flat: 0.34, sharp: 0.46 } as const;

/** "bVII", "viiø65/V", "N6", "V(64)": sign, numeral, quality, figures, what it leads to. */
const DEGREE = /^([b#]*)([IViv]+|N|It|Ger|Fr)(maj|o|ø|\+)?\(?(\d*)\)?(\/.*)?$/;

/** A degree as it is printed. One in another spelling than expected stays as it is. */
export function degreeLabel(degree: string, size: number): Label {
  const found = DEGREE.exec(degree);
  if (found === null) return labelOf([{ kind: 'text', text: degree }], size);
  const [, signs = '', numeral = '', quality = '', figures = '', leads = ''] = found;
  const marks = quality === 'o' ? '°' : quality;
  return labelOf([...signed(signs), { kind: 'text', text: numeral }, ...figured(marks, figures), ...(leads === '' ? [] : strokePieces(leads))], size);
}

/** A chord name as it is printed: "B♭m7/D♭", "E six-four" with its figures stacked. */
export function chordLabel(name: string, size: number): Label {
  const [chord = '', figures] = name.split(' ');
  if (figures === 'six-four') return labelOf([...pieces(chord), { kind: 'stacked', upper: '6', lower: '4' }], size);
  return labelOf(pieces(name), size);
}

/** Words with note names in them, "E♭ minor" from "Eb minor". */
export function wordsLabel(text: string, size: number): Label {
  return labelOf(pieces(text), size);
}

/** The same label in brackets: what goes on from before. */
export function inBrackets({ pieces: inner, size }: Label): Label {
  return labelOf([{ kind: 'text', text: '(' }, ...inner, { kind: 'text', text: ')' }], size);
}

/** Draws a label from x on a base line. */
export function writeLabel({ pieces: parts, size }: Label, x: number, baseline: number): string {
  let at = x;
  return parts.map((piece) => {
    const from = at;
    at += widthOf(piece, size);
    return write(piece, { x: from, baseline, size });
  }).join('');
}

/** Pieces with their width. */
function labelOf(parts: readonly LabelPiece[], size: number): Label {
  return { pieces: parts, size, widthPx: parts.reduce((sum, piece) => sum + widthOf(piece, size), 0) };
}

/** Accidentals in front. */
function signed(signs: string): readonly LabelPiece[] {
  return Array.from(signs, (sign) => ({ kind: sign === 'b' ? 'flat' : 'sharp' }));
}

/** Quality sign and figures: two figures are stacked, all else is raised. */
function figured(quality: string, figures: string): readonly LabelPiece[] {
  if (figures.length !== 2) return quality + figures === '' ? [] : [{ kind: 'raised', text: quality + figures }];
  const stacked: LabelPiece = { kind: 'stacked', upper: figures.charAt(0), lower: figures.charAt(1) };
  return quality === '' ? [stacked] : [{ kind: 'raised', text: quality }, stacked];
}

/** "/V", "/bVI". */
function strokePieces(leads: string): readonly LabelPiece[] {
  const signs = leads.slice(1).replace(/[^b#].*$/, '');
  return [{ kind: 'text', text: '/' }, ...signed(signs), { kind: 'text', text: leads.slice(1 + signs.length) }];
}

/** Text cut at the accidentals of note names and of figures ("F#", "b5"). */
function pieces(name: string): readonly LabelPiece[] {
  return name.split(/((?<=(?:^|[^A-Za-z])[A-G])[b#]{1,2}|[b#](?=\d))/).filter((part) => part !== '').flatMap((part) =>
    /^[b#]{1,2}$/.test(part) ? signed(part) : [{ kind: 'text', text: part } as const],
  );
}

/** Room of one piece. */
function widthOf(piece: LabelPiece, size: number): number {
  switch (piece.kind) {
    case 'text':
      return textWidth(piece.text, { size });
    case 'raised':
      return textWidth(piece.text, { size: size * SMALL_SHARE }) + 1;
    case 'stacked':
      return Math.max(...[piece.upper, piece.lower].map((figure) => textWidth(figure, { size: size * SMALL_SHARE }))) + 1;
    case 'flat':
    case 'sharp':
      return SIGN_WIDTH[piece.kind] * size;
  }
}

/** One piece as SVG. */
function write(piece: LabelPiece, { x, baseline, size }: { readonly x: number; readonly baseline: number; readonly size: number }): string {
  const small = size * SMALL_SHARE;
  switch (piece.kind) {
    case 'text':
      return text(piece.text, { x, y: baseline, size });
    case 'raised':
      return text(piece.text, { x: x + 0.5, y: baseline - RAISED * size, size: small });
    case 'stacked':
      return text(piece.upper, { x: x + 0.5, y: baseline - UPPER * size, size: small }) + text(piece.lower, { x: x + 0.5, y: baseline - LOWER * size, size: small });
    case 'flat':
    case 'sharp':
      return `<path d="${SIGN_PATHS[piece.kind](x, baseline, size)}" fill="none" stroke="currentColor" stroke-width="${fixed(0.065 * size)}" stroke-linecap="round"/>`;
  }
}

/** Words and figures; figures stand in line with capitals. */
function text(content: string, { x, y, size }: { readonly x: number; readonly y: number; readonly size: number }): string {
  return `<text x="${fixed(x)}" y="${fixed(y)}" font-size="${fixed(size)}" xml:space="preserve">${escapeXml(content)}</text>`;
}

/** Outlines of the accidentals, shares of the size: as tall as the capitals beside them. */
const SIGN_PATHS = {
  flat: (x: number, y: number, size: number): string => {
    const p = (dx: number, dy: number): string => `${fixed(x + dx * size)} ${fixed(y - dy * size)}`;
    return `M${p(0.06, 0.78)}L${p(0.06, 0)}C${p(0.2, 0.08)} ${p(0.31, 0.22)} ${p(0.25, 0.34)}C${p(0.21, 0.42)} ${p(0.1, 0.38)} ${p(0.06, 0.28)}`;
  },
  sharp: (x: number, y: number, size: number): string => {
    const p = (dx: number, dy: number): string => `${fixed(x + dx * size)} ${fixed(y - dy * size)}`;
    return `M${p(0.14, -0.04)}L${p(0.14, 0.66)}M${p(0.29, 0.02)}L${p(0.29, 0.72)}M${p(0.03, 0.18)}L${p(0.4, 0.27)}M${p(0.03, 0.42)}L${p(0.4, 0.51)}`;
  },
} as const;
