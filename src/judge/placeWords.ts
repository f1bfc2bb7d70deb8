import { countInWords, listInWords, sentenceCase, type Language } from '../base/index.js';
import type { Hand } from '../measure/index.js';
import { barNames, type Score } from '../score/index.js';
import type { FoundPlace } from './types.js';

/** More places than this are counted, not listed. */
const MOST_LISTED = 4;

/** What a place is named from. */
export interface Placing {
  readonly score: Pick<Score, 'bars'>;
  readonly language: Language;
}

/** The first of the places of a remark or of praise. @throws RangeError where there is none, which no remark may be */
export function firstPlace<Place extends FoundPlace>(places: readonly Place[]): Place {
  const [first] = places;
  if (first === undefined) throw new RangeError('a remark without a place');
  return first;
}

/** Bars of several places as they are spoken, each once: "bars 5–8", "bars 3, 7 and 11", "bars 1, 3, 5, 7 and six more places". */
export function placesInWords({ score, language }: Placing, places: readonly FoundPlace[]): string {
  const names = barNames(score, language);
  const ranges = neighbouring(places);
  const listed = ranges.length > MOST_LISTED + 1 ? ranges.slice(0, MOST_LISTED) : ranges;
  const texts = listed.map(({ fromBar, toBar }) => names.range(fromBar, toBar));
  const more = ranges.length - listed.length;
  return listInWords([...shareWord(texts), ...(more > 0 ? [`${countInWords(more)} more places`] : [])]);
}

/** From this share (>=) of the bars on a scattered thing is nearly everywhere: nobody counts the bars that are free of it. */
const NEARLY_ALL = 0.85;

/** Where a sentence begins: "Right hand, bars 5–8", "Bar 14", "Left hand, nearly throughout", "Left hand" where the whole piece is meant. */
export function whereInWords(placing: Placing, hand: Hand | null, places: readonly FoundPlace[]): string {
  const ranges = neighbouring(places);
  const share = ranges.reduce((bars, { fromBar, toBar }) => bars + toBar - fromBar + 1, 0) / placing.score.bars.length;
  const bars = ranges.length > 1 && share >= NEARLY_ALL ? 'nearly throughout' : placesInWords(placing, places);
  return hand === null ? sentenceCase(bars) : sentenceCase([`${hand} hand`, bars].filter((part) => part !== '').join(', '));
}

/** First and last bar of a stretch. */
type BarStretch = Pick<FoundPlace, 'fromBar' | 'toBar'>;

/** Bars that touch or overlap as one range, in the order of the score, whatever pass or try they were found in. */
export function neighbouring(places: readonly BarStretch[]): readonly BarStretch[] {
  const out: { fromBar: number; toBar: number }[] = [];
  for (const { fromBar, toBar } of [...places].sort((a, b) => a.fromBar - b.fromBar)) {
    const last = out.at(-1);
    if (last !== undefined && fromBar <= last.toBar + 1) last.toBar = Math.max(last.toBar, toBar);
    else out.push({ fromBar, toBar });
  }
  return out;
}

/** "bar 3", "bar 7" share their word: "bars 3", "7". Names without a number, such as "the upbeat", stay as they are. */
function shareWord(texts: readonly string[]): readonly string[] {
  const parts = texts.map((text) => /^(bar|measure)s? ([\d–a-z]+)$/.exec(text));
  const first = parts.findIndex((part) => part !== null);
  if (parts.filter((part) => part !== null).length < 2) return texts;
  return parts.map((part, i) => (part === null ? (texts[i] ?? '') : i === first ? `${part[1] ?? ''}s ${part[2] ?? ''}` : (part[2] ?? '')));
}
