/** What the judges of lengths and touch share: each played note with its holding and what the page asks of it, and findings about them. */
import { handOf, touchAsked, type BarFacts, type Hand, type NoteHolding, type TouchAsked } from '../measure/index.js';
import type { Occurrence, ScoreNote } from '../score/index.js';
import { stumbled } from './rhythmGround.js';
import type { Aspect, Finding, JudgeInput } from './types.js';
import { visitPlace } from './visitPlace.js';
import { severityOf } from './weight.js';

/** What is left of a fault that a later try put right. Our own rule, as for notes. */
const CORRECTED = 0.5;

/** A played note, everything that is known of how it was held. */
export interface HeldNote {
  readonly holding: NoteHolding;
  readonly occurrence: Occurrence;
  /** The first written note of its tie chain. */
  readonly note: ScoreNote;
  readonly asked: TouchAsked;
  readonly hand: Hand;
  readonly bar: BarFacts;
  readonly velocity: number;
  /** Chords of one voice: stretch, stave, voice and onset. */
  readonly chord: string;
}

/** Everything that lengths and touch are judged from. */
export interface HeldGround {
  readonly input: JudgeInput;
  /** In the order of the alignment's pairs; bars that were stumbled through are left out. */
  readonly notes: readonly HeldNote[];
  /** By pair. */
  readonly byPair: ReadonlyMap<number, HeldNote>;
}

/** The ground of one recording. */
export function heldGround(input: JudgeInput): HeldGround {
  const { score, measures, alignment, recording } = input;
  const asked = touchAsked(score);
  const visits = new Map(measures.bars.filter((bar) => !stumbled(bar)).map((bar) => [`${bar.stretch} ${bar.visitIndex}`, bar]));
  const notes = measures.holding.notes.flatMap((holding): readonly HeldNote[] => {
    const pair = alignment.pairs[holding.pair];
    const occurrence = score.occurrences[pair?.occurrence ?? -1];
    const bar = visits.get(`${pair?.stretch} ${occurrence?.visitIndex}`);
    const note = score.notes[occurrence?.noteIndex ?? -1];
    const touch = asked[occurrence?.tied.at(-1) ?? -1];
    if (pair === undefined || occurrence === undefined || bar === undefined || note === undefined || touch === undefined) return [];
    const chord = `${pair.stretch} ${note.staff} ${note.voice} ${occurrence.onsetTick}`;
    return [{ holding, occurrence, note, asked: touch, hand: handOf(occurrence), bar, velocity: recording.notes[pair.note]?.velocity ?? 0, chord }];
  });
  return { input, notes, byPair: new Map(notes.map((one) => [one.holding.pair, one])) };
}

/** What was found at some notes of one visit. */
export interface HeldFound {
  readonly aspect: Aspect;
  readonly kind: string;
  readonly hand: Hand | null;
  readonly topic?: string;
  readonly bar: BarFacts;
  readonly notes: readonly HeldNote[];
  /** Per cent or times, with the threshold from which it counts. */
  readonly value: number;
  readonly unit: string;
  readonly threshold: number;
  /** Value by threshold, both counted from what is expected. */
  readonly ratio: number;
  readonly confidence: number;
}

/** The finding, with its place. */
export function heldFinding({ input }: HeldGround, found: HeldFound): Finding {
  const { aspect, kind, hand, topic = '', bar, notes, value, unit, threshold, ratio, confidence } = found;
  const lasting = !input.measures.bars.some((other) => other.visitIndex === bar.visitIndex && other.attempt > bar.attempt);
  return {
    aspect, kind, hand, topic, place: visitPlace(bar, [...new Set(notes.map(({ note }) => note.index))]), measured: { value, unit, threshold },
    severity: severityOf(ratio) * (lasting ? 1 : CORRECTED), confidence,
  };
}

/** A share as a percentage without decimals. */
export function percent(share: number): number {
  return Math.round(share * 100);
}
