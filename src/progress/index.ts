/** What changed between recordings. */
export type * from './types.js';
export { compareRecordings } from './compare.js';
export { comparisonInWords, comparisonReport, type ComparisonReport } from './report.js';
