/**
 * What stands on a lesson sheet: what went well, at most three things to do, when the next lesson is. Every word is the
 * teacher's to change; the program only puts down what she wrote, or would have said.
 */
import { neighbouring } from '../../judge/index.js';
import type { Comment } from '../../store/index.js';
import type { Review } from '../../review/index.js';

/** A thing to do. */
export interface SheetThing {
  /** Printed numbers of its first and last bar; both "" for the whole piece. */
  readonly bars: readonly [from: string, to: string];
  /** What to work at, in the teacher's words. */
  readonly words: string;
  /** How to practise it; "" for none. */
  readonly practise: string;
}

/** Everything on the sheet. */
export interface SheetBody {
  readonly well: string;
  readonly things: readonly SheetThing[];
  /** "Thursday 12 March, 16:30", as it is to be printed; "" for none. */
  readonly next: string;
}

/** A sheet has at most so many things to do: no pupil practises more. */
export const MOST_THINGS = 3;

/** Longest texts, characters: with all of them full the sheet is still one side. */
export const LONGEST = { well: 400, words: 280, practise: 200, next: 80, bar: 12 } as const;

/** What a sheet begins with. */
export interface SheetSource {
  readonly review: Review;
  readonly comments: readonly Comment[];
  /** Printed numbers of all bars, by their place. */
  readonly numbers: readonly string[];
  /** When the next lesson is, in words. */
  readonly next: string;
}

/**
 * A sheet that nobody has changed yet: the open comments on the recording, in the order of the piece; where there are
 * none, what the review finds worth saying.
 */
export function firstBody({ review, comments, numbers, next }: SheetSource): SheetBody {
  const open = comments.filter(({ settledAt }) => settledAt === null);
  const things = open.length > 0 ? fromComments(open) : fromRemarks(review, numbers);
  return { well: cut(review.goingWell.map(({ text }) => text).join(' '), LONGEST.well), things: things.slice(0, MOST_THINGS), next };
}

/** Comments as things to do. */
function fromComments(comments: readonly Comment[]): readonly SheetThing[] {
  return [...comments]
    .sort((a, b) => a.barIndexes[0] - b.barIndexes[0])
    .map(({ bars, whole, text }) => ({ bars: whole ? ['', ''] as const : bars, words: cut(text, LONGEST.words), practise: '' }));
}

/** Remarks as things to do. */
function fromRemarks({ worthSaying }: Review, numbers: readonly string[]): readonly SheetThing[] {
  return worthSaying.map(({ places, text, advice }) => {
    const [first] = neighbouring(places);
    const bars = first === undefined ? ['', ''] as const : [numbers[first.fromBar] ?? '', numbers[first.toBar] ?? ''] as const;
    return { bars, words: cut(text, LONGEST.words), practise: cut(advice, LONGEST.practise) };
  });
}

/** A text that fits its place; what is too long ends at a word. */
function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  return `${text.slice(0, most - 1).replace(/\s+\S*$/, '')}…`;
}

/** A sheet as it is kept. */
export function writeBody(body: SheetBody): string {
  return JSON.stringify(body);
}

/** A sheet that was kept; null for what this program did not write. */
export function readBody(json: string): SheetBody | null {
  const kept: unknown = JSON.parse(json);
  return isBody(kept) ? kept : null;
}

/** True for the shape that `writeBody` gives; its fields are as they were written. */
function isBody(kept: unknown): kept is SheetBody {
  return typeof kept === 'object' && kept !== null && 'well' in kept && 'things' in kept && Array.isArray(kept.things) && 'next' in kept;
}
