/** What is known of a piece before it is taught: form, pedal plan, pitfalls, teaching notes. From the score alone. */
export type * from './types.js';
export { analyseScore, notesIn } from './analyse.js';
export { analysisInWords } from './analysisInWords.js';
export { findForm } from './form.js';
export { planPedal } from './pedalPlan.js';
export { analysisReport, type AnalysisReport } from './report.js';
export { findHandPlaces, type HandOptions } from './handPlaces.js';
export type * from './handTypes.js';
