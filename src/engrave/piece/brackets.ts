/**
 * Brackets over a system: one for each section that lies in it, from bar line to bar line, hooked where the section begins and ends,
 * open where it goes on over the end of the system.
 */
import { fixed } from '../numbers.js';
import { pencilStroke } from '../pencil.js';
import { textWidth } from '../textWidth.js';
import { escapeXml } from '../xmlTree.js';
import type { EngravedSystem } from '../types.js';

/** A section as it is drawn. */
export interface BracketedSection {
  /** Bars by place in `Score.bars`, last inclusive. */
  readonly fromBar: number;
  readonly toBar: number;
  /** "A'", "coda". */
  readonly name: string;
  /** What is to be said of it in a few words; "" for nothing. */
  readonly caption: string;
}

/** A bracket in one system. */
export interface Bracket {
  readonly section: BracketedSection;
  readonly fromX: number;
  readonly toX: number;
  readonly begins: boolean;
  readonly ends: boolean;
}

/** Height of a bracket with its name, px: hooks, line, name over it. */
export const BRACKET_HEIGHT_PX = 29;

/** Depth of the hooks, and distance of neighbouring brackets from their bar line, px. */
const HOOK_PX = 8;
const CLEAR_PX = 3;

/** Base line of the name over the line, its room at the sides, and its sizes, px. */
const NAME_OVER_PX = 6;
const NAME_PX = 18;
const CAPTION_PX = 15;
const INDENT_PX = 3;
const BETWEEN_PX = 9;

/** The brackets of one system. */
export function bracketsOf(system: EngravedSystem, sections: readonly BracketedSection[]): readonly Bracket[] {
  return sections.flatMap((section): readonly Bracket[] => {
    const bars = system.bars.filter(({ barIndex }) => barIndex >= section.fromBar && barIndex <= section.toBar);
    const [first, last] = [bars[0], bars.at(-1)];
    if (first === undefined || last === undefined) return [];
    return [{ section, fromX: first.left, toX: last.right, begins: first.barIndex === section.fromBar, ends: last.barIndex === section.toBar }];
  });
}

/** Draws a bracket. @param bottom lowest point of the hooks, px */
export function bracketSvg(bracket: Bracket, bottom: number): string {
  const { section, begins, ends } = bracket;
  const left = bracket.fromX + (begins ? CLEAR_PX : 0);
  const right = bracket.toX - (ends ? CLEAR_PX : 0);
  const line = bottom - HOOK_PX;
  const seed = 31 * section.fromBar + section.toBar;
  const strokes = [
    begins ? pencilStroke([{ x: left, y: bottom }, { x: left, y: line }], { seed, jitterPx: 0.25, plain: true }) : '',
    pencilStroke(alongLine(left, right, line), { seed: seed + 1, jitterPx: 0.45, plain: true }),
    ends ? pencilStroke([{ x: right, y: line }, { x: right, y: bottom }], { seed: seed + 2, jitterPx: 0.25, plain: true }) : '',
  ];
  const title = section.caption === '' ? section.name : `${section.name}: ${section.caption}`;
  const data = `data-from="${section.fromBar}" data-to="${section.toBar}"`;
  return `<g class="bracket" aria-hidden="true" ${data}><title>${escapeXml(title)}</title>${strokes.join('')}${nameSvg(bracket, left, line - NAME_OVER_PX)}</g>`;
}

/** The name, and after it the caption where it fits; in later systems only that it goes on. */
function nameSvg({ section, toX, begins }: Bracket, left: number, baseline: number): string {
  const x = left + INDENT_PX;
  const room = toX - x - INDENT_PX;
  if (!begins) return fitting([`${section.name}, continued`, section.name], room, { x, baseline, className: 'bracket-caption' });
  const width = textWidth(section.name, { size: NAME_PX });
  const name = `<text class="bracket-name" x="${fixed(x)}" y="${fixed(baseline)}" font-size="${NAME_PX}">${escapeXml(section.name)}</text>`;
  const captions = section.caption === '' ? [] : [section.caption, ...shorter(section.caption)];
  return name + fitting(captions, room - width - BETWEEN_PX, { x: x + width + BETWEEN_PX, baseline, className: 'bracket-caption' });
}

/** The caption without its last clauses. */
function shorter(caption: string): readonly string[] {
  const clauses = caption.split(', ');
  return clauses.slice(1).map((_, i) => clauses.slice(0, clauses.length - 1 - i).join(', '));
}

/** The first of these texts that fits, in small italics; nothing where none does. */
function fitting(texts: readonly string[], room: number, { x, baseline, className }: { readonly x: number; readonly baseline: number; readonly className: string }): string {
  const text = texts.find((one) => textWidth(one, { size: CAPTION_PX, italic: true }) <= room);
  return text === undefined ? '' : `<text class="${className}" x="${fixed(x)}" y="${fixed(baseline)}" font-size="${CAPTION_PX}" font-style="italic">${escapeXml(text)}</text>`;
}

/** A hand wavers once in about so many px. */
const WAVER_EVERY_PX = 60;

/** Points along a level line. */
function alongLine(from: number, to: number, y: number): readonly { readonly x: number; readonly y: number }[] {
  const pieces = Math.max(1, Math.round((to - from) / WAVER_EVERY_PX));
  return Array.from({ length: pieces + 1 }, (_, i) => ({ x: from + ((to - from) * i) / pieces, y }));
}
