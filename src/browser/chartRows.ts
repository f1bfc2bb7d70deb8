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
  /** Figures of the table's further columns, in their order. */
  readonly figures: readonly (number | null)[];
}

/** A further column of the table, as it says itself. */
export interface Column {
  readonly key: string;
  readonly aspect: string;
  readonly series: string;
  readonly filled: boolean;
  readonly unit: string;
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
    figures: listIn(dataset['figures']).map((one) => (typeof one === 'number' ? one : null)),
  }));
}

/** A number, or null where the table has none. */
function numberOrNull(text: string | undefined): number | null {
  return text === undefined || text === '' ? null : Number(text);
}

/** The further columns of the table. */
export function readColumns(table: HTMLTableElement): readonly Column[] {
  return listIn(table.dataset['columns']).flatMap((one) => {
    if (typeof one !== 'object' || one === null) return [];
    const parts = new Map<string, unknown>(Object.entries(one));
    const text = (name: string): string => {
      const value = parts.get(name);
      return typeof value === 'string' ? value : '';
    };
    return [{ key: text('key'), aspect: text('aspect'), series: text('series'), filled: parts.get('filled') === true, unit: text('unit') }];
  });
}

/** A list in JSON; an empty one where there is none. */
function listIn(text: string | undefined): readonly unknown[] {
  const value: unknown = text === undefined || text === '' ? [] : JSON.parse(text);
  return Array.isArray(value) ? value : [];
}
