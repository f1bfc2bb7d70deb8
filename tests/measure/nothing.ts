import { notMeasured } from '../../src/base/index.js';
import type { Measures } from '../../src/measure/index.js';

/** Nothing measured: what tests that need a few facts spread theirs over. */
export const NO_MEASURES: Measures = { onsets: [], bars: [], pulse: { bars: [], waits: [], beats: [], spans: [], bends: [] }, holding: { notes: [], silences: [], restruck: [], bars: [] }, rhythm: { bars: [], figures: [], hands: [], chords: [], runs: [], distances: [], steps: [] }, levels: notMeasured('nothing was played') };
