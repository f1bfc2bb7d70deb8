/**
 * Loaded only when the chart is opened: its library weighs more than all other scripts of the page together.
 */
import { BarController, BarElement, CategoryScale, Chart, LinearScale, Tooltip, type ChartDataset } from 'chart.js';
import { readColumns, readRows, type Column, type Row } from './chartRows.js';
import { BARS_LIT, COLUMN_TOUCHED } from './lighting.js';
import { goTo } from './openBar.js';
import { SOUNDING_BAR } from './soundCursor.js';

/** The chart of the whole piece: a column a bar, an aspect at a time, tries beside each other. */

/** One thing that can be shown. */
interface Aspect {
  readonly name: string;
  readonly unit: string;
  /** How its columns are told apart. */
  readonly key: string;
  /** Each series beside the others within a bar: hands, or one alone. */
  readonly series: readonly { readonly name: string; readonly filled: boolean; readonly value: (row: Row) => number | null }[];
}

const ASPECTS: readonly Aspect[] = [
  {
    name: 'early and late',
    unit: 'ms, late is up',
    key: 'filled the right hand, open the left; the last try in full pencil',
    series: [
      { name: 'right hand', filled: true, value: (row) => row.right },
      { name: 'left hand', filled: false, value: (row) => row.left },
    ],
  },
  { name: 'tempo', unit: 'beats a minute', key: 'the last try in full pencil', series: [{ name: 'tempo', filled: true, value: (row) => row.tempo }] },
  { name: 'notes', unit: 'wrong, missing, added', key: 'the last try in full pencil', series: [{ name: 'notes', filled: true, value: (row) => row.wrong + row.missed + row.added }] },
];

/** The further columns of the table by aspect. */
function aspectsOf(columns: readonly Column[]): readonly Aspect[] {
  const names = [...new Set(columns.map(({ aspect }) => aspect))];
  return names.map((name) => {
    const own = columns.flatMap((column, place) => (column.aspect === name ? [{ ...column, place }] : []));
    const told = own.length > 1 ? `filled the ${own.find(({ filled }) => filled)?.series ?? ''}, open the ${own.find(({ filled }) => !filled)?.series ?? ''}; ` : '';
    return {
      name, unit: own[0]?.unit ?? '', key: `${told}the last try in full pencil`,
      series: own.map(({ series, filled, place }) => ({ name: series === '' ? name : series, filled, value: (row: Row) => row.figures[place] ?? null })),
    };
  });
}

/** Draws the chart into its box and offers the aspects as buttons. */
export function drawChart(box: HTMLElement): void {
  const canvas = box.querySelector('canvas');
  const table = box.querySelector<HTMLTableElement>('table[data-bars]');
  const tools = box.querySelector<HTMLElement>('[data-chart-tools]');
  const first = ASPECTS[0];
  if (canvas === null || table === null || tools === null || first === undefined) return;
  Chart.register(BarController, BarElement, CategoryScale, LinearScale, Tooltip);
  for (const part of box.querySelectorAll('[data-chart-box], [data-chart-tools]')) part.removeAttribute('hidden');
  const rows = readRows(table);
  const severalTries = rows.some((row) => row.rank > 0);
  const chart = chartOf(canvas, rows);
  const key = document.createElement('span');
  key.className = 'aside key';
  for (const aspect of [...ASPECTS, ...aspectsOf(readColumns(table))]) tools.append(buttonFor(aspect, () => choose(aspect)));
  let chosen = first;
  const choose = (aspect: Aspect): void => {
    chosen = aspect;
    for (const button of tools.querySelectorAll('button')) button.setAttribute('aria-pressed', String(button.textContent === aspect.name));
    key.textContent = severalTries ? aspect.key : aspect.key.replace(/;? ?the last try in full pencil/, '');
    show(chart, rows, aspect);
  };
  tools.append(key);
  choose(first);
  window.matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => choose(chosen));
}

/** An empty chart whose columns lead to their bars. */
function chartOf(canvas: HTMLCanvasElement, rows: readonly Row[]): Chart<'bar', (number | null)[]> {
  const chart: Chart<'bar', (number | null)[]> = new Chart(canvas, {
    type: 'bar',
    data: { labels: [], datasets: [] },
    options: {
      animation: false,
      maintainAspectRatio: false,
      onClick: (event) => {
        const href = columnAt(chart, rows, event.x)?.href;
        if (href !== undefined) goTo(href);
      },
      onHover: (event) => document.dispatchEvent(new CustomEvent(COLUMN_TOUCHED, { detail: columnAt(chart, rows, event.x)?.bar ?? null })),
    },
  });
  canvas.addEventListener('pointerleave', () => document.dispatchEvent(new CustomEvent(COLUMN_TOUCHED, { detail: null })));
  document.addEventListener(BARS_LIT, (event) => {
    const lit: unknown = event instanceof CustomEvent ? event.detail : [];
    lightColumns(chart, rows, Array.isArray(lit) ? lit : []);
  });
  followSound(chart, rows);
  return chart;
}

/** A line at the bar that sounds. */
function followSound(chart: Chart<'bar', (number | null)[]>, rows: readonly Row[]): void {
  const line = document.createElement('div');
  line.className = 'chart-cursor';
  document.addEventListener(SOUNDING_BAR, (event) => {
    const place = event instanceof CustomEvent ? barsOf(rows).findIndex(({ bar }) => bar === event.detail) : -1;
    const x = place === -1 ? undefined : chart.scales['x']?.getPixelForValue(place);
    if (x === undefined) line.remove();
    else {
      line.style.transform = `translateX(${x}px)`;
      chart.canvas.parentElement?.append(line);
    }
  });
}

/** The bar whose column stands at an x of the chart, px. */
function columnAt(chart: Chart<'bar', (number | null)[]>, rows: readonly Row[], x: number | null): Row | undefined {
  const at = x === null ? undefined : chart.scales['x']?.getValueForPixel(x);
  return at === undefined ? undefined : barsOf(rows)[at];
}

/** Shows columns in full ink while their bars are lit. */
function lightColumns(chart: Chart<'bar', (number | null)[]>, rows: readonly Row[], bars: readonly unknown[]): void {
  const columns = barsOf(rows).flatMap(({ bar }, index) => (bars.includes(bar) ? [index] : []));
  chart.setActiveElements(chart.data.datasets.flatMap((_, datasetIndex) => columns.map((index) => ({ datasetIndex, index }))));
  chart.draw();
}

/** Fills the chart with one aspect. */
function show(chart: Chart<'bar', (number | null)[]>, rows: readonly Row[], aspect: Aspect): void {
  const bars = barsOf(rows);
  chart.data.labels = bars.map((row) => row.name);
  chart.data.datasets = datasetsOf(rows, bars, aspect);
  const font = { family: 'Alegreya, Georgia, serif', size: 15 };
  const graphite = colour('--graphite');
  chart.options.scales = {
    x: { grid: { display: false }, ticks: { color: graphite, font, maxRotation: 0 }, border: { display: false } },
    y: { grid: { color: ({ tick }) => colour(tick.value === 0 ? '--edge' : '--rule') }, ticks: { color: graphite, font, maxTicksLimit: 6, precision: 0, callback: (value) => String(value).replace('-', '−') }, title: { display: true, text: aspect.unit, color: graphite, font }, border: { display: false } },
  };
  chart.options.plugins = {
    tooltip: { bodyFont: font, titleFont: font, callbacks: { title: ([item]) => barInWords(item?.label ?? ''), label: ({ datasetIndex, dataIndex }) => tip(rows, bars[dataIndex], { aspect, datasetIndex }) } },
  };
  chart.update();
}

/** "bar 7", "upbeat"; the word as the page has it. */
function barInWords(name: string): string {
  const bar = document.querySelector<HTMLElement>('table[data-bars]')?.dataset['word'] ?? 'bar';
  return /^\d/.test(name) ? `${bar} ${name}` : name;
}

/** What the pointer is told: "second try, right hand: −12". */
function tip(rows: readonly Row[], bar: Row | undefined, { aspect, datasetIndex }: { aspect: Aspect; datasetIndex: number }): string {
  const series = aspect.series[datasetIndex % aspect.series.length];
  const rank = Math.floor(datasetIndex / aspect.series.length);
  const row = rows.find((other) => other.bar === bar?.bar && other.rank === rank);
  if (row === undefined || series === undefined) return '';
  return `${[row.attempt, series.name].filter((text) => text !== '').join(', ')}: ${String(series.value(row) ?? '').replace('-', '−')}`;
}

/** One dataset for each try and series: earlier tries lighter, the last one in full pencil. */
function datasetsOf(rows: readonly Row[], bars: readonly Row[], aspect: Aspect): ChartDataset<'bar', (number | null)[]>[] {
  const tries = Math.max(1, ...rows.map((row) => row.rank + 1));
  return Array.from({ length: tries }, (_, rank) => rank).flatMap((rank) =>
    aspect.series.map((series) => ({
      label: [tries > 1 ? `try ${rank + 1}` : '', series.name].filter((text) => text !== '').join(', '),
      data: bars.map((bar) => valueOf(rows, bar, { rank, series })),
      backgroundColor: bars.map((bar) => (series.filled ? pencil(rows, bar, rank) : 'transparent')),
      borderColor: bars.map((bar) => pencil(rows, bar, rank)),
      borderWidth: 1.2,
      hoverBackgroundColor: colour(series.filled ? '--blue' : '--wash'),
      hoverBorderColor: colour('--blue'),
      skipNull: true,
      maxBarThickness: 14,
    })),
  );
}

/** The last try of a bar in full pencil, earlier ones lighter. */
function pencil(rows: readonly Row[], bar: Row, rank: number): string {
  const last = rows.every((row) => row.bar !== bar.bar || row.rank <= rank);
  return colour(last ? '--graphite' : '--edge');
}

/** One try's value at one bar; null where there was no such try or it could not be measured. */
function valueOf(rows: readonly Row[], bar: Row, of: { rank: number; series: Aspect['series'][number] }): number | null {
  const row = rows.find((other) => other.bar === bar.bar && other.rank === of.rank);
  return row === undefined ? null : of.series.value(row);
}

/** One row for each bar. */
function barsOf(rows: readonly Row[]): readonly Row[] {
  return rows.filter((row) => row.rank === 0);
}

/** A button for one aspect. */
function buttonFor(aspect: Aspect, onChoose: () => void): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'quiet';
  button.textContent = aspect.name;
  button.addEventListener('click', onChoose);
  return button;
}

/** A colour of the paper in use, light or dark. */
function colour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}
