/** Scale: 29 px for 200 ms, in all systems. */
export const PX_PER_MS = 29 / 200;

/**
 * Half the band of "in time", ms. One displaced tone is heard from 2.5 % of the beat between tones (Friberg & Sundberg
 * 1995), some 10 to 25 ms; in living playing that much is the common scatter, so the band is our own rule, well above it.
 */
export const IN_TIME_MS = 40;

/** Beyond this a point is drawn at the edge with a small arrow-head, ms; its title has the figure. */
export const FARTHEST_MS = 400;
