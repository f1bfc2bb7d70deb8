/** Sections as their brackets name them. */
import type { Analysis, ChangeKind, Section } from '../analysis/index.js';
import { countInWords, word, type Language } from '../base/index.js';
import type { BracketedSection } from '../engrave/index.js';

/** What a return does otherwise, in the fewest words; the sentences say where. */
const CHANGES: Readonly<Record<ChangeKind, string>> = {
  opening: 'another opening', close: 'another close', middle: 'another middle', throughout: 'varied throughout', rightHand: 'the right hand varied', leftHand: 'the left hand varied',
  transposed: 'transposed', leaves: 'goes its own way', shorter: 'shorter', longer: 'longer',
};

/** The sections of an analysis with a caption each: how long, or how it returns. */
export function bracketedSections({ sections }: Analysis, language: Language): readonly BracketedSection[] {
  return sections.map((section) => ({ fromBar: section.fromBar, toBar: section.toBar, name: section.name, caption: captionOf(section, language) }));
}

/** "eight bars"; "unchanged"; "another close, shorter". */
export function captionOf({ lengthBars, returnOf, variant, changes }: Section, language: Language): string {
  const length = `${countInWords(lengthBars)} ${word(lengthBars === 1 ? 'bar' : 'bars', language)}`;
  if (returnOf === null) return lengthBars === 0 ? '' : length;
  if (variant === 0 || changes.length === 0) return `returns${variant === 0 ? ' unchanged' : ''}`;
  return [...new Set(changes.map(({ kind }) => CHANGES[kind]))].join(', ');
}
