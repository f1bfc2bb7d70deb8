/** Through the weeks: the numbers of the table as a line over time, one at a time; the library is loaded only here. */

/** Starts the page, where it is one. */
export function startWeeks(): void {
  const box = document.querySelector<HTMLElement>('[data-weeks]');
  // one recording makes no line
  if (box === null || box.querySelectorAll('tr[data-at]').length < 2) return;
  void import('./weeksChart.js').then(({ drawWeeks }) => drawWeeks(box), () => undefined);
}
