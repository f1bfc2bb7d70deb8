/**
 * Sentences cut at the bars that they name, so that each name becomes a link to its bar. Printed numbers need not be unique: of several
 * bars with one number the one that the sentence speaks of is meant.
 */
import type { BarSpan } from '../analysis/index.js';
import type { Score } from '../score/index.js';

/** A piece of a sentence; with an address where it names bars. */
export interface Segment {
  readonly text: string;
  readonly href: string | null;
}

/** What names are looked up in. */
export interface LinkGround {
  readonly score: Pick<Score, 'bars'>;
  /** Fragment of each bar's address. */
  readonly anchors: readonly string[];
}

/** One number or stretch: "7", "12a", "5–8". */
const NUMBERS = String.raw`\d+[a-z]?(?:–\d+[a-z]?)?`;

/** "bar 7", "bars 1–2, 6 and 8", a stretch alone in brackets, "(9–16)", and the beginning that has no number. */
const MENTION = new RegExp(String.raw`\b[Tt]he (?:upbeat|pickup)\b|\b(?:[Bb]ar|[Mm]easure)s? ${NUMBERS}(?:(?:, | and )${NUMBERS})*|(?<=\()${NUMBERS}(?=\))`, 'g');

/** Cuts a sentence. @param places bars that it speaks of */
export function linkBars(text: string, places: readonly BarSpan[], ground: LinkGround): readonly Segment[] {
  const segments: Segment[] = [];
  let from = 0;
  for (const mention of text.matchAll(MENTION)) {
    segments.push({ text: text.slice(from, mention.index), href: null }, ...linkMention(mention[0], places, ground));
    from = mention.index + mention[0].length;
  }
  return [...segments, { text: text.slice(from), href: null }].filter((segment) => segment.text !== '');
}

/** Each number of a mention by itself; the word before goes with the first. */
function linkMention(mention: string, places: readonly BarSpan[], ground: LinkGround): readonly Segment[] {
  if (/upbeat|pickup/.test(mention)) return [{ text: mention, href: places.some(({ fromBar }) => fromBar === 0) ? `#${ground.anchors[0] ?? 'score'}` : null }];
  return mention.split(/(, | and )/).map((part) => {
    const number = /\d+[a-z]?/.exec(part)?.[0];
    return { text: part, href: number === undefined ? null : addressOf(number, places, ground) };
  });
}

/** Address of a bar by its printed number; null where there is none of this number. */
function addressOf(number: string, places: readonly BarSpan[], { score, anchors }: LinkGround): string | null {
  const named = score.bars.filter((bar) => bar.number === number);
  const meant = named.find(({ index }) => places.some(({ fromBar, toBar }) => index >= fromBar && index <= toBar)) ?? named[0];
  return meant === undefined ? null : `#${anchors[meant.index] ?? 'score'}`;
}

/** Bars as the page's script reads them: "3-8 12". */
export function barList(places: readonly BarSpan[]): string {
  return places.map(({ fromBar, toBar }) => (fromBar === toBar ? String(fromBar) : `${fromBar}-${toBar}`)).join(' ');
}
