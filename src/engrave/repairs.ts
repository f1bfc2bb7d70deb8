/** The single repairs, one fault each. All are pure and leave a sound score as it is. */
import { childNamed, elementsOf, textOf, type XmlElement } from './xmlTree.js';

/** Elements of `attributes` that stand before `staves` in the order that MusicXML asks for. */
const BEFORE_STAVES = new Set(['footnote', 'level', 'divisions', 'key', 'time']);

/** Most staves that a missing declaration is repaired to; more is nonsense that the engraver would hang on. */
const MOST_STAVES = 8;

/**
 * `<chord/>` on a note that follows no note (start of the bar, `<backup>`, `<forward>`): the engraver reads outside
 * its memory. The sign is taken away; the note stays.
 */
export function strayChords(measure: XmlElement): XmlElement {
  let afterNote = false;
  const children = elementsOf(measure).map((child) => {
    const stray = child.name === 'note' && !afterNote;
    if (child.name === 'note') afterNote = true;
    if (child.name === 'backup' || child.name === 'forward') afterNote = false;
    return stray ? without(child, 'chord') : child;
  });
  return { ...measure, children };
}

/** Beams of notes that are not printed hang in the air: they go, the notes keep their place. */
export function beamsOfHiddenNotes(measure: XmlElement): XmlElement {
  const children = elementsOf(measure).map((child) =>
    child.name === 'note' && child.attributes['print-object'] === 'no' ? without(child, 'beam') : child,
  );
  return { ...measure, children };
}

/**
 * Harmony elements that hold an analyst's notes and no chord (kind "none", or a function of the key) would be printed
 * as the chord C: they go. Real chord symbols stay.
 */
export function analystsNotes(measure: XmlElement): XmlElement {
  return { ...measure, children: elementsOf(measure).filter((child) => child.name !== 'harmony' || isChordSymbol(child)) };
}

/** Rests gathered over several bars would take bars out of the picture: every bar is to have its own place. */
export function multipleRests(measure: XmlElement): XmlElement {
  const children = elementsOf(measure).map((child) => (child.name === 'attributes' ? withoutGatheredRests(child) : child));
  return { ...measure, children };
}

/**
 * A part that uses two staves and declares none is engraved on one: the declaration goes into the first
 * `<attributes>` that holds a clef (else the first there is).
 */
export function undeclaredStaves(part: XmlElement): XmlElement {
  const attributes = elementsOf(part).flatMap(elementsOf).filter((child) => child.name === 'attributes');
  const staves = Math.min(stavesUsed(part), MOST_STAVES);
  const target = attributes.find((candidate) => childNamed(candidate, 'clef')) ?? attributes[0];
  if (staves < 2 || !target || attributes.some((candidate) => childNamed(candidate, 'staves'))) return part;
  const place = target.children.filter((child) => typeof child !== 'string' && BEFORE_STAVES.has(child.name));
  const rest = target.children.filter((child) => !place.includes(child));
  const declared = { ...target, children: [...place, { name: 'staves', attributes: {}, children: [String(staves)] }, ...rest] };
  return replaceIn(part, target, declared);
}

/** The part list with this part alone and without names, which would cost some 75 px of every system. */
export function partNames(list: XmlElement, part: string): XmlElement {
  const blank = { name: 'part-name', attributes: { 'print-object': 'no' }, children: [] };
  return { ...list, children: [{ name: 'score-part', attributes: { id: part }, children: [blank] }] };
}

/** Number of the highest stave that a note of this part stands on, at least 1. */
export function stavesUsed(part: XmlElement): number {
  const numbers = elementsOf(part)
    .flatMap(elementsOf)
    .flatMap((child) => (child.name === 'note' ? (childNamed(child, 'staff') ?? []) : []))
    .map((staff) => Number(textOf(staff).trim()));
  return numbers.reduce((most, n) => (Number.isInteger(n) && n > most ? n : most), 1);
}

/** A chord symbol names a root and a kind of chord. */
function isChordSymbol(harmony: XmlElement): boolean {
  const kind = childNamed(harmony, 'kind');
  return childNamed(harmony, 'root') !== undefined && kind !== undefined && textOf(kind).trim() !== 'none';
}

/** The attributes without the style of gathered rests. */
function withoutGatheredRests(attributes: XmlElement): XmlElement {
  const children = elementsOf(attributes).filter((child) => child.name !== 'measure-style' || !childNamed(child, 'multiple-rest'));
  return { ...attributes, children };
}

/** An element without its children of one name. */
function without(element: XmlElement, name: string): XmlElement {
  return { ...element, children: elementsOf(element).filter((child) => child.name !== name) };
}

/** The part with one attributes element exchanged for another. */
function replaceIn(part: XmlElement, target: XmlElement, by: XmlElement): XmlElement {
  const swap = (measure: XmlElement): XmlElement => ({ ...measure, children: measure.children.map((child) => (child === target ? by : child)) });
  return { ...part, children: elementsOf(part).map(swap) };
}
