export { alignmentInWords } from './alignmentWords.js';
export { barNames, type BarNames } from './bars.js';
export { differences, slipsByVisit, visitKey, type Difference, type DifferenceKind, type Material, type Slip } from './differences.js';
export { namePlayed, noteInWords, type NoteName } from './noteNames.js';
export { routeInWords, type RouteWordsOptions } from './routeWords.js';
export { shownVisits, visitsByBar } from './selection.js';
export { strandsOf, type Arrival, type Strand } from './strands.js';
export { beatUnit, paceInWords, tempoInWords, tempoOf, type BeatUnit, type TempoFound } from './tempoWords.js';
export { triesInWords, tryInWords, visitsInWords } from './tries.js';
