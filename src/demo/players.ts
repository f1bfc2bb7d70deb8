/**
 * How the five invented pupils play. The figures are our own, set against what is published: a trained hand keeps its
 * onsets within 8-9 ms in even scales (Jabusch 2006, mean standard deviation of 13 professionals), players in ensemble
 * stay within 30-50 ms without sounding ragged (Rasch 1979), beginners scatter more and their slips come with timing errors
 * (Drake & Palmer 2000).
 */
import type { Player } from './plan.js';

/** Plays well and carefully. */
export const mei: Player = { pupil: 'mei-castellow', tempo: 0.95, timingMs: 11, wander: 0.012, arc: 0.05, spreadMs: 6, leadMs: 18, velocitySd: 3, overlap: 0.12, staccato: 0.42, voicing: 16 };

/** Fluent and impatient. */
export const jonas: Player = { pupil: 'jonas-brekkewood', tempo: 1.04, timingMs: 14, wander: 0.016, arc: 0.03, spreadMs: 8, leadMs: 12, velocitySd: 4, overlap: 0.1, staccato: 0.4, voicing: 12 };

/** Careful fingers, short hands; a beginner in the second year. */
export const nilo: Player = { pupil: 'nilo-tarrand', tempo: 0.6, timingMs: 30, wander: 0.035, arc: 0, spreadMs: 18, leadMs: 0, velocitySd: 7, overlap: -0.06, staccato: 0.5, voicing: 4 };

/** Quick to learn, not yet listening to the ends of notes. */
export const asha: Player = { pupil: 'asha-vellory', tempo: 0.96, timingMs: 16, wander: 0.015, arc: 0.02, spreadMs: 9, leadMs: 8, velocitySd: 5, overlap: 0.08, staccato: 0.42, voicing: 12 };

/** Back at the piano after many years. */
export const desmond: Player = { pupil: 'desmond-yarrick', tempo: 0.82, timingMs: 22, wander: 0.022, arc: 0.02, spreadMs: 14, leadMs: 5, velocitySd: 6, overlap: 0.04, staccato: 0.45, voicing: 10 };
