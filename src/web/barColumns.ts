/**
 * What is told of every try at every bar beside its notes: one column each in the table of all bars, one row each in the drawer, one
 * series each in the chart, all from this list.
 */
import { measured, type Measured } from '../base/index.js';
import type { BarFacts, BarHolding, Measures } from '../measure/index.js';

/** One figure of a visit to a bar. */
export interface BarColumn {
  /** Its name in the table's data, letters only. */
  readonly key: string;
  /** What it is shown with in the chart: one aspect at a time. */
  readonly aspect: string;
  /** Within its aspect: "right hand"; "" where it stands alone. */
  readonly series: string;
  /** Filled columns and open ones are told apart. */
  readonly filled: boolean;
  /** On the chart's axis. */
  readonly unit: string;
  /** Over its column. */
  readonly heading: string;
  /** Before its figure in the drawer. */
  readonly label: string;
  /** Behind its figure in the drawer. */
  readonly suffix: string;
  /** @param place in `Measures.bars` */
  readonly value: (measures: Measures, place: number) => Measured<number>;
}

/** A share as per cent. */
function percent(share: Measured<number> | undefined): Measured<number> {
  return share?.measured === true ? measured(share.value * 100) : share ?? NOTHING_HERE;
}

/** A visit that a measure knows nothing of. */
const NOTHING_HERE: Measured<number> = { measured: false, reason: 'nothing was played here' };

/** Both hands of one figure of holding. */
function ofHands(parts: Pick<BarColumn, 'aspect' | 'unit'> & { readonly key: string; readonly heading: string }, figure: keyof BarHolding['right']): readonly BarColumn[] {
  return (['right', 'left'] as const).map((hand) => ({
    key: parts.key + (hand === 'right' ? 'Right' : 'Left'),
    aspect: parts.aspect,
    series: `${hand} hand`,
    filled: hand === 'right',
    unit: parts.unit,
    heading: `${parts.heading}, ${hand}`,
    label: `${hand} hand, ${parts.aspect}`,
    suffix: ' %',
    value: ({ holding }, place) => percent(holding.bars[place]?.[hand][figure]),
  }));
}

/** Every figure, in the order of the aspects. */
export const BAR_COLUMNS: readonly BarColumn[] = [
  { key: 'waits', aspect: 'waits', series: '', filled: true, unit: 'beats', heading: 'waits', label: 'waits', suffix: ' beats', value: ({ pulse }, place) => measured(pulse.bars[place]?.waitBeats ?? 0) },
  ...ofHands({ key: 'held', aspect: 'lengths of notes', unit: '% of the written length', heading: 'length' }, 'keyShare'),
  ...ofHands({ key: 'rest', aspect: 'rests', unit: '% of the rest still held', heading: 'rest held' }, 'restHeld'),
  ...ofHands({ key: 'joined', aspect: 'slurs', unit: '% of the notes joined', heading: 'joined' }, 'joined'),
  ...ofHands({ key: 'dots', aspect: 'dots', unit: '% of the written length', heading: 'dots' }, 'dots'),
  { key: 'blur', aspect: 'pedal', series: 'blur', filled: true, unit: '%', heading: 'pedal blur', label: 'pedal, blur', suffix: ' %', value: ({ pedal }, place) => percent(shareOf(pedal.bars[place]?.blur)) },
  { key: 'down', aspect: 'pedal', series: 'foot down', filled: false, unit: '%', heading: 'foot down', label: 'pedal, foot down', suffix: ' %', value: ({ pedal }, place) => percent(shareOf(pedal.bars[place]?.downShare)) },
  ...(['right', 'left'] as const).map((hand): BarColumn => ({
    key: `level${hand === 'right' ? 'Right' : 'Left'}`, aspect: 'loud and soft', series: `${hand} hand`, filled: hand === 'right', unit: 'strength of the keys, 1 to 127', heading: `strength, ${hand}`, label: `${hand} hand, strength`, suffix: '',
    value: ({ levels }, place) => {
      const level = levels.measured ? levels.value.bars[place]?.[hand] : levels;
      return level?.measured === true ? measured(level.value.velocity) : level ?? NOTHING_HERE;
    },
  })),
  {
    key: 'tune', aspect: 'tune over accompaniment', series: '', filled: true, unit: 'strength of the keys', heading: 'tune over', label: 'tune over accompaniment', suffix: '',
    value: ({ levels }, place) => (levels.measured ? levels.value.bars[place]?.tuneOver ?? NOTHING_HERE : levels),
  },
];

/** A share that may be missing. */
function shareOf(share: number | undefined): Measured<number> {
  return share === undefined ? NOTHING_HERE : measured(share);
}

/** Columns that hold a figure for at least one visit; a recording without pedal has no column for it. */
export function columnsOf(measures: Measures, hasPedal: boolean): readonly BarColumn[] {
  return BAR_COLUMNS.filter(({ aspect, value }) => (aspect !== 'pedal' || hasPedal) && measures.bars.some((_, place) => value(measures, place).measured));
}

/** Figures of a visit, in the order of the columns. */
export type VisitFigures = ReadonlyMap<BarFacts, readonly (number | null)[]>;

/** Figures of every visit, looked up once for all tables of a page. */
export function figuresByVisit(columns: readonly BarColumn[], measures: Measures): VisitFigures {
  return new Map(measures.bars.map((visit, place) => [visit, columns.map((column) => figureOf(column, measures, place))]));
}

/** A figure as the table shows it: whole, beats to a tenth; null where not measured. */
function figureOf(column: BarColumn, measures: Measures, place: number): number | null {
  const value = column.value(measures, place);
  if (!value.measured) return null;
  return column.key === 'waits' ? Math.round(value.value * 10) / 10 : Math.round(value.value);
}
