/**
 * Scores: the written piece as exact records, its playing order, and what sounds along it. Knows nothing of
 * recordings. Everything outside of this folder takes scores from here.
 */
export type * from './types.js';
export { readScore, type ReadScoreOptions } from './readScore.js';
export { barAtTick, barLabel, beatTicks, ticksToCrotchets, visitAtTick, type BarPosition } from './positions.js';
export { barNames, type BarNames } from './barNames.js';
export { beatUnit, printedTempos, tempoMarkOf, type BeatUnit, type PrintedTempo, type TempoMark } from './tempoMarks.js';
export { tempoChange, tempoRange, type TempoChange, type TempoRange } from './tempoTerms.js';
export * from './scales/index.js';
