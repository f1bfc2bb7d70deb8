/*
 * The tempo against what is printed.
 *
 * What is a fault: within a tenth is as marked; below three quarters the character changes, unless it is practice (common
 * practice). Words stand for ranges, and slow ones may be counted in half beats: only what lies clearly outside of every reading counts, and is less sure. Slow practice
 * is said as such and not blamed: under two thirds, or under three quarters while working at it (one hand alone, a part only, going
 * back); slow work starts at 50 to 60 %.
 */
import { tempoRange, type PrintedTempo } from '../score/index.js';
import type { TempoSpan } from '../measure/index.js';
import { strandsOf } from './strands.js';
import type { Finding, JudgeInput } from './types.js';
import { severityOf } from './weight.js';

/** Within this share (<=) it is as marked. */
export const AS_MARKED = 0.1;

/** Below (<) this share the character changes. */
export const CHARACTER_CHANGES = 0.75;

/** Below (<) this share nobody means it: it is practice. */
const PRACTICE = 2 / 3;

/** What slow practice weighs: said, not blamed. */
export const PRACTICE_SEVERITY = 0.2;

/** Dotted beats go by more slowly than plain ones under the same word: down to this share of its low end. Common practice. */
const COMPOUND_SHARE = 0.75;

/** Outside of a word's range by up to so many times (<=) what passes as marked, the word is stretched, not missed. */
const WORD_TIMES = 2;

/** A mark that holds for fewer bars (<) sets a gesture, not a tempo. */
export const LEAST_SPAN_BARS = 4;

/** How sure a figure is, and a word. */
const SURE_FIGURE = 0.9;
const SURE_WORD = 0.6;

/** Going back so often (>=) is working at a piece. */
const WORKING_RETURNS = 2;

/** Reaching less (<) than this share of the bars in one go is playing a part of it. */
const PART_SHARE = 0.8;

/** A tempo beside its mark. */
export interface AgainstMark {
  readonly span: TempoSpan;
  readonly mark: PrintedTempo;
  /** Played by the nearest tempo that would be as written: 1 inside of a range. */
  readonly ratio: number;
  readonly figure: boolean;
}

/** The longest played span under every mark that can be held against anything. */
export function againstMarks(spans: readonly TempoSpan[]): readonly AgainstMark[] {
  const longest = new Map<PrintedTempo, TempoSpan>();
  for (const span of spans) {
    const known = span.mark === null ? undefined : longest.get(span.mark);
    if (span.mark !== null && lengthOf(span) >= LEAST_SPAN_BARS && (known === undefined || lengthOf(span) > lengthOf(known))) longest.set(span.mark, span);
  }
  return [...longest].flatMap(([mark, span]): readonly AgainstMark[] => {
    const ratio = span.played.measured ? ratioOf(mark, span.played.value) : null;
    return ratio === null ? [] : [{ span, mark, ratio, figure: mark.crotchetsAMinute !== null }];
  });
}

/** Played by marked: the middle of all bars under marks that name a tempo, in figures or by their word; null where there are none. */
export function playedByMarked(spans: readonly TempoSpan[]): number | null {
  const ratios = againstMarks(spans).flatMap(({ span, ratio }) => Array.from({ length: lengthOf(span) }, () => ratio)).sort((a, b) => a - b);
  return ratios[Math.floor((ratios.length - 1) / 2)] ?? null;
}

/** Bars of a span. */
export function lengthOf({ fromVisit, toVisit }: TempoSpan): number {
  return toVisit - fromVisit + 1;
}

/** Played by marked; null for a mark that names no tempo. */
function ratioOf(mark: PrintedTempo, crotchetsAMinute: number): number | null {
  if (mark.crotchetsAMinute !== null) return crotchetsAMinute / mark.crotchetsAMinute;
  const range = tempoRange(mark.words);
  if (range === null) return null;
  const beats = crotchetsAMinute / mark.unit.crotchets;
  const readings = range.slow ? [beats, 2 * beats] : [beats];
  const least = range.least * (DOTTED.has(mark.unit.crotchets) ? COMPOUND_SHARE : 1);
  return readings.map((value) => (value < least ? value / least : Math.max(1, value / range.most))).reduce((best, ratio) => (Math.abs(Math.log(ratio)) < Math.abs(Math.log(best)) ? ratio : best));
}

/** Dotted beats, crotchets. */
const DOTTED: ReadonlySet<number> = new Set([3, 1.5, 0.75]);

/** Findings on the tempo of every mark. */
export function markFindings(input: JudgeInput): readonly Finding[] {
  const working = isWorking(input);
  return againstMarks(input.measures.pulse.spans).flatMap((against) => {
    const { ratio, figure, span } = against;
    const off = Math.abs(Math.log(ratio)) / -Math.log(1 - AS_MARKED) / (figure ? 1 : WORD_TIMES);
    if (off <= 1) return [];
    const practice = figure && ratio < 1 && (ratio < PRACTICE || (ratio < CHARACTER_CHANGES && working));
    return [{
      aspect: 'tempo' as const, kind: practice ? 'slowPractice' : ratio < 1 ? 'slow' : 'fast', hand: null, topic: String(against.mark.tick),
      place: placeOf(input, span),
      measured: { value: Math.round(100 * ratio), unit: '%', threshold: Math.round(100 * (ratio < 1 ? 1 - AS_MARKED : 1 / (1 - AS_MARKED))) },
      severity: practice ? PRACTICE_SEVERITY : severityOf(off), confidence: figure ? SURE_FIGURE : SURE_WORD,
    }];
  });
}

/** All bars of a span. */
function placeOf({ score, measures }: JudgeInput, { stretch, fromVisit, toVisit }: TempoSpan): Finding['place'] {
  const visits = score.order.slice(fromVisit, toVisit + 1).map(({ barIndex }) => barIndex);
  const first = measures.bars.find((bar) => bar.stretch === stretch && bar.visitIndex === fromVisit);
  const fromBar = visits.reduce((a, b) => Math.min(a, b), first?.barIndex ?? 0);
  return { fromBar, toBar: visits.reduce((a, b) => Math.max(a, b), fromBar), pass: first?.pass ?? 1, attempt: first?.attempt ?? 1, notes: [], startS: first?.startS ?? 0 };
}

/** True where the recording is work at a piece: one hand alone, a part of it, going back again and again. */
function isWorking({ score, alignment, recording }: JudgeInput): boolean {
  const strands = strandsOf(score, alignment, recording.notes.map(({ onsetS }) => onsetS));
  const reached = new Set(strands.flatMap(({ fromVisit, toVisit }) => score.order.slice(fromVisit, toVisit + 1).map(({ barIndex }) => barIndex)));
  return strands.filter(({ arrival }) => arrival === 'back').length >= WORKING_RETURNS
    || (score.staves > 1 && strands.some(({ hands }) => hands !== 'both'))
    || reached.size < PART_SHARE * score.bars.length;
}
