/** The teaching notes as the page shows them: sentences with links to their bars, pitfalls taken apart. */
import { countInSentence, pitfallPlace, type Analysis, type BarSpan, type Pitfall, type Remark } from '../analysis/index.js';
import type { Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { experienceAt, type PieceHistory } from '../progress/index.js';
import { barList, linkBars, type LinkGround } from './barLinks.js';
import { barsIn, experienceInWords } from './pieceHistories.js';
import type { CountingView, RemarkView, TripView } from './pieceTypes.js';
import { unbroken } from './unbroken.js';

/** What sentences are made from. */
export interface RemarkGround extends LinkGround {
  readonly score: Score;
  readonly language: Language;
}

/** Sentences with their bars. */
export function remarkViews(remarks: readonly Remark[], ground: RemarkGround): readonly RemarkView[] {
  return remarks.map(({ text, places }) => ({ segments: linked(text, places, ground), bars: barList(places), whole: isWhole(places, ground.score) }));
}

/** Pitfalls in their order, numbered from 1, with what pupils met there. */
export function tripViews(pitfalls: readonly Pitfall[], histories: readonly PieceHistory[], ground: RemarkGround): readonly TripView[] {
  return pitfalls.map((pitfall, i) => ({
    number: i + 1,
    where: linked(pitfallPlace(ground.score, pitfall, ground.language), pitfall.places, ground),
    sentence: unbroken(pitfall.sentence),
    practise: unbroken(pitfall.practise),
    counting: pitfall.counting === null ? null : countingView(countInSentence(ground.score, pitfall.counting, ground.language)),
    bars: barList(pitfall.places),
    experience: experienceInWords(experienceAt(histories, barsIn(pitfall.places))),
  }));
}

/** "Count bar 2: 1 **2** **3**." taken apart. */
export function countingView(sentence: string): CountingView {
  const colon = sentence.indexOf(': ');
  const line = sentence.slice(colon + 2).replace(/\.$/, '');
  const syllables = line.split(' ').map((syllable) => ({ text: syllable.replaceAll('*', ''), struck: syllable.startsWith('**') }));
  return { lead: sentence.slice(0, colon + 1), syllables };
}

/** Every bar that the sentences of an analysis speak of closely, as the page's own links need it. */
export function namesBar(places: readonly BarSpan[], barIndex: number): boolean {
  return places.some(({ fromBar, toBar }) => barIndex >= fromBar && barIndex <= toBar);
}

/** The pitfalls as the engraving numbers them: a sign where each of their places begins. */
export function numberedPitfalls(analysis: Analysis, language: Language, score: Score) {
  return analysis.pitfalls.map((pitfall, i) => ({
    number: i + 1,
    bars: pitfall.places.map(({ fromBar }) => fromBar),
    title: `${pitfallPlace(score, pitfall, language)}: ${pitfall.sentence}`,
  }));
}

/** A sentence with its links, note names held together. */
function linked(text: string, places: readonly BarSpan[], ground: LinkGround) {
  return linkBars(unbroken(text), places, ground);
}

/** Whether the bars are all there are. */
function isWhole(places: readonly BarSpan[], score: Score): boolean {
  return places.some(({ fromBar, toBar }) => fromBar === 0 && toBar === score.bars.length - 1);
}
