/**
 * Comments in the words of the page. A comment outlives changes of the score: where its bars are no longer
 * found, the printed numbers that were kept with it are said.
 */
import { sentenceCase, spokenIn, type Language } from '../base/index.js';
import type { BarFacts } from '../measure/index.js';
import { tryInWords } from '../judge/index.js';
import type { BarNames } from '../score/index.js';
import type { Comment, CommentVersion } from '../store/index.js';
import { historyOf, ONE_WRITING_MS } from './commentHistory.js';
import { commentMessage } from './message.js';
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
  /** True where it is about the recording as a whole. */
  readonly whole: boolean;
  /** True where what it asked for is done. */
  readonly settled: boolean;
  /** What it said before, the newest first. */
  readonly history: readonly { readonly text: string; readonly when: MomentWords }[];
  /** As a message, and the page that shows it. */
  readonly message: { readonly text: string; readonly href: string };
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
  /** Title of the piece. */
  readonly piece: string;
  /** Every text that a comment has had, oldest first. */
  readonly versions: (comment: Comment) => readonly CommentVersion[];
}

/** The bar of a comment that is about none. */
const NO_BAR = -1;

/** Words for one comment. */
export function commentView(comment: Comment, parts: CommentParts): CommentView {
  const view = { ...placed(comment, parts), history: historyOf(parts.versions(comment)).map(({ text, savedAt }) => ({ text, when: momentInWords(savedAt, parts.now) })) };
  return { ...view, message: { text: commentMessage(parts, view), href: `${parts.address}/message?comment=${comment.id}` } };
}

/** A comment with its place in words. */
function placed(comment: Comment, parts: CommentParts): Omit<CommentView, 'history' | 'message'> {
  const [from, to] = comment.barIndexes;
  return {
    id: comment.id,
    whole: comment.whole,
    settled: comment.settledAt !== null,
    barIndex: comment.whole ? NO_BAR : from,
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
