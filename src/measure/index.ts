/** What happened in time and touch: facts, one measure a file, without judgement. */
export type * from './types.js';
export type * from './holdingTypes.js';
export type * from './pulseTypes.js';
export type * from './levelTypes.js';
export type * from './rhythmTypes.js';
export type * from './pedalTypes.js';
export { JOINED_GAP_S } from './barHoldings.js';
export { highestBetween, PEDAL_HOLDS, PEDAL_LINGERS, soundEnds } from './soundEnds.js';
export { touchAsked, type MarkedTouch, type TouchAsked } from './touchAsked.js';
export { handOf, HANDS, type Hand } from './hands.js';
export { playedOf, writtenOf, type Piece } from './piece.js';
export { TIMING_LEAST_NOTES } from './handTiming.js';
export { measureAll, type MeasuredPiece } from './measureAll.js';
export { STOP_LEAST_S, STOP_TIMES } from './pulsePoints.js';
export { FOOT_DOWN, type FootDown } from './footCurve.js';
export { downShare } from './pedalHabits.js';
export { footOver, type FootOver } from './footOver.js';
