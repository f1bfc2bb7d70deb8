/**
 * Bar by bar: the chart is loaded when it is opened for the first time; until then, and without
 * script, the table serves.
 */

/** Makes the folded chart ready to open. */
export function startChart(): void {
  const box = document.querySelector<HTMLDetailsElement>('details[data-chart]');
  const table = box?.querySelector<HTMLDetailsElement>('[data-chart-table]');
  if (box === null) return;
  if (table) table.open = false;
  box.addEventListener('toggle', () => void open(box), { once: true });
}

/** Loads the chart's code and draws. Where that fails the table is opened instead. */
async function open(box: HTMLDetailsElement): Promise<void> {
  try {
    const { drawChart } = await import('./chart.js');
    drawChart(box);
  } catch {
    const table = box.querySelector<HTMLDetailsElement>('[data-chart-table]');
    if (table !== null) table.open = true;
  }
}
