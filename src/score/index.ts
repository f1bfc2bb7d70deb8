export type * from './types.js';
export { readScore, type ReadScoreOptions } from './readScore.js';
export { barAtTick, barLabel, beatTicks, ticksToCrotchets, visitAtTick, type BarPosition } from './positions.js';
