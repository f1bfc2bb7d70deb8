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

/** Whether the element carries this word in its `class`. */
export function hasClass(element: XmlElement, word: string): boolean {
  return (element.attributes['class'] ?? '').split(' ').includes(word);
}

/** All elements of a class below (and including) this one, in document order. */
export function withClass(element: XmlElement, word: string): readonly XmlElement[] {
  const own = hasClass(element, word) ? [element] : [];
  return [...own, ...elementsOf(element).flatMap((child) => withClass(child, word))];
}
