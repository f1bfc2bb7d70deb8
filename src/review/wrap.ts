/** Narrow enough for any terminal. */
const LINE_WIDTH = 96;

/** Breaks text into lines that fit; the lines after the first begin with `indent`. */
export function wrap(text: string, indent: string): string {
  const lines: string[] = [];
  let line = '';
  for (const part of text.split(' ')) {
    if (line !== '' && `${line} ${part}`.length > LINE_WIDTH) {
      lines.push(line);
      line = `${indent}${part}`;
    } else line = line === '' ? part : `${line} ${part}`;
  }
  return [...lines, line].join('\n');
}
