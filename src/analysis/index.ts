/** What is known of a piece before it is taught: form, pedal plan, pitfalls, teaching notes. From the score alone. */
export type * from './types.js';
export { analyseScore, inLanguage } from './analyse.js';
export { analysisInWords } from './analysisInWords.js';
export { findForm } from './form.js';
export { planPedal } from './pedalPlan.js';
export { editPlan, planTicks, type PlanEdit } from './pedalPlanEdits.js';
export { isAsked, plannedOf, withTeachersPlan } from './pedalPlanTeacher.js';
export { readTeachersPlan } from './readTeachersPlan.js';
export { analysisReport, type AnalysisReport } from './report.js';
export { findHandPlaces, type HandOptions } from './handPlaces.js';
export type * from './handTypes.js';
export { findBeatPlaces } from './beatPlaces.js';
export type * from './beatTypes.js';
export { findPitfalls, type PitfallOptions } from './pitfallPlaces.js';
export { countInSentence, pitfallPlace, pitfallRemarks } from './pitfallRemarks.js';
export type { Pitfall, PitfallKind, PitfallPlace } from './pitfallTypes.js';
export { chordInWords, chordOverBass, keyInWords } from './names.js';
export { barsInWords } from './teachingNotesBars.js';
