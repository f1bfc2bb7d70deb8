/** The analysis of a piece: everything known of it from the score alone. Bars are places in `Score.bars`. */
import type { Cadence, GlobalKey, Harmony, KeySpan } from '../harmony/index.js';
import type { Phrase, Section } from './formTypes.js';
import type { PedalPlan } from './pedalPlanTypes.js';
import type { Pitfall } from './pitfallTypes.js';
import type { TeachingNotes } from './teachingNotesTypes.js';

export type { Change, ChangeKind, Form, Phrase, ScorePlace, Section, SectionRole } from './formTypes.js';
export type { PedalEntry, PedalKind, PedalPlan, PedalSource, PlannedFoot, PlannedKind, TeachersPlan } from './pedalPlanTypes.js';
export type { Pitfall, PitfallKind, PitfallPlace } from './pitfallTypes.js';
export type { BarSpan, Remark, TeachingNotes } from './teachingNotesTypes.js';

/** What is known of a piece before it is taught. */
export interface Analysis {
  /** Printed bar numbers in playing order, repeats written out. */
  readonly order: readonly string[];
  /** Key of the whole; null where no notes are. */
  readonly key: GlobalKey | null;
  readonly sections: readonly Section[];
  /** Places in `sections` in playing order. */
  readonly played: readonly number[];
  readonly phrases: readonly Phrase[];
  readonly keys: readonly KeySpan[];
  readonly harmonies: readonly Harmony[];
  readonly cadences: readonly Cadence[];
  /** Heaviest first; British words. */
  readonly pitfalls: readonly Pitfall[];
  readonly pedalPlan: PedalPlan;
  /** British words. */
  readonly notes: TeachingNotes;
}
