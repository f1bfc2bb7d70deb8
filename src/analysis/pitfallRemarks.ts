/** Pitfalls as whole remarks for a page: where, what will happen, what to practise, and the line to count by. */
import { sentenceCase, type Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { barsInWords, isUpbeat, spansInWords } from './teachingNotesBars.js';
import type { Remark } from './teachingNotesTypes.js';
import type { Counting } from './beatTypes.js';
import { valueInWords } from './pitfallWords.js';
import type { Pitfall } from './pitfallTypes.js';

/** "Right hand, bars 5–8", "Both hands, bar 7", "Bars 13–14" where it is a matter of the whole bar. */
export function pitfallPlace(score: Score, { hand, places }: Pick<Pitfall, 'hand' | 'places'>, language: Language = 'british'): string {
  const [first, ...rest] = places;
  // an upbeat has no number to stand in a list of numbers
  const apart = first !== undefined && rest.length > 0 && isUpbeat(score, first.fromBar);
  const bars = apart ? `${barsInWords(score, first, language)} and ${spansInWords(score, rest, language)}` : spansInWords(score, places, language);
  return hand === 'both' ? sentenceCase(bars) : `${sentenceCase(hand)} hand, ${bars}`;
}

/** "Count bar 5 in quavers: 1 **2** & 3." */
export function countInSentence(score: Score, { barIndex, line, unitTicks }: Counting, language: Language = 'british'): string {
  const value = unitTicks === null ? null : valueInWords({ score, language }, unitTicks);
  return `Count ${barsInWords(score, { fromBar: barIndex, toBar: barIndex }, language)}${value === null ? '' : ` in ${value}s`}: ${line}.`;
}

/** The pitfalls as remarks, in their order: "Left hand, bar 5: …" and what to practise. */
export function pitfallRemarks(score: Score, pitfalls: readonly Pitfall[], language: Language = 'british'): readonly Remark[] {
  return pitfalls.map((pitfall) => {
    const count = pitfall.counting === null ? '' : ` ${countInSentence(score, pitfall.counting, language)}`;
    return {
      text: `${pitfallPlace(score, pitfall, language)}: ${pitfall.sentence} ${pitfall.practise}${count}`,
      places: pitfall.places.map(({ fromBar, toBar }) => ({ fromBar, toBar })),
    };
  });
}
