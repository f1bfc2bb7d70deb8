export type * from './types.js';
export { TIMING_LEAST_NOTES } from './handTiming.js';
export { measureAll } from './measureAll.js';
export { STOP_LEAST_S, STOP_TIMES } from './pulsePoints.js';
