/**
 * The route in words. It says what happened and does not judge: going back may be practising.
 */
import { listInWords, sentenceCase, timesInWords, word, type Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { barNames, type BarNames } from '../score/index.js';
import { wentBack, type Strand } from '../judge/index.js';

/** How the player is spoken of at the start of a sentence: "She", "The pupil". */
export interface RouteWordsOptions {
  readonly player?: string;
  readonly language?: Language;
}

/** Up to here every going back is told in turn; beyond, only where it happened most. */
const MOST_TOLD = 4;

/**
 * The way through the score in plain sentences: "She went back twice: to bar 5, then to bar 7."
 * @param strands from `strandsOf`
 */
export function routeInWords(score: Score, strands: readonly Strand[], options: RouteWordsOptions = {}): string {
  const { player = 'The pupil', language = 'british' } = options;
  return clauses(score, strands, { player, names: barNames(score, language), language, brief: false })
    .map((clause) => `${sentenceCase(clause)}.`)
    .join(' ');
}

/**
 * The same as the parts of one short line, without a player: "went back twice: to bar 5, then to
 * bar 7".
 */
export function routeInBrief(score: Score, strands: readonly Strand[], language: Language = 'british'): readonly string[] {
  return clauses(score, strands, { player: '', names: barNames(score, language), language, brief: true });
}

/** How the clauses are said. */
interface Saying {
  readonly player: string;
  readonly names: BarNames;
  readonly language: Language;
  readonly brief: boolean;
}

/** Everything worth saying of a route, each without its full stop. */
function clauses(score: Score, strands: readonly Strand[], saying: Saying): readonly string[] {
  if (strands.length === 0) return ['nothing of the score was played'];
  const { names, player, brief, language } = saying;
  const hands = brief ? handsInBrief(strands) : handsAlone(strands, names, language);
  const said = [goingBack(strands, names, player), leftOut(score, strands, names), hands].filter((text) => text !== '');
  return [through(score, strands, { ...saying, plain: said.length === 0 }), ...said].filter((text) => text !== '');
}

/** What of the piece was played, where that is not plain from the rest. */
function through(score: Score, strands: readonly Strand[], said: Saying & { readonly plain: boolean }): string {
  const first = Math.min(...strands.map((strand) => strand.fromVisit));
  const last = Math.max(...strands.map((strand) => strand.toVisit));
  const whole = first === 0 && last === score.order.length - 1;
  if (whole) return said.plain ? onceThrough(strands) : '';
  const from = Math.min(...strands.map((strand) => strand.fromBar));
  const to = Math.max(...strands.map((strand) => strand.toBar));
  const all = `${numberedBars(score, said.names)} ${word('bars', said.language)}`;
  return `${said.names.range(from, to)} of ${all}${said.plain ? ', without going back' : ''}`;
}

/** How many bars a reader counts: an upbeat and the second half of a split bar have no number of their own. */
function numberedBars(score: Score, names: BarNames): number {
  return score.bars.filter((bar) => names.short(bar.index) !== '').length;
}

/** Straight through; the repeats that the score asks for are named, so that nobody takes them for going back. */
function onceThrough(strands: readonly Strand[]): string {
  const repeats = strands.filter((strand, i) => strand.arrival === 'order' && strand.fromBar <= (strands[i - 1]?.toBar ?? -1)).length;
  if (repeats === 0) return 'once through, without going back';
  return `once through, with the repeat${repeats > 1 ? 's' : ''}`;
}

/** "She went back twice: to bar 5, then to bar 7." */
function goingBack(strands: readonly Strand[], names: BarNames, player: string): string {
  const targets = strands.filter((_, i) => wentBack(strands, i)).map((strand) => names.long(strand.fromBar));
  if (targets.length === 0) return '';
  const often = `${player} went back ${timesInWords(targets.length)}`.trim();
  if (targets.length === 1) return `${often}, to ${targets.join('')}`;
  if (new Set(targets).size === 1) return `${player} went back to ${targets[0] ?? ''} ${timesInWords(targets.length)}`.trim();
  if (targets.length <= MOST_TOLD) return `${often}: ${targets.map((name) => `to ${name}`).join(', then ')}`;
  return `${often}, most often to ${listInWords(mostCommon(targets))}`;
}

/** The one or two names that come up most, each with how often. */
function mostCommon(names: readonly string[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  const ranked = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 2);
  return ranked.map(([name, count]) => `${name} (${timesInWords(count)})`);
}

/** Bars jumped over, and repeats not taken. */
function leftOut(score: Score, strands: readonly Strand[], names: BarNames): string {
  const gaps = strands.flatMap((strand, i) => {
    const before = strands[i - 1];
    return (strand.arrival === 'on' || strand.arrival === 'repeatLeftOut') && before !== undefined ? [gapInWords(score, before, { strand, names })] : [];
  });
  // bars first: "the repeat of bars 1–8 and bar 12" would read as one repeat
  const inOrder = [...gaps.filter(({ repeat }) => !repeat), ...gaps.filter(({ repeat }) => repeat)];
  return gaps.length === 0 ? '' : `left out: ${listInWords(inOrder.map(({ text }) => text))}`;
}

/** One gap: a repeat where the written bars go on or all come a second time, else the bars. */
function gapInWords(score: Score, before: Strand, next: { strand: Strand; names: BarNames }): Gap {
  const visits = score.order.slice(before.toVisit + 1, next.strand.fromVisit);
  const bars = visits.map((visit) => visit.barIndex);
  const range = next.names.range(Math.min(...bars), Math.max(...bars));
  const repeat = next.strand.arrival === 'repeatLeftOut' || visits.every((visit) => visit.pass > 1);
  return { repeat, text: repeat ? `the repeat of ${range}` : range };
}

/** What was left out, in words. */
interface Gap {
  readonly repeat: boolean;
  readonly text: string;
}

/** "Bars 1–8 with the right hand alone"; "bars 1–4 hands separately" where each hand had its turn. */
function handsAlone(strands: readonly Strand[], names: BarNames, language: Language): string {
  const alone = strands.filter((strand) => strand.hands !== 'both');
  if (alone.length === 0) return '';
  const hands = new Set(alone.map((strand) => strand.hands));
  if (alone.length === strands.length && hands.size === 1) return `the ${alone[0]?.hands ?? ''} hand plays alone`;
  const groups = new Map<string, Set<string>>();
  for (const strand of alone) {
    const range = names.range(strand.fromBar, strand.toBar);
    groups.set(range, (groups.get(range) ?? new Set<string>()).add(strand.hands));
  }
  const how = (which: ReadonlySet<string>): string => (which.size > 1 ? word('handsSeparately', language) : `with the ${[...which].join('')} hand alone`);
  const last = strands.at(-1)?.hands === 'both' && strands[0]?.hands !== 'both' ? ', then hands together' : '';
  return `${listInWords([...groups].slice(0, MOST_TOLD).map(([range, which]) => `${range} ${how(which)}`))}${last}`;
}

/** "partly one hand alone". */
function handsInBrief(strands: readonly Strand[]): string {
  const alone = new Set(strands.map((strand) => strand.hands));
  if (!alone.has('right') && !alone.has('left')) return '';
  return alone.size === 1 ? `${[...alone].join('')} hand alone` : 'partly one hand alone';
}
