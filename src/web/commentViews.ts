/**
 * Comments in the words of the page. A comment outlives changes of the score: where its bars are no longer
 * found, the printed numbers that were kept with it are said.
 */
import { sentenceCase, spokenIn, type Language } from '../base/index.js';
import type { BarFacts } from '../measure/index.js';
import { tryInWords } from '../judge/index.js';
import type { BarNames } from '../score/index.js';
import type { Comment } from '../store/index.js';
import { momentInWords, type MomentWords } from './moments.js';

/** A comment as a page shows it. */
export interface CommentView {
  readonly id: number;
  /** Place of its first bar in `Score.bars`. */
  readonly barIndex: number;
  /** "Bar 7", "Bars 5–8, second try". */
  readonly where: string;
  readonly href: string;
  readonly text: string;
  readonly when: MomentWords;
  readonly edited: boolean;
  /** Where its forms are sent. */
  readonly action: string;
}

/** What a comment's words are made from. */
export interface CommentParts {
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly visits: ReadonlyMap<number, readonly BarFacts[]>;
  readonly language: Language;
  /** Address of the recording. */
  readonly address: string;
  readonly now: Date;
}

/** A comment is saved many times while it is written; only what comes later than this is a change, ms. */
const ONE_WRITING_MS = 10 * 60_000;

/** Words for one comment. */
export function commentView(comment: Comment, parts: CommentParts): CommentView {
  const [from, to] = comment.barIndexes;
  return {
    id: comment.id,
    barIndex: from,
    where: whereInWords(comment, parts),
    href: comment.whole ? '#comments' : `#${parts.anchors[from] ?? parts.anchors[to] ?? 'score'}`,
    text: comment.text,
    when: momentInWords(comment.editedAt, parts.now),
    edited: Date.parse(comment.editedAt) - Date.parse(comment.createdAt) > ONE_WRITING_MS,
    action: `${parts.address}/comments/${comment.id}`,
  };
}

/** "Bars 5–8, second try". */
function whereInWords(comment: Comment, parts: CommentParts): string {
  const all = parts.visits.get(comment.barIndexes[0]) ?? [];
  const visit = all.find((other) => other.pass === comment.pass && other.attempt === comment.attempt);
  const attempt = visit === undefined ? '' : tryInWords(visit, all);
  return sentenceCase([barsInWords(comment, parts), attempt].filter((text) => text !== '').join(', '));
}

/** "bars 5–8"; the printed numbers that were kept where the score no longer has these bars, or is gone itself. */
export function barsInWords(comment: Comment, { names, anchors, language }: { readonly names: BarNames | null; readonly anchors: readonly string[]; readonly language: Language }): string {
  if (comment.whole) return 'the whole recording';
  const [from, to] = comment.barIndexes;
  if (names !== null && to < anchors.length) return names.range(from, to);
  const [first, last] = comment.bars;
  return spokenIn(first === last ? `bar ${first}` : `bars ${first}–${last}`, language);
}
