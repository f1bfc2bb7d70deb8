import { startChart } from './chartBox.js';
import { startKeys } from './keys.js';
import { startLighting } from './lighting.js';
import { startOpenBar } from './openBar.js';
import { startPhrases } from './phrases.js';
import { startSaving } from './saving.js';
import { startListening } from './soundStart.js';

/** The review page: keys, saving as one types, things that point to each other, the chart. */
export function startReview(): void {
  if (document.querySelector('[data-review]') === null) return;
  startOpenBar();
  startSaving();
  startPhrases();
  startKeys();
  startLighting();
  startChart();
  startListening();
}
