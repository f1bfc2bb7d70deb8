import type { Language } from '../base/index.js';
import { analyseHarmony, type HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { findForm } from './form.js';
import { planPedal } from './pedalPlan.js';
import { findPitfalls } from './pitfallPlaces.js';
import { pitfallRemarks } from './pitfallRemarks.js';
import { soundsOf } from './sounds.js';
import { teachingNotes } from './teachingNotes.js';
import type { Analysis, TeachingNotes } from './types.js';

/** Analyses a score: harmony, form, pedal plan, pitfalls and the teaching notes made from all of them. */
export function analyseScore(score: Score, language: Language = 'british'): Analysis {
  const harmony = analyseHarmony(score);
  const form = findForm(score, harmony);
  const known = {
    order: score.order.flatMap((visit) => score.bars[visit.barIndex]?.number ?? []),
    key: harmony.globalKey,
    sections: form.sections,
    played: form.played,
    phrases: form.phrases,
    keys: harmony.keys,
    harmonies: harmony.harmonies,
    cadences: harmony.cadences,
    pitfalls: findPitfalls(score, { harmony, language }),
    pedalPlan: planPedal(score, harmony, form.sections),
  };
  return { ...known, notes: notesIn(score, known, language) };
}

/** The analysis with its sentences in another language; facts stay. */
export function inLanguage(score: Score, analysis: Analysis, language: Language): Analysis {
  const { key, keys, harmonies, cadences, phrases } = analysis;
  const harmony: HarmonyAnalysis = { globalKey: key, keys, harmonies, cadences, phraseEnds: phrases.map(({ to }) => ({ ...to, lastNoteTick: to.tick })) };
  const spoken = { ...analysis, pitfalls: findPitfalls(score, { harmony, language }) };
  return { ...spoken, notes: notesIn(score, spoken, language) };
}

/** The teaching notes of an analysed score. */
export function notesIn(score: Score, analysis: Omit<Analysis, 'notes'>, language: Language): TeachingNotes {
  const { sections, phrases, played, pedalPlan, key, keys, harmonies, cadences, pitfalls } = analysis;
  const harmony: HarmonyAnalysis = { globalKey: key, keys, harmonies, cadences, phraseEnds: phrases.map(({ to }) => ({ ...to, lastNoteTick: to.tick })) };
  return teachingNotes({ score, harmony, form: { sections, phrases, played }, pedalPlan, sounds: soundsOf(score), language, told: new Set(pitfalls.map((pitfall) => pitfall.kind)) }, pitfallRemarks(score, pitfalls, language));
}
