/** Words in the engraving: the engraver's nested text flattened to lines of runs, and written again in the page's own face. */
import { isMusicSign, drawnSign, lettered } from './musicText.js';
import { fixed } from './numbers.js';
import { TEXT_DROP, TEXT_RISE, textWidth } from './textWidth.js';
import type { Box } from './box.js';
import { escapeXml, type XmlChild, type XmlElement } from './xmlTree.js';

/** A piece of text of one size and slope, or one music sign that is drawn. */
export interface TextRun {
  readonly text: string;
  readonly size: number;
  readonly italic: boolean;
  readonly bold: boolean;
  readonly sign: boolean;
}

/** Runs that follow one another from one point. */
export interface TextLine {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly runs: readonly TextRun[];
}

/** What text takes from the elements around it. */
interface Style {
  readonly size: number;
  readonly italic: boolean;
  readonly music: boolean;
}

/**
 * The lines of one `<text>` element, in its own units; empty ones are left out.
 * @param italic whether text of this kind stands in italics (dynamics and directions do)
 */
export function readWords(text: XmlElement, italic: boolean): readonly TextLine[] {
  const lines: TextLine[] = [];
  const start = lineAt(text, { x: 0, y: 0, anchor: 'start', runs: [] });
  collect(text, { size: 0, italic, music: false }, { lines, last: start });
  return lines.filter(({ runs }) => runs.some((run) => run.text.trim() !== ''));
}

/** Width of a line. */
export function lineWidth({ runs }: TextLine): number {
  return runs.reduce((sum, run) => sum + runWidth(run), 0);
}

/** Box of a line, from ascenders to descenders. */
export function lineBox(line: TextLine): Box {
  const size = Math.max(...line.runs.map((run) => run.size));
  const left = startOf(line);
  return { left, right: left + lineWidth(line), top: line.y - TEXT_RISE * size, bottom: line.y + TEXT_DROP * size };
}

/** Writes a line as SVG, everything escaped. */
export function writeLine(line: TextLine): string {
  let x = startOf(line);
  return line.runs.map((run) => {
    const at = x;
    x += runWidth(run);
    return run.sign ? (drawnSign(run.text, { x: at, y: line.y, size: run.size })?.svg ?? '') : writeRun(run, { x: at, y: line.y });
  }).join('');
}

/** Where the first run begins. */
function startOf(line: TextLine): number {
  const share = { start: 0, middle: 0.5, end: 1 }[line.anchor];
  return line.x - share * lineWidth(line);
}

/** Room of one run, spaces included. */
function runWidth(run: TextRun): number {
  if (run.sign) return drawnSign(run.text, { x: 0, y: 0, size: run.size })?.advance ?? 0;
  return textWidth(run.text, run);
}

/** A run as text; SVG drops spaces at the ends, so those in front become distance. */
function writeRun(run: TextRun, { x, y }: { readonly x: number; readonly y: number }): string {
  const text = run.text.trim();
  if (text === '') return '';
  const indent = textWidth(run.text.slice(0, run.text.length - run.text.trimStart().length), run);
  const slope = `${run.italic ? ' font-style="italic"' : ''}${run.bold ? ' font-weight="bold"' : ''}`;
  return `<text x="${fixed(x + indent)}" y="${fixed(y)}" font-size="${fixed(run.size)}" stroke="none"${slope}>${escapeXml(text)}</text>`;
}

/** Walks through nested `<tspan>`s; one with a place of its own begins a new line. */
function collect(element: XmlElement, style: Style, into: { readonly lines: TextLine[]; last: TextLine }): void {
  const inner = styleOf(element, style);
  if ('x' in element.attributes || 'y' in element.attributes || into.lines.length === 0) into.lines.push((into.last = lineAt(element, into.last)));
  for (const child of element.children) {
    if (typeof child !== 'string') collect(child, inner, into);
    else into.lines[into.lines.length - 1] = into.last = { ...into.last, runs: joined(into.last.runs, runsOf(child, inner)) };
  }
}

/** Size and slope here, taken from around where not given. */
function styleOf({ attributes }: XmlElement, style: Style): Style {
  const size = Number.parseFloat(attributes['font-size'] ?? '') || style.size;
  const slope = attributes['font-style'];
  return { size, italic: slope === undefined ? style.italic : slope === 'italic', music: attributes['font-family'] ? true : style.music };
}

/** A new, empty line where the element says. */
function lineAt({ attributes }: XmlElement, last: TextLine): TextLine {
  const given = attributes['text-anchor'];
  const anchor = given === 'middle' || given === 'end' || given === 'start' ? given : last.anchor;
  return { x: Number(attributes['x'] ?? last.x) || 0, y: Number(attributes['y'] ?? last.y) || 0, anchor, runs: [] };
}

/** A piece of text cut at music signs. */
function runsOf(text: Extract<XmlChild, string>, { size, italic, music }: Style): readonly TextRun[] {
  // music signs stand in type twice as large as the words around them
  const wordSize = music ? size * MUSIC_TO_WORDS : size;
  // the engraver ties the parts of a mark with no-break spaces, which no table of widths knows
  return text.replaceAll('\u00a0', ' ').replace(SPACE_BEFORE_DOT, '').split(/([\ue000-\uf8ff])/u).filter((piece) => piece !== '').map((piece) => {
    const words = lettered(piece);
    const sign = isMusicSign(words);
    return { text: words, size: wordSize, italic: italic || (!sign && words !== piece), bold: !sign && /^[a-z]+$/.test(words) && words !== piece, sign };
  });
}

/** A dot belongs to its note value: the engraver sets a space between them (SMuFL, augmentation dots of both ranges). */
const SPACE_BEFORE_DOT = / +(?=[\ue1e7\uecb7])/gu;

/** Size of words against the music font's type beside them (405 to 720 of the engraver's units). */
const MUSIC_TO_WORDS = 0.5625;

/** Neighbouring runs of one style are one, so that words keep their spaces. */
function joined(runs: readonly TextRun[], more: readonly TextRun[]): readonly TextRun[] {
  return more.reduce<readonly TextRun[]>((all, run) => {
    const last = all.at(-1);
    const same = last && !last.sign && !run.sign && last.size === run.size && last.italic === run.italic && last.bold === run.bold;
    return same ? [...all.slice(0, -1), { ...last, text: last.text + run.text }] : [...all, run];
  }, runs);
}
