import type { Sweep } from './kinds.js';

/** What so many players' takes of one size came to. */
export interface SweepRow {
  readonly size: number;
  /** Share of the players with whom it was found, 0-1. */
  readonly found: number;
  /** Mean weight of what was found, 0-1; null where nothing was. */
  readonly weight: number | null;
  /** What must be so at this size: no word, or found with 95 of 100 players; null between the two. */
  readonly asked: 'silent' | 'found' | null;
}

/** One row a size. */
export function sweepRows(sweep: Sweep, players: number): readonly SweepRow[] {
  return sweep.sizes.map((size, place) => {
    const weights = Array.from({ length: players }, (_, seed) => sweep.judge(size, seed)).flatMap(({ observations }) => {
      const own = observations.filter(({ kind }) => sweep.called.includes(kind)).map(({ weight }) => weight);
      return own.length === 0 ? [] : [Math.max(...own)];
    });
    return { size, found: weights.length / players, weight: weights.length === 0 ? null : weights.reduce((a, b) => a + b, 0) / weights.length, asked: askedAt(sweep, place) };
  });
}

/** What is asked at a place in the list of sizes. */
function askedAt({ sizes, silentUpTo, foundFrom }: Sweep, place: number): SweepRow['asked'] {
  if (place <= sizes.indexOf(silentUpTo)) return 'silent';
  return place >= sizes.indexOf(foundFrom) ? 'found' : null;
}

/** True where a row is as it must be. */
export function isKept({ found, asked }: SweepRow): boolean {
  if (asked === 'silent') return found === 0;
  return asked === null || found >= 0.95;
}

/** The rows as lines of a table. */
export function sweepLines({ kind, size }: Sweep, rows: readonly SweepRow[]): readonly string[] {
  const cells = (head: string, of: (row: SweepRow) => string): string => `  ${head.padEnd(34)}${rows.map((row) => of(row).padStart(8)).join('')}`;
  return [
    kind,
    cells(size, (row) => String(row.size)),
    cells('found, % of players', ({ found }) => String(Math.round(100 * found))),
    cells('weight', ({ weight }) => (weight === null ? '-' : weight.toFixed(2))),
    cells('asked', askedInWords),
  ];
}

/** What is asked, in capitals what is not so. */
function askedInWords(row: SweepRow): string {
  if (isKept(row)) return row.asked ?? '';
  return row.asked === 'silent' ? 'HEARD' : 'MISSED';
}
