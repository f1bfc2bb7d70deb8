/** The records of the pedal plan. Ticks are written ticks along the printed bars, ends exclusive. */

/**
 * What the foot does over a stretch: `down` presses at its beginning and holds; `change` lifts with the new sound, presses again
 * and holds; `up` lifts and stays up; `none` plays dry; `ring` is down and stays down whatever happens above.
 */
export type PedalKind = 'down' | 'change' | 'up' | 'none' | 'ring';

/** Where an entry comes from: a mark in the score, the harmony, or the teacher, who changed the plan here. */
export type PedalSource = 'printed' | 'harmony' | 'teacher';

/** What a teacher can plan: the foot down (a change where it was down before), a sound left to ring, the foot up, no pedal. */
export type PlannedKind = 'pedal' | 'ring' | 'up' | 'none';

/** One point of a teacher's own plan: what the foot does from there until the next point. */
export interface PlannedFoot {
  readonly barIndex: number;
  /** Crotchets from the start of the bar, 0 or more. */
  readonly offset: number;
  readonly kind: PlannedKind;
}

/** A whole plan as a teacher keeps it, in order. */
export type TeachersPlan = readonly PlannedFoot[];

/** One stretch of the plan. */
export interface PedalEntry {
  /** Stays the same as long as the place does: bar's place and crotchets into it, "pedal-11-1.5". */
  readonly id: string;
  readonly fromTick: number;
  /** Exclusive; the next entry begins there. */
  readonly toTick: number;
  readonly barIndex: number;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
  readonly kind: PedalKind;
  readonly source: PedalSource;
  /** Why, as a clause for the teacher: "new harmony: D minor". */
  readonly reason: string;
  /** How long the dampers need before the foot goes down again, seconds; null where nothing is cleared. */
  readonly clearS: number | null;
}

/** The pedal of a whole piece. */
export interface PedalPlan {
  /** In order, without gaps, from the first bar to the end; empty for a score without notes. */
  readonly entries: readonly PedalEntry[];
  /** Where the plan comes from on the whole. */
  readonly basis: 'printed' | 'harmony' | 'both' | 'none';
}
