/** The records of the pedal plan. Ticks are written ticks along the printed bars, ends exclusive. */

/**
 * What the foot does over a stretch: `down` presses at its beginning and holds; `change` lifts with the new sound, presses again
 * and holds; `up` lifts and stays up; `none` plays dry; `ring` is down and stays down whatever happens above.
 */
export type PedalKind = 'down' | 'change' | 'up' | 'none' | 'ring';

/** Where an entry comes from: a mark in the score, or the harmony. */
export type PedalSource = 'printed' | 'harmony';

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
