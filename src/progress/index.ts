/** What changed between recordings. */
export type * from './types.js';
export { compareRecordings } from './compare.js';
export { comparisonInWords, comparisonReport, type ComparisonReport } from './report.js';
export { figuresOf, type WeekFigures } from './figures.js';
export { cleanTwiceRunning, comingBack, settledBy, type WeekEntry } from './overWeeks.js';
export { experienceAt, sinkUntrue, unforeseenBars, type Experience, type PieceHistory } from './tripped.js';
