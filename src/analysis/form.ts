/** The form of a piece: its phrases, its sections with letters, and the order in which sections are played. */
import type { HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { barContents } from './formBars.js';
import type { FormMaterial } from './formEvidence.js';
import { findPhrases } from './formPhrases.js';
import { findReturns } from './formReturns.js';
import { findSections } from './formSections.js';
import type { Form, Section } from './formTypes.js';

/** Finds phrases and sections; both empty for a score without notes. */
export function findForm(score: Score, harmony: HarmonyAnalysis): Form {
  const bars = barContents(score, harmony.harmonies);
  const phrases = findPhrases(score, harmony);
  const material: FormMaterial = { score, harmony, bars, phrases };
  const sections = findSections(material, findReturns(bars));
  return { phrases, sections, played: playedSections(score, sections) };
}

/** Sections in playing order: a new entry wherever another section begins or the order goes back. */
export function playedSections(score: Score, sections: readonly Section[]): readonly number[] {
  const played: number[] = [];
  let before = -1;
  for (const { barIndex } of score.order) {
    const section = sections.find((one) => barIndex >= one.fromBar && barIndex <= one.toBar);
    if (section !== undefined && (barIndex <= before || played[played.length - 1] !== section.index)) played.push(section.index);
    before = barIndex;
  }
  return played;
}
