/**
 * The route in words. It says what happened and does not judge: going back may be practising.
 */
import { listInWords, sentenceCase, timesInWords, word, type Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { barNames, type BarNames } from './bars.js';
import type { Strand } from './strands.js';

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
  const { names, player, brief } = saying;
  const hands = brief ? handsInBrief(strands) : handsAlone(strands, names);
  const said = [goingBack(strands, names, player), leftOut(score, strands, names), hands].filter((text) => text !== '');
  return [through(score, strands, { ...saying, plain: said.length === 0 }), ...said].filter((text) => text !== '');
}

/** What of the piece was played, where that is not plain from the rest. */
function through(score: Score, strands: readonly Strand[], said: Saying & { readonly plain: boolean }): string {
  const first = Math.min(...strands.map((strand) => strand.fromVisit));
  const last = Math.max(...strands.map((strand) => strand.toVisit));
  const whole = first === 0 && last === score.order.length - 1;
  if (whole) return said.plain ? 'once through, without going back' : '';
  const from = Math.min(...strands.map((strand) => strand.fromBar));
  const to = Math.max(...strands.map((strand) => strand.toBar));
  const all = `${score.bars.length} ${word('bars', said.language)}`;
  return `${said.names.range(from, to)} of ${all}${said.plain ? ', without going back' : ''}`;
}

/** "She went back twice: to bar 5, then to bar 7." */
function goingBack(strands: readonly Strand[], names: BarNames, player: string): string {
  const targets = strands.filter((strand) => strand.arrival === 'back').map((strand) => names.long(strand.fromBar));
  if (targets.length === 0) return '';
  const often = `${player} went back ${timesInWords(targets.length)}`.trim();
  if (targets.length === 1) return `${often}, to ${targets.join('')}`;
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
  return gaps.length === 0 ? '' : `left out: ${listInWords(gaps)}`;
}

/** One gap: a repeat where the written bars go on or all come a second time, else the bars. */
function gapInWords(score: Score, before: Strand, next: { strand: Strand; names: BarNames }): string {
  const visits = score.order.slice(before.toVisit + 1, next.strand.fromVisit);
  const bars = visits.map((visit) => visit.barIndex);
  const range = next.names.range(Math.min(...bars), Math.max(...bars));
  const repeat = next.strand.arrival === 'repeatLeftOut' || visits.every((visit) => visit.pass > 1);
  return repeat ? `the repeat of ${range}` : range;
}

/** "Bars 1–8 with the right hand alone." */
function handsAlone(strands: readonly Strand[], names: BarNames): string {
  const alone = strands.filter((strand) => strand.hands !== 'both');
  if (alone.length === 0) return '';
  const hands = new Set(alone.map((strand) => strand.hands));
  if (alone.length === strands.length && hands.size === 1) return `the ${alone[0]?.hands ?? ''} hand plays alone`;
  const told = alone.slice(0, MOST_TOLD).map((strand) => `${names.range(strand.fromBar, strand.toBar)} with the ${strand.hands} hand alone`);
  return listInWords(told);
}

/** "partly one hand alone". */
function handsInBrief(strands: readonly Strand[]): string {
  const alone = new Set(strands.map((strand) => strand.hands));
  if (!alone.has('right') && !alone.has('left')) return '';
  return alone.size === 1 ? `${[...alone].join('')} hand alone` : 'partly one hand alone';
}
