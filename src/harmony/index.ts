/** Keys, harmonies, cadences and phrase ends of a score, from the score alone. */
export type * from './types.js';
export { analyseHarmony } from './analyseHarmony.js';
export { CBMS, KOSTKA_PAYNE, KRUMHANSL_KESSLER, keyCorrelations, keyNumber, type Profile } from './profiles.js';
export { harmonyReport, type HarmonyReport, type ReportPlace } from './report.js';
