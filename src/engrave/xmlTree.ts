import { SaxesParser } from 'saxes';
import { InputError } from '../base/index.js';

/** An XML element as a plain record; names keep their prefix. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlChild[];
}

/** What stands inside an element: elements and decoded text, in document order. */
export type XmlChild = XmlElement | string;

/** An element still being read: the same record, its children open. */
interface OpenElement extends XmlElement {
  readonly children: XmlChild[];
}

/**
 * Reads XML text into a tree. Comments, processing instructions and the document type are left out,
 * so nothing external is ever fetched.
 * @throws InputError `not-well-formed` with the line
 */
export function parseXml(text: string): XmlElement {
  const parser = new SaxesParser();
  const open: OpenElement[] = [];
  const roots: XmlElement[] = [];
  parser.on('error', (error) => {
    throw new InputError('not-well-formed', `The XML breaks off or is damaged (${error.message}).`, { line: parser.line });
  });
  parser.on('opentag', (tag) => open.push({ name: tag.name, attributes: { ...tag.attributes }, children: [] }));
  parser.on('text', (part) => void open.at(-1)?.children.push(part));
  parser.on('cdata', (part) => void open.at(-1)?.children.push(part));
  parser.on('closetag', () => {
    const done = open.pop();
    if (done) (open.at(-1)?.children ?? roots).push(done);
  });
  parser.write(text).close();
  const root = roots[0];
  if (!root) throw new InputError('not-well-formed', 'The XML holds no element.');
  return root;
}

/** Writes a tree back as XML text, everything escaped; elements without content close themselves. */
export function writeXml(element: XmlElement): string {
  const attributes = Object.entries(element.attributes)
    .map(([name, value]) => ` ${name}="${escapeXml(value)}"`)
    .join('');
  if (element.children.length === 0) return `<${element.name}${attributes}/>`;
  const inside = element.children.map((child) => (typeof child === 'string' ? escapeXml(child) : writeXml(child))).join('');
  return `<${element.name}${attributes}>${inside}</${element.name}>`;
}

/**
 * Text made safe for element content and double-quoted attributes of XML and HTML alike.
 * Characters that XML forbids (control characters) are left out.
 */
export function escapeXml(text: string): string {
  // nearly all attributes are plain numbers: let those through without the seven passes
  if (/^[\w .,()#-]*$/.test(text)) return text;
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/** The element children, text left out. */
export function elementsOf(element: XmlElement): readonly XmlElement[] {
  return element.children.filter((child) => typeof child !== 'string');
}

/** The first child element of this name. */
export function childNamed(element: XmlElement, name: string): XmlElement | undefined {
  return elementsOf(element).find((child) => child.name === name);
}

/** All text below an element, joined. */
export function textOf(element: XmlElement): string {
  return element.children.map((child) => (typeof child === 'string' ? child : textOf(child))).join('');
}

/** The first word of the element's `class`, which names its kind in the engraver's drawing; empty without. */
export function kindOf({ attributes }: XmlElement): string {
  const all = attributes['class'] ?? '';
  const end = all.indexOf(' ');
  return end < 0 ? all : all.slice(0, end);
}

/** All elements of a kind below (and including) this one, in document order. */
export function ofKind(element: XmlElement, kind: string): readonly XmlElement[] {
  const found: XmlElement[] = [];
  const walk = (here: XmlElement): void => {
    if (kindOf(here) === kind) found.push(here);
    for (const child of here.children) if (typeof child !== 'string') walk(child);
  };
  walk(element);
  return found;
}
