/** Writing XML elements as text. */

/** Attribute values of an element; `undefined` leaves the attribute out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element on a line of its own: text inside, or child elements indented. */
export function element(name: string, attributes: Attributes, content: string | readonly string[] = []): string {
  const open = `${name}${Object.entries(attributes).map(attribute).join('')}`;
  if (typeof content === 'string') return `<${open}>${escapeXml(content)}</${name}>`;
  if (content.length === 0) return `<${open}/>`;
  return `<${open}>\n${indent(content)}\n</${name}>`;
}

/** `<name>text</name>`. */
export function leaf(name: string, text: string | number): string {
  return element(name, {}, String(text));
}

/** Text with the characters replaced that XML reserves. */
export function escapeXml(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

/** ` name="value"`, or nothing. */
function attribute([name, value]: [string, string | number | undefined]): string {
  return value === undefined ? '' : ` ${name}="${escapeXml(String(value))}"`;
}

/** Children two spaces further in. */
function indent(lines: readonly string[]): string {
  return lines.flatMap((line) => line.split('\n')).map((line) => `  ${line}`).join('\n');
}
