/** One try at one bar, read from the page's table: chart and table cannot disagree. */
export interface Row {
  readonly bar: string;
  readonly rank: number;
  readonly name: string;
  /** "second try"; empty where the bar was played once. */
  readonly attempt: string;
  readonly href: string;
  readonly tempo: number | null;
  readonly right: number | null;
  readonly left: number | null;
  readonly wrong: number;
  readonly missed: number;
  readonly added: number;
}

/** Reads all rows of the table. */
export function readRows(table: HTMLTableElement): readonly Row[] {
  return [...table.querySelectorAll<HTMLElement>('tbody tr')].map(({ dataset }) => ({
    bar: dataset['bar'] ?? '',
    rank: Number(dataset['rank'] ?? 0),
    name: dataset['name'] ?? '',
    attempt: dataset['try'] ?? '',
    href: dataset['href'] ?? '#score',
    tempo: numberOrNull(dataset['tempo']),
    right: numberOrNull(dataset['right']),
    left: numberOrNull(dataset['left']),
    wrong: Number(dataset['wrong'] ?? 0),
    missed: Number(dataset['missed'] ?? 0),
    added: Number(dataset['added'] ?? 0),
  }));
}

/** A number, or null where the table has none. */
function numberOrNull(text: string | undefined): number | null {
  return text === undefined || text === '' ? null : Number(text);
}
