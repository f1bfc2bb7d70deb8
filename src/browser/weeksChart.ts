/**
 * One number of a pupil's piece over the weeks. Time is true to scale, so that a gap is seen as one; practice is an open point, and the
 * line goes through the playings only.
 */
import { Chart, LinearScale, LineController, LineElement, PointElement, Tooltip } from 'chart.js';

/** A recording of the table. */
interface Point {
  /** ms since 1970. */
  readonly at: number;
  readonly practice: boolean;
  readonly values: Readonly<Record<string, number | null>>;
}

/** What can be shown: column, name, whether practice counts as it does in a playing. */
const LINES = [
  { key: 'tempo', name: 'tempo' },
  { key: 'stops', name: 'stops' },
  { key: 'blurs', name: 'blurred changes of pedal' },
  { key: 'clean', name: 'bars clean twice running' },
] as const;

const DAY_MS = 86_400_000;

/** Draws the first line and offers the others as buttons. */
export function drawWeeks(box: HTMLElement): void {
  const canvas = box.querySelector('canvas');
  const tools = box.querySelector<HTMLElement>('[data-weeks-tools]');
  if (canvas === null || tools === null) return;
  Chart.register(LineController, LineElement, PointElement, LinearScale, Tooltip);
  for (const part of box.querySelectorAll('[data-weeks-tools], [data-weeks-box]')) part.removeAttribute('hidden');
  const points = [...box.querySelectorAll<HTMLElement>('tr[data-at]')].map(pointOf).sort((a, b) => a.at - b.at);
  const chart = new Chart(canvas, { type: 'line', data: { datasets: [] }, options: { animation: false, maintainAspectRatio: false } });
  const buttons = LINES.map((line) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = line.name;
    button.addEventListener('click', () => choose(line));
    tools.append(button);
    return { button, line };
  });
  const choose = (chosen: (typeof LINES)[number]): void => {
    for (const { button, line } of buttons) button.setAttribute('aria-pressed', String(line === chosen));
    show(chart, points, chosen);
  };
  choose(LINES[0]);
}

/** Fills the chart with one line. */
function show(chart: Chart<'line'>, points: readonly Point[], { key, name }: (typeof LINES)[number]): void {
  const style = getComputedStyle(document.documentElement);
  const colour = (property: string): string => style.getPropertyValue(property).trim();
  const font = { family: 'Alegreya, Georgia, serif', size: 15 };
  const [ink, graphite, paper] = [colour('--ink'), colour('--graphite'), colour('--paper')];
  const at = (practice: boolean) => points.flatMap((point) => {
    const value = point.values[key] ?? null;
    return point.practice === practice && value !== null ? [{ x: point.at, y: value }] : [];
  });
  const plain = { borderColor: ink, pointBorderColor: ink, pointRadius: 5, borderWidth: 1.6 };
  chart.data.datasets = [
    { ...plain, label: name, data: at(false), pointBackgroundColor: ink },
    { ...plain, label: `${name}, practice`, data: at(true), showLine: false, pointBackgroundColor: paper },
  ];
  chart.options.scales = {
    x: { type: 'linear', grid: { display: false }, border: { display: false }, ticks: { color: graphite, font, maxRotation: 0, maxTicksLimit: 6, callback: (value) => dayOf(Number(value)) }, min: (points[0]?.at ?? 0) - DAY_MS, max: (points.at(-1)?.at ?? 0) + DAY_MS },
    y: { beginAtZero: key !== 'tempo', grid: { color: colour('--rule') }, border: { display: false }, ticks: { color: graphite, font, maxTicksLimit: 5, precision: 0 } },
  };
  chart.options.plugins = { tooltip: { bodyFont: font, titleFont: font, callbacks: { title: ([item]) => dayOf(item?.parsed.x ?? 0) } } };
  chart.update();
}

/** "7 Oct". */
function dayOf(ms: number): string {
  return new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' }).format(new Date(ms));
}

/** One row of the table. */
function pointOf({ dataset }: HTMLElement): Point {
  const values = Object.fromEntries(LINES.map(({ key }) => [key, dataset[key] === undefined || dataset[key] === '' ? null : Number(dataset[key])]));
  return { at: Date.parse(dataset['at'] ?? ''), practice: dataset['practice'] === 'yes', values };
}
