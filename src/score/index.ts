export type * from './types.js';
export { readScore, type ReadScoreOptions } from './readScore.js';
