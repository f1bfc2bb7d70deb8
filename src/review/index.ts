export { alignmentInWords } from './alignmentWords.js';
export { barNames, type BarNames } from '../score/index.js';
export { routeInBrief, routeInWords, type RouteWordsOptions } from './routeWords.js';
export { shownVisits, visitsByBar } from './selection.js';
export { beatUnit, paceInWords, tempoInWords, tempoMarkOf, tempoOf, type BeatUnit, type TempoFound, type TempoMark } from './tempoWords.js';
export {
  alterInKey, differences, namePlayed, noteInWords, slipsByVisit, slipsInWords, strandsOf, triesInWords, tryInWords, visitKey, visitsInWords,
  type Arrival, type Difference, type DifferenceKind, type Material, type NoteName, type Slip, type Strand,
} from '../judge/index.js';
export { reviewReport, type ReviewReport } from './report.js';
export { reviewInWords } from './reviewInWords.js';
export { makeReview } from './makeReview.js';
export { purposeInWords, purposeName, PURPOSES } from './purposeWords.js';
export type * from './types.js';
