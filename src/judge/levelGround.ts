/** What the judges of loud and soft share: which visits can be judged, places, and how a fault weighs that a later try put right. */
import type { BarFacts, LevelFacts, NoteLevel } from '../measure/index.js';
import { stumbled } from './rhythmGround.js';
import type { Finding, FoundPlace, JudgeInput } from './types.js';

/**
 * Velocity units under which (<) a difference is no change: 2.7 to 4.5 units are just heard on a grand (Slade et al. 2022,
 * doi 10.1177/03057356221126203).
 */
export const HEARD_UNITS = 3;

/** What is left of a fault that a later try put right. Our own rule, as for notes. */
const CORRECTED = 0.5;

/** Everything that levels are judged from. */
export interface LevelGround {
  readonly input: JudgeInput;
  readonly facts: LevelFacts;
  /** The visit that a stretch makes to a place of the playing order; undefined where it was stumbled through. */
  readonly visit: (stretch: number, visitIndex: number) => BarFacts | undefined;
}

/** The ground of one recording. */
export function levelGround(input: JudgeInput, facts: LevelFacts): LevelGround {
  const visits = new Map(input.measures.bars.filter((bar) => !stumbled(bar)).map((bar) => [`${bar.stretch} ${bar.visitIndex}`, bar]));
  return { input, facts, visit: (stretch, visitIndex) => visits.get(`${stretch} ${visitIndex}`) };
}

/** What was found, before it has a place. */
export interface FoundLevel extends Pick<Finding, 'aspect' | 'kind' | 'hand' | 'measured' | 'severity' | 'confidence' | 'topic'> {
  /** In order of time, at least one. */
  readonly visits: readonly BarFacts[];
  /** Places in `Score.notes`. */
  readonly notes: readonly number[];
  /** When it happened, seconds. */
  readonly startS: number;
}

/** The finding, with its place. */
export function levelFinding({ input }: LevelGround, { visits, notes, startS, severity, ...found }: FoundLevel): readonly Finding[] {
  const [first] = visits;
  if (first === undefined) return [];
  const bars = visits.map(({ barIndex }) => barIndex);
  const place: FoundPlace = { fromBar: Math.min(...bars), toBar: Math.max(...bars), pass: first.pass, attempt: first.attempt, notes: [...new Set(notes)], startS };
  const again = input.measures.bars.some((bar) => visits.every((visit) => bar.attempt > visit.attempt) && bar.visitIndex === first.visitIndex);
  return [{ ...found, place, severity: severity * (again ? CORRECTED : 1) }];
}

/** Written note and visit of a paired note. */
export function whereOf({ input: { score, alignment } }: LevelGround, { pair }: Pick<NoteLevel, 'pair'>): { readonly stretch: number; readonly visitIndex: number; readonly noteIndex: number } | null {
  const aligned = alignment.pairs[pair];
  const occurrence = score.occurrences[aligned?.occurrence ?? -1];
  return aligned === undefined || occurrence === undefined ? null : { stretch: aligned.stretch, visitIndex: occurrence.visitIndex, noteIndex: occurrence.noteIndex };
}
