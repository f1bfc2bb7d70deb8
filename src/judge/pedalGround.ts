/** What the judges of the pedal share: visits that can be judged, the plan at a tick, and findings with their places. */
import { isAsked, type PedalEntry } from '../analysis/index.js';
import { firstIndex } from '../base/index.js';
import type { BarFacts, Hand, PedalChange, PedalFacts } from '../measure/index.js';
import { stumbled } from './rhythmGround.js';
import type { Finding, JudgeInput } from './types.js';
import { severityOf } from './weight.js';

/** Everything that the pedal is judged from. */
export interface PedalGround {
  readonly input: JudgeInput;
  readonly facts: PedalFacts;
  /** The visit that a stretch makes to a place of the playing order; undefined where it was stumbled through. */
  readonly visit: (stretch: number, visitIndex: number) => BarFacts | undefined;
  /** The plan's entry over a written tick. */
  readonly planAt: (writtenTick: number) => PedalEntry | undefined;
}

/** The ground of one recording. */
export function pedalGround(input: JudgeInput): PedalGround {
  const { measures, analysis } = input;
  const visits = new Map(measures.bars.filter((bar) => !stumbled(bar)).map((bar) => [`${bar.stretch} ${bar.visitIndex}`, bar]));
  const { entries } = analysis.pedalPlan;
  return {
    input, facts: measures.pedal,
    visit: (stretch, visitIndex) => visits.get(`${stretch} ${visitIndex}`),
    planAt: (tick) => entries[firstIndex(entries.length, (i) => (entries[i]?.fromTick ?? Infinity) > tick) - 1],
  };
}

/** Something found in one visit. */
export interface PedalFound {
  readonly kind: string;
  readonly hand?: Hand;
  readonly visit: BarFacts;
  /** Last bar, where it lasts beyond the visit's. */
  readonly toBar?: number;
  /** See `Finding.topic`. */
  readonly topic?: string;
  /** Places in `Score.notes`. */
  readonly notes: readonly number[];
  readonly startS: number;
  readonly value: number;
  readonly unit: string;
  readonly threshold: number;
  /** Value by threshold. */
  readonly ratio: number;
  readonly confidence: number;
  /** What is left of its severity: how much this kind is heard against a blur. */
  readonly heard?: number;
}

/** The finding, with its place. */
export function pedalFinding({ kind, hand, visit, toBar = visit.barIndex, topic = '', notes, startS, value, unit, threshold, ratio, confidence, heard = 1 }: PedalFound): Finding {
  return {
    aspect: 'pedal', kind, hand: hand ?? null, topic, confidence,
    place: { fromBar: visit.barIndex, toBar, pass: visit.pass, attempt: visit.attempt, notes: [...new Set(notes)], startS },
    measured: { value, unit, threshold }, severity: severityOf(ratio) * heard,
  };
}

/** True where the plan or a mark of the score lets what was struck before go on over a change: it rings, or one pedal that is marked, or set by the teacher, is held. */
export function mayRingOver(entry: PedalEntry | undefined, { writtenTick }: Pick<PedalChange, 'writtenTick'>): boolean {
  if (entry === undefined || entry.fromTick >= writtenTick) return false;
  return entry.kind === 'ring' || (isAsked(entry) && (entry.kind === 'down' || entry.kind === 'change'));
}
