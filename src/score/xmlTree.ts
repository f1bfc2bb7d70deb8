/**
 * XML as a light tree of names, attributes, children and lines. The library does the reading, strictly; guards against
 * hostile files (entities, depth, number of elements) stand here.
 */
import { SaxesParser } from 'saxes';
import { InputError } from '../base/index.js';
import { MAX_TEXT_CHARACTERS, MAX_XML_DEPTH, MAX_XML_ELEMENTS } from './limits.js';

/** One element of an XML file. Comments and processing instructions are left out. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** Its own text, untrimmed, up to `MAX_TEXT_CHARACTERS`; blank text is left out. */
  readonly text: string;
  /** Line of the end of its opening tag, from 1. */
  readonly line: number;
}

/** An element while its children are still coming in. */
interface GrowingElement extends XmlElement {
  readonly children: GrowingElement[];
  text: string;
}

/** Every element is kept. */
const NOTHING: ReadonlySet<string> = new Set();

/**
 * Reads XML text strictly into a tree. Nothing outside the text is ever fetched, and a document type that declares
 * entities is refused; a bare document type as older programs write it is harmless and passed over.
 * @param passedOver names of elements that are checked but not kept, for speed
 * @throws InputError `not-well-formed` with the line, `unsupported` for declared entities, `too-large`
 */
export function parseXml(text: string, passedOver: ReadonlySet<string> = NOTHING): XmlElement {
  const parser = new SaxesParser();
  const top: GrowingElement = { name: '', attributes: {}, children: [], text: '', line: 0 };
  const open = [top];
  let elements = 0;
  parser.on('error', () => {
    throw new InputError('not-well-formed', 'This is no well-formed XML from here on; expected a MusicXML file saved whole.', {
      line: parser.line,
    });
  });
  parser.on('doctype', (doctype) => refuseEntities(doctype, parser.line));
  parser.on('opentag', (tag) => {
    elements += 1;
    refuseMonsters(open.length, elements, parser.line);
    const element = { name: tag.name, attributes: tag.attributes, children: [], text: '', line: parser.line };
    if (!passedOver.has(tag.name)) open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on('closetag', () => open.pop());
  const addText = (piece: string): void => {
    const element = open.at(-1);
    if (element !== undefined && piece.trim() !== '') element.text = (element.text + piece).slice(0, MAX_TEXT_CHARACTERS);
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.write(text).close();
  const root = top.children[0];
  if (root === undefined) throw new InputError('not-well-formed', 'This XML file holds no element; expected a MusicXML score.');
  return root;
}

/** Refuses a document type with an internal subset that declares entities. */
function refuseEntities(doctype: string, line: number): void {
  if (!/<!ENTITY|%/i.test(doctype)) return;
  throw new InputError(
    'unsupported',
    'This file declares entities of its own, which are not read for safety; expected a plain MusicXML file.',
    { line },
  );
}

/** Refuses a file that nests too deeply or holds too many elements. */
function refuseMonsters(depth: number, elements: number, line: number): void {
  if (depth > MAX_XML_DEPTH)
    throw new InputError('too-large', `Tags are nested more than ${MAX_XML_DEPTH} deep here; expected a MusicXML score.`, { line });
  if (elements > MAX_XML_ELEMENTS)
    throw new InputError('too-large', `This file holds more than ${MAX_XML_ELEMENTS} elements; expected one piano score.`, { line });
}

/** The first child of that name. */
export function child(element: XmlElement, name: string): XmlElement | undefined {
  for (const candidate of element.children) if (candidate.name === name) return candidate;
  return undefined;
}

/** All children of that name, in file order. */
export function childrenNamed(element: XmlElement, name: string): readonly XmlElement[] {
  return element.children.filter((candidate) => candidate.name === name);
}

/** Trimmed text of the first child of that name; undefined where there is none. */
export function childText(element: XmlElement, name: string): string | undefined {
  return child(element, name)?.text.trim();
}

/** An attribute; undefined where the element has none of that name. */
export function attribute(element: XmlElement, name: string): string | undefined {
  return element.attributes[name];
}

/** The first element along a path of names, the start left out. */
export function descendant(element: XmlElement, ...path: readonly string[]): XmlElement | undefined {
  let found: XmlElement | undefined = element;
  for (const name of path) found = found && child(found, name);
  return found;
}
