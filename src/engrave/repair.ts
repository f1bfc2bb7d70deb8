/**
 * Repairs of the MusicXML copy that the engraver gets. Each fault below was met in real scores and makes the
 * engraver crash, lose a hand or draw nonsense; the score that is read and measured is never changed.
 */
import { childNamed, elementsOf, parseXml, writeXml, type XmlElement } from './xmlTree.js';
import { missingValues } from './noteValues.js';
import { analystsNotes, beamsOfHiddenNotes, multipleRests, partNames, strayChords, undeclaredStaves } from './repairs.js';

/** The copy for the engraver and the way back from its note ids. */
export interface RepairedScore {
  readonly xml: string;
  /** Id in the score of every pitched note of the part, by the engraver's own number of the note (`bw-0`, `bw-1` …). */
  readonly noteIds: readonly string[];
}

/** Which part to engrave. */
export interface RepairOptions {
  /** Part id; the first part where it is left out or not there. */
  readonly part?: string;
}

/** Prefix of the ids that the engraver sees; plain, so that no odd id of a file can upset it. */
export const ENGRAVER_ID = 'bw-';

/**
 * The repaired copy: one part only, no names in the margin, notes numbered.
 * @param xml MusicXML with an id on every note, partwise or timewise
 * @throws InputError `not-well-formed`
 */
export function repairForEngraving(xml: string, options: RepairOptions = {}): RepairedScore {
  const root = partwise(parseXml(xml));
  const parts = elementsOf(root).filter((child) => child.name === 'part');
  const part = parts.find((candidate) => candidate.attributes['id'] === options.part) ?? parts[0];
  if (!part) return { xml: writeXml(root), noteIds: [] };
  const noteIds: string[] = [];
  const repaired = renumber(undeclaredStaves(missingValues(mapMeasures(part, repairMeasure))), noteIds);
  const list = childNamed(root, 'part-list') ?? { name: 'part-list', attributes: {}, children: [] };
  const children = [partNames(list, part.attributes['id'] ?? ''), repaired];
  return { xml: writeXml({ name: 'score-partwise', attributes: { version: '4.0' }, children }), noteIds };
}

/** All repairs that need one measure only. */
function repairMeasure(measure: XmlElement): XmlElement {
  return analystsNotes(multipleRests(beamsOfHiddenNotes(strayChords(measure))));
}

/** Changes the measures and leaves all else. */
function mapMeasures(part: XmlElement, change: (measure: XmlElement) => XmlElement): XmlElement {
  return { ...part, children: elementsOf(part).map((child) => (child.name === 'measure' ? change(child) : child)) };
}

/** Gives every note a plain id in order and notes down which note of the score it is; rests and other things lose theirs. */
function renumber(element: XmlElement, noteIds: string[]): XmlElement {
  const attributes = Object.fromEntries(Object.entries(element.attributes).filter(([name]) => name !== 'id' || element.name === 'part'));
  if (element.name !== 'note') {
    return { ...element, attributes, children: element.children.map((child) => (typeof child === 'string' ? child : renumber(child, noteIds))) };
  }
  if (childNamed(element, 'rest')) return { ...element, attributes };
  noteIds.push(element.attributes['id'] ?? '');
  return { ...element, attributes: { ...attributes, id: `${ENGRAVER_ID}${noteIds.length - 1}` } };
}

/** A timewise score (parts inside measures) turned inside out; a partwise one as it is. */
function partwise(root: XmlElement): XmlElement {
  if (root.name !== 'score-timewise') return root;
  const measures = elementsOf(root).filter((child) => child.name === 'measure');
  const head = elementsOf(root).filter((child) => child.name !== 'measure');
  const ids = [...new Set(measures.flatMap((measure) => elementsOf(measure).map((part) => part.attributes['id'] ?? '')))];
  const parts = ids.map((id) => ({
    name: 'part',
    attributes: { id },
    children: measures.map((measure) => ({
      ...measure,
      children: elementsOf(measure).find((part) => part.attributes['id'] === id)?.children ?? [],
    })),
  }));
  return { name: 'score-partwise', attributes: root.attributes, children: [...head, ...parts] };
}
