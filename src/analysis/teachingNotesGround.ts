/** What every sentence of the teaching notes is made from, and the words for lengths. */
import type { Language, TradeWordName } from '../base/index.js';
import type { HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import type { Form } from './formTypes.js';
import type { PedalPlan } from './pedalPlanTypes.js';
import type { PitfallKind } from './pitfallTypes.js';
import type { Sound } from './sounds.js';
import type { BarSpan, Remark } from './teachingNotesTypes.js';

/** Everything known of a piece. */
export interface NotesGround {
  readonly score: Score;
  readonly harmony: HarmonyAnalysis;
  readonly form: Form;
  readonly pedalPlan: PedalPlan;
  readonly sounds: readonly Sound[];
  readonly language: Language;
  /** Kinds of pitfalls that are told anyway: what they say is not said twice. */
  readonly told: ReadonlySet<PitfallKind>;
}

/** A sentence that might be said: the heavier ones are. */
export interface Candidate extends Remark {
  /** How much a teacher would miss it, 0-10. */
  readonly weight: number;
}

/** The printed values by crotchets. */
const VALUES: readonly (readonly [number, TradeWordName])[] = [
  [4, 'semibreve'], [3, 'dottedMinim'], [2, 'minim'], [1.5, 'dottedCrotchet'], [1, 'crotchet'],
  [0.75, 'dottedQuaver'], [0.5, 'quaver'], [0.25, 'semiquaver'], [0.125, 'demisemiquaver'],
];

/** The printed value of so many crotchets; null where no single one is so long. */
export function valueOf(crotchets: number): TradeWordName | null {
  return VALUES.find(([length]) => Math.abs(length - crotchets) < 1e-9)?.[1] ?? null;
}

/** The whole piece as a stretch. */
export function wholePiece(score: Pick<Score, 'bars'>): BarSpan {
  return { fromBar: 0, toBar: Math.max(0, score.bars.length - 1) };
}

/** A sentence over some bars. */
export function say(text: string, places: readonly BarSpan[], weight: number): Candidate {
  return { text, places, weight };
}
