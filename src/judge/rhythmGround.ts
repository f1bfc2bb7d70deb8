/** What the judges of rhythm share: which visits to a bar can be judged, places, and how a fault weighs that a later try put right. */
import type { BarFacts, Hand, Measures, RhythmFacts } from '../measure/index.js';
import type { Finding, FoundPlace, JudgeInput } from './types.js';
import { severityOf } from './weight.js';

/** From this share (>=) of wrong, missed and added notes on, a bar was stumbled through, and its rhythm is not judged. Our own rule. */
export const STUMBLED_SHARE = 0.34;

/** What a note must be off by at the least (>=), ms, however quick the notes: less is the hand's own, and 30-50 ms pass unheard between players (Rasch 1979). */
export const LEAST_OFF_MS = 30;

/** What is left of a fault that a later try put right. Our own rule, as for notes. */
const CORRECTED = 0.5;

/** "Swing" as a heading. */
const SWING = /\b(swing|swung|shuffle)\b/i;

/** What rhythm is judged from. */
export type RhythmInput = Pick<JudgeInput, 'score' | 'alignment' | 'analysis' | 'language'> & { readonly measures: Pick<Measures, 'bars' | 'rhythm'> };

/** That, laid out for all judges of rhythm. */
export interface RhythmGround {
  readonly input: RhythmInput;
  readonly facts: RhythmFacts;
  /** True under a heading that asks for swung quavers. */
  readonly swing: boolean;
  /** True where no later try at the bar of this visit, in this pass, was made. */
  readonly isLast: (visit: BarFacts) => boolean;
  /** The visit that a stretch makes to a place of the playing order; undefined where it was stumbled through. */
  readonly visit: (stretch: number, visitIndex: number) => BarFacts | undefined;
}

/** The ground of one recording. */
export function rhythmGround(input: RhythmInput): RhythmGround {
  const { measures, score } = input;
  const visits = new Map(measures.bars.filter((bar) => !stumbled(bar)).map((bar) => [`${bar.stretch} ${bar.visitIndex}`, bar]));
  const attempts = new Map<number, number>();
  for (const { visitIndex, attempt } of measures.bars) attempts.set(visitIndex, Math.max(attempt, attempts.get(visitIndex) ?? 0));
  const headings = score.directions.filter(({ kind }) => kind === 'tempo' || kind === 'words').map(({ text }) => text);
  return {
    input, facts: measures.rhythm,
    swing: headings.some((text) => SWING.test(text)),
    isLast: ({ visitIndex, attempt }) => attempt >= (attempts.get(visitIndex) ?? 0),
    visit: (stretch, visitIndex) => visits.get(`${stretch} ${visitIndex}`),
  };
}

/** True where too much went wrong for anything to be said of time. */
export function stumbled({ played, wrong, missed, added }: BarFacts): boolean {
  return wrong + missed + added >= STUMBLED_SHARE * (played + wrong + missed);
}

/** What was found in one visit, or in neighbouring visits of one stretch. */
export interface Found {
  readonly kind: string;
  readonly hand: Hand | null;
  readonly topic?: string;
  /** In order of time, at least one. */
  readonly visits: readonly BarFacts[];
  readonly pairs: readonly number[];
  readonly value: number;
  readonly unit: string;
  readonly threshold: number;
  /** Value by threshold, both counted from what is expected. */
  readonly ratio: number;
  readonly confidence: number;
}

/** The finding, with its place. */
export function findingOf(ground: RhythmGround, { kind, hand, topic = '', visits, pairs, value, unit, threshold, ratio, confidence }: Found): readonly Finding[] {
  const [first] = visits;
  if (first === undefined || ratio < 1) return [];
  const lasting = visits.some(ground.isLast);
  return [{
    aspect: 'rhythm', kind, hand, topic, place: placeOf(ground, visits, { first, pairs }), measured: { value, unit, threshold },
    severity: severityOf(ratio) * (lasting ? 1 : CORRECTED), confidence,
  }];
}

/** Bars from the first to the last, and the written notes. */
export function placeOf({ input }: RhythmGround, visits: readonly BarFacts[], { first, pairs }: { readonly first: BarFacts; readonly pairs: readonly number[] }): FoundPlace {
  const bars = visits.map(({ barIndex }) => barIndex);
  const { score, alignment } = input;
  const notes = pairs.flatMap((pair) => score.occurrences[alignment.pairs[pair]?.occurrence ?? -1]?.noteIndex ?? []);
  return { fromBar: Math.min(...bars), toBar: Math.max(...bars), pass: first.pass, attempt: first.attempt, notes: [...new Set(notes)], startS: first.startS };
}
