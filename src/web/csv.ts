/** Tables for spreadsheets (RFC 4180). */

/** First characters that a spreadsheet would take for a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/** A table with a heading; lines end with CR LF. What a spreadsheet would reckon with is written as plain text. */
export function csvOf(heading: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  return [heading, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

/** One cell, always quoted, so that commas and line ends in comments stay in it. */
function cell(value: string | number): string {
  if (typeof value === 'number') return String(value);
  return `"${(FORMULA.test(value) ? `'${value}` : value).replaceAll('"', '""')}"`;
}
