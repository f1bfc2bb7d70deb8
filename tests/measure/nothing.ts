import { notMeasured } from '../../src/base/index.js';
import type { Measures } from '../../src/measure/index.js';

/** Nothing measured: what tests that need a few facts spread theirs over. */
export const NO_MEASURES: Measures = { onsets: [], bars: [], pulse: { bars: [], waits: [], beats: [], spans: [], bends: [] }, holding: { notes: [], silences: [], restruck: [], bars: [] }, rhythm: { bars: [], figures: [], hands: [], chords: [], runs: [], distances: [], steps: [], graces: [], ornaments: [], crossings: [] }, levels: notMeasured('nothing was played'),
  pedal: {
    downs: [], changes: [], smears: [], cuts: [], words: [], bars: [],
    habits: {
      downShare: 0, presses: 0, reachedDown: 0, lifted: 0, liftLagS: notMeasured('nothing was played'), pressLagS: notMeasured('nothing was played'), withTheChord: notMeasured('nothing was played'),
      flutters: [], halfShare: notMeasured('nothing was played'), softShare: 0, sostenutoPresses: 0,
    },
  },
};
