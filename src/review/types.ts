/** The records of a review: of all that was measured, what is worth saying. */
import type { Aspect, FoundPlace, Judgement, Observation, Praise } from '../judge/index.js';
import type { Hand } from '../measure/index.js';

/** What a recording is for. */
export type Purpose = 'firstReading' | 'buildingUp' | 'polishing' | 'runThrough' | 'fromMemory';

/** What a recording is taken to be for. */
export interface PurposeFound {
  readonly purpose: Purpose;
  /** False where somebody said so. */
  readonly guessed: boolean;
  /** Why it was guessed so, as a clause: "slow, and gone back three times"; "" where it was said. */
  readonly reason: string;
}

/** One thing to say, with everything it explains. */
export interface Remark {
  /** The heaviest first; it gives the remark its aspect. */
  readonly observations: readonly Observation[];
  readonly aspect: Aspect;
  /** The heaviest observation's. */
  readonly kind: string;
  /** Stays the same from reading to reading as long as what it says does: what a teacher leaves is known by it. */
  readonly id: string;
  readonly hand: Hand | null;
  /** In order of time, at least one. */
  readonly places: readonly FoundPlace[];
  readonly text: string;
  readonly advice: string;
  /** 0-1: how much it is worth saying to this pupil about this recording. */
  readonly worth: number;
}

/** What a review takes into account beside the recording. */
export interface ReviewOptions {
  /** Said by pupil or teacher; guessed where left out. */
  readonly purpose?: Purpose;
  /** Years; null where not known. Under nine, one remark is enough, and it is written for the parent. */
  readonly age?: number | null;
  /** How the pupil is spoken of at the start of a sentence: "Nilo"; "The pupil" where left out. */
  readonly name?: string;
}

/** The review of one recording. */
export interface Review {
  readonly purpose: PurposeFound;
  /** What limits the judgement, said once; whole sentences. */
  readonly limits: readonly string[];
  /** True for a child under nine: one remark, and it is written for the parent. */
  readonly forParent: boolean;
  /** At most three, the weightiest first; one for a child under nine. */
  readonly worthSaying: readonly Remark[];
  /** At most three; none where nothing was earned. */
  readonly goingWell: readonly Praise[];
  /** All other remarks, heaviest first within their aspect; without what the purpose excuses. */
  readonly alsoSeen: readonly { readonly aspect: Aspect; readonly remarks: readonly Remark[] }[];
  /** Everything that the review is made from. */
  readonly judgement: Judgement;
}
