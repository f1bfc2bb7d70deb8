/** The records of the teaching notes: sentences that a teacher reads before she teaches a piece. */

/** A stretch of bars by place in `Score.bars`, last inclusive. */
export interface BarSpan {
  readonly fromBar: number;
  readonly toBar: number;
}

/** A sentence and the bars that it speaks of. */
export interface Remark {
  readonly text: string;
  readonly places: readonly BarSpan[];
}

/** What to know before teaching a piece. */
export interface TeachingNotes {
  /** At most ten. */
  readonly beforeTeaching: readonly Remark[];
  /** What will trip a hand, likeliest first, each with what to practise. */
  readonly willTrip: readonly Remark[];
  /** What an ear should wait for; at most six. */
  readonly listenFor: readonly Remark[];
}
