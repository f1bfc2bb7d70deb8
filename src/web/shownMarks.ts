/** Which marks stand on the score: those of the few things that matter, or all of one aspect. */
import type { Aspect, Slip } from '../judge/index.js';
import { ASPECTS } from '../judge/index.js';
import type { MarkedRemark } from '../engrave/index.js';
import type { LaneLink, LaneName } from './lanes.js';
import type { Remark, Review } from '../review/index.js';
import type { Score } from '../score/index.js';

/** What is marked. */
export interface ShownMarks {
  readonly slips: (slip: Slip) => boolean;
  readonly remarks: readonly MarkedRemark[];
}

/** A link that chooses what is drawn. */
export interface MarksLink {
  readonly href: string;
  readonly text: string;
  readonly current: boolean;
}

/** The aspect that an address asks for; null for what matters. */
export function marksAsked(asked: unknown): Aspect | null {
  return ASPECTS.find((aspect) => aspect === asked) ?? null;
}

/** The marks of one aspect, or of what matters. */
export function shownMarks(score: Pick<Score, 'occurrences'>, review: Review, aspect: Aspect | null): ShownMarks {
  const numbered = new Map(review.worthSaying.map((remark, i) => [remark, i + 1]));
  const chosen = [...review.worthSaying, ...(aspect === null ? [] : review.alsoSeen.flatMap(({ remarks }) => remarks))].filter((remark) => aspect === null || covers(remark, aspect));
  const praise = review.goingWell.filter((one) => aspect === null || one.aspect === aspect);
  const notes = new Set(chosen.flatMap((remark) => remark.observations.filter((one) => one.aspect === 'notes').flatMap(({ places }) => places.flatMap((place) => place.notes))));
  return {
    slips: ({ occurrence }) => occurrence !== null && notes.has(score.occurrences[occurrence]?.noteIndex ?? -1),
    remarks: [
      ...chosen.flatMap((remark) => markedParts(remark, numbered.get(remark) ?? null, aspect)),
      ...praise.map(({ aspect: of, hand, places, text }) => ({ number: null, aspect: of, kind: 'praise', hand, places, text })),
    ],
  };
}

/** What the address of a review chooses. */
export interface Shown {
  readonly address: string;
  readonly marks: Aspect | null;
  readonly lane: LaneName;
  /** The strand that is shown, from 1; null for the last tries. */
  readonly attempt: number | null;
}

/** Links to the marks of what matters and of every aspect that has something to mark. */
export function marksLinks(review: Review, shown: Shown): readonly MarksLink[] {
  const remarks = [...review.worthSaying, ...review.alsoSeen.flatMap((group) => group.remarks)];
  const has = ASPECTS.filter((one) => remarks.some((remark) => covers(remark, one)));
  return [null, ...has].map((marks) => ({ href: hrefOf({ ...shown, marks }), text: marks ?? 'what matters', current: marks === shown.marks }));
}

/** Links to the lanes. */
export function laneLinks(lanes: readonly LaneLink[], shown: Shown): readonly MarksLink[] {
  return lanes.map(({ name, text }) => ({ href: hrefOf({ ...shown, lane: name }), text, current: name === shown.lane }));
}

/** The review's address with its choices; what is usual is left out. */
function hrefOf({ address, marks, lane, attempt }: Shown): string {
  const query = new URLSearchParams({ ...(attempt === null ? {} : { try: String(attempt) }), ...(marks === null ? {} : { marks }), ...(lane === 'time' ? {} : { lane }) }).toString();
  return `${address}${query === '' ? '' : `?${query}`}#score`;
}

/** True where some of a remark is about an aspect. */
function covers({ observations }: Remark, aspect: Aspect): boolean {
  return observations.some((one) => one.aspect === aspect);
}

/** Each observation of a remark is marked in its own shape; the number stands at the first. */
function markedParts({ observations }: Remark, number: number | null, aspect: Aspect | null): readonly MarkedRemark[] {
  return observations
    .filter((one) => aspect === null || one.aspect === aspect)
    .map(({ aspect: of, kind, hand, places, text }, i) => ({ number: i === 0 ? number : null, aspect: of, kind, hand, places, text }));
}
