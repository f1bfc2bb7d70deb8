export { alignmentInWords } from './alignmentWords.js';
export { barNames, beatUnit, tempoMarkOf, type BarNames, type BeatUnit, type TempoMark } from '../score/index.js';
export { routeInBrief, routeInWords, type RouteWordsOptions } from './routeWords.js';
export { shownVisits, visitsByBar } from './selection.js';
export { paceInWords, tempoInWords, tempoOf, type TempoFound } from './tempoWords.js';
export {
  alterInKey, differences, namePlayed, noteInWords, slipsByVisit, slipsInWords, strandsOf, triesInWords, tryInWords, visitKey, visitsInWords,
  type Arrival, type Difference, type DifferenceKind, type Material, type NoteName, type Slip, type Strand,
} from '../judge/index.js';
export { reviewReport, type ReviewReport } from './report.js';
export { reviewInWords } from './reviewInWords.js';
export { makeReview } from './makeReview.js';
export { purposeInWords, purposeName, PURPOSES } from './purposeWords.js';
export type * from './types.js';
export { pedalInWords } from './pedalInWords.js';
export { pedalReport, type PedalReport } from './pedalReport.js';
