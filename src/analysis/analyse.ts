import type { Language } from '../base/index.js';
import { analyseHarmony, type HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { findForm } from './form.js';
import { planPedal } from './pedalPlan.js';
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
    pitfalls: [],
    pedalPlan: planPedal(score, harmony, form.sections),
  };
  return { ...known, notes: notesIn(score, known, language) };
}

/** The teaching notes of an analysed score in the other language. */
export function notesIn(score: Score, analysis: Omit<Analysis, 'notes'>, language: Language): TeachingNotes {
  const { sections, phrases, played, pedalPlan, key, keys, harmonies, cadences, pitfalls } = analysis;
  const harmony: HarmonyAnalysis = { globalKey: key, keys, harmonies, cadences, phraseEnds: phrases.map((phrase) => phrase.to) };
  return teachingNotes({ score, harmony, form: { sections, phrases, played }, pedalPlan, sounds: soundsOf(score), language }, pitfalls);
}
