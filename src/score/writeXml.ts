/** XML text from a tree: for copies that are engraved, never for files that are kept. */
import type { XmlElement } from './xmlTree.js';

/** What stands for the characters that XML keeps for itself. */
const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** XML text of a tree, one element a line. Elements hold text or children, never both mixed, as in MusicXML. */
export function writeXml(root: XmlElement): string {
  const lines = ['<?xml version="1.0" encoding="UTF-8"?>'];
  writeInto(lines, root);
  return `${lines.join('\n')}\n`;
}

/** An element for writing. */
export function newElement(
  name: string,
  content: string | readonly XmlElement[] = '',
  attributes: Readonly<Record<string, string>> = {},
): XmlElement {
  return {
    name,
    attributes,
    children: typeof content === 'string' ? [] : content,
    text: typeof content === 'string' ? content : '',
    line: 0,
  };
}

/** Adds the lines of one element and everything in it. */
function writeInto(lines: string[], element: XmlElement): void {
  const { name, children } = element;
  const attributes = Object.entries(element.attributes)
    .map(([key, value]) => ` ${key}="${escaped(value)}"`)
    .join('');
  const text = escaped(element.text.trim());
  if (children.length === 0) {
    lines.push(text === '' ? `<${name}${attributes}/>` : `<${name}${attributes}>${text}</${name}>`);
    return;
  }
  lines.push(`<${name}${attributes}>${text}`);
  for (const inner of children) writeInto(lines, inner);
  lines.push(`</${name}>`);
}

/** Text safe inside tags and attribute values. */
function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (character) => ESCAPES[character] ?? character);
}
