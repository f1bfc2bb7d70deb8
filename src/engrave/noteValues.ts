/** Printed note values where a file gives lengths alone: the engraver would draw them all as crotchets. */
import { childNamed, elementsOf, textOf, type XmlElement } from './xmlTree.js';

/** Note values and their length in crotchets, longest first; names as in MusicXML. */
const VALUES: readonly (readonly [string, number])[] = [
  ['breve', 8], ['whole', 4], ['half', 2], ['quarter', 1], ['eighth', 1 / 2], ['16th', 1 / 4], ['32nd', 1 / 8], ['64th', 1 / 16], ['128th', 1 / 32],
];

/** What a dot, two and three dots make of a length. */
const DOTTED = [1, 3 / 2, 7 / 4, 15 / 8] as const;

/** Lengths this close are the same, as a share: files round triplets to whole divisions. */
const SAME_SHARE = 0.02;

/** Elements of `note` that stand before `type` in the order that MusicXML asks for. */
const BEFORE_TYPE = new Set(['grace', 'cue', 'chord', 'pitch', 'unpitched', 'rest', 'duration', 'tie', 'instrument', 'footnote', 'level', 'voice']);

/** A part whose notes all say their printed value; those that do already stay as they are. */
export function missingValues(part: XmlElement): XmlElement {
  let divisions = 1;
  const change = (child: XmlElement): XmlElement => {
    if (child.name === 'attributes') divisions = numberIn(child, 'divisions') ?? divisions;
    return child.name === 'note' && needsValue(child) ? withValue(child, divisions) : child;
  };
  return { ...part, children: elementsOf(part).map((measure) => ({ ...measure, children: elementsOf(measure).map(change) })) };
}

/** Value and dots of a length in crotchets; where nothing fits, the longest value that is not too long. */
export function valueOf(crotchets: number): { readonly type: string; readonly dots: number } {
  for (const [type, length] of VALUES) {
    const dots = DOTTED.findIndex((factor) => Math.abs(crotchets - factor * length) <= SAME_SHARE * crotchets);
    if (dots >= 0) return { type, dots };
  }
  return { type: VALUES.find(([, length]) => length <= crotchets)?.[0] ?? '128th', dots: 0 };
}

/** Rests of a whole bar need no value: they are drawn by the bar. */
function needsValue(note: XmlElement): boolean {
  return !childNamed(note, 'type') && childNamed(note, 'rest')?.attributes['measure'] !== 'yes';
}

/** Puts value and dots where the schema wants them; grace notes, which have no length, are quavers. */
function withValue(note: XmlElement, divisions: number): XmlElement {
  const { type, dots } = childNamed(note, 'grace') ? { type: 'eighth', dots: 0 } : valueOf(printedCrotchets(note, divisions));
  const given = elementsOf(note).filter(({ name }) => name === 'dot').length;
  const before = elementsOf(note).filter(({ name }) => BEFORE_TYPE.has(name));
  const after = elementsOf(note).filter(({ name }) => !BEFORE_TYPE.has(name));
  const added = Array.from({ length: Math.max(0, dots - given) }, () => ({ name: 'dot', attributes: {}, children: [] }));
  return { ...note, children: [...before, { name: 'type', attributes: {}, children: [type] }, ...added, ...after] };
}

/** Sounding length times what the tuplet takes from it. */
function printedCrotchets(note: XmlElement, divisions: number): number {
  const tuplet = childNamed(note, 'time-modification');
  const factor = tuplet ? (numberIn(tuplet, 'actual-notes') ?? 1) / (numberIn(tuplet, 'normal-notes') ?? 1) : 1;
  return ((numberIn(note, 'duration') ?? divisions) / divisions) * factor;
}

/** A positive number in a child element; undefined for anything else. */
function numberIn(element: XmlElement, name: string): number | undefined {
  const child = childNamed(element, name);
  const value = child ? Number(textOf(child).trim()) : Number.NaN;
  return value > 0 ? value : undefined;
}
