/** From facts to observations: thresholds from hearing and from the trade, one file an aspect. */
export type * from './types.js';
export { ASPECTS } from './aspects.js';
export { judgeAll } from './judgeAll.js';
export { concernOf, severityOf, weightOf } from './weight.js';
export { differences, slipsByVisit, visitKey, type Difference, type DifferenceKind, type Material, type Slip } from './differences.js';
export { slipsInWords } from './differenceWords.js';
export { alterInKey, namePlayed, noteInWords, type NoteName } from './noteNames.js';
export { firstPlace, neighbouring, placesInWords, whereInWords } from './placeWords.js';
export { strandsOf, wentBack, type Arrival, type Strand } from './strands.js';
export { playedByMarked } from './tempoMarks.js';
export { triesInWords, tryInWords, visitsInWords } from './tries.js';
export { NO_DECISIONS } from './decisions.js';
export { readDecisions, readLeftAlone, readPreferences, readRightAsPlayed } from './readDecisions.js';
export { pedalFindings } from './pedal.js';
