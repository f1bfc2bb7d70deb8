/** Question: which part of this file does the pianist play? The answer is shown to the teacher, who can choose another. */
import { InputError } from '../base/index.js';
import { namesKeyboard, namesLeftHand, namesRightHand } from './partNames.js';
import type { PartInfo } from './types.js';
import { child, childText, childrenNamed, type XmlElement } from './xmlTree.js';

/** A part of the file and what is known of it before it is read. */
interface PartSketch {
  readonly element: XmlElement;
  readonly id: string;
  readonly name: string;
  readonly notes: number;
  readonly staves: number;
}

/** The parts that are read as the piano, upper first, and the list of all parts. */
export interface PartChoice {
  readonly chosen: readonly XmlElement[];
  readonly parts: readonly PartInfo[];
}

/**
 * Finds the piano (our own rule), in this order: the part asked for; of the parts on two or more staves, those named
 * like a keyboard first, then the one with most notes; two parts on one stave each that are named as right and left
 * hand, or that are the only parts and both named like a keyboard or not at all, read together as two staves; a part
 * named like a keyboard; the part with most notes.
 * @param wanted id or name of a part, upper and lower case alike
 * @throws InputError `no-such-part`, or `not-a-score` where the file holds no part
 */
export function chooseParts(root: XmlElement, wanted: string | undefined): PartChoice {
  const sketches = sketchParts(root);
  if (sketches.length === 0)
    throw new InputError('not-a-score', 'This score holds no part; expected at least one with bars in it.', { line: root.line });
  const chosen = wanted === undefined ? findPiano(sketches) : findWanted(sketches, wanted);
  return {
    chosen: chosen.map((sketch) => sketch.element),
    parts: sketches.map((sketch) => ({ id: sketch.id, name: sketch.name, notes: sketch.notes, chosen: chosen.includes(sketch) })),
  };
}

/** Every part with its name from the list of parts. */
function sketchParts(root: XmlElement): readonly PartSketch[] {
  const list = child(root, 'part-list');
  const names = new Map(
    (list === undefined ? [] : childrenNamed(list, 'score-part')).map((entry) => [
      entry.attributes['id'] ?? '',
      childText(entry, 'part-name') ?? '',
    ]),
  );
  return childrenNamed(root, 'part').map((element) => {
    const id = element.attributes['id'] ?? '';
    return { element, id, name: names.get(id) ?? '', ...countPart(element) };
  });
}

/** Pitched notes, and the highest stave number that is declared or used. */
function countPart(part: XmlElement): { readonly notes: number; readonly staves: number } {
  let notes = 0;
  let staves = 1;
  for (const measure of part.children) {
    for (const element of measure.children) {
      if (element.name === 'note' && child(element, 'pitch') !== undefined) notes += 1;
      const stave =
        element.name === 'note' ? childText(element, 'staff') : element.name === 'attributes' ? childText(element, 'staves') : undefined;
      if (stave !== undefined) staves = Math.max(staves, Number(stave) || 1);
    }
  }
  return { notes, staves };
}

/** The part that was asked for, by id first, then by name. */
function findWanted(sketches: readonly PartSketch[], wanted: string): readonly PartSketch[] {
  const key = wanted.trim().toLowerCase();
  const found = sketches.find((sketch) => sketch.id.toLowerCase() === key) ?? sketches.find((sketch) => sketch.name.toLowerCase() === key);
  if (found === undefined) {
    const known = sketches.map((sketch) => (sketch.name === '' ? sketch.id : `${sketch.id} (${sketch.name})`)).join(', ');
    throw new InputError('no-such-part', `There is no part of that id or name; expected one of: ${known}.`);
  }
  return [found];
}

/** The rule of `chooseParts` where no part was asked for. */
function findPiano(sketches: readonly PartSketch[]): readonly PartSketch[] {
  const twoStaves = sketches.filter((sketch) => sketch.staves >= 2 && sketch.notes > 0);
  const named = (all: readonly PartSketch[]): readonly PartSketch[] => all.filter((sketch) => namesKeyboard(sketch.name));
  if (twoStaves.length > 0) return mostNotes(named(twoStaves).length > 0 ? named(twoStaves) : twoStaves);
  const hands = twoHands(sketches);
  if (hands !== null) return hands;
  return mostNotes(named(sketches).length > 0 ? named(sketches) : sketches);
}

/** Two parts that are the two hands of one piano, right hand first; null where there are none. */
function twoHands(sketches: readonly PartSketch[]): readonly PartSketch[] | null {
  const right = sketches.filter((sketch) => namesRightHand(sketch.name));
  const left = sketches.filter((sketch) => namesLeftHand(sketch.name));
  if (right.length === 1 && left.length === 1) return [...right, ...left];
  const plain = sketches.every((sketch) => sketch.name === '' || namesKeyboard(sketch.name));
  return sketches.length === 2 && plain ? sketches : null;
}

/** The part with most notes; of equals the first in the file. */
function mostNotes(sketches: readonly PartSketch[]): readonly PartSketch[] {
  return sketches.toSorted((a, b) => b.notes - a.notes).slice(0, 1);
}
