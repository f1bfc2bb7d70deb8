/** A comment, or the whole review, as a message in plain words, to be copied into whatever the teacher writes to pupils with. */
import type { Review } from '../review/index.js';

/** A comment as a message takes it. */
interface Said {
  readonly whole: boolean;
  /** "Bars 5–8". */
  readonly where: string;
  readonly text: string;
}

/** What a message is made from. */
export interface MessageParts {
  readonly pupil: string;
  readonly piece: string;
  /** "Tuesday 7 October 2025". */
  readonly day: string;
  readonly comments: readonly Said[];
  readonly review: Pick<Review, 'worthSaying' | 'goingWell'>;
}

/** A text that says its place itself, so near (<) its beginning, characters, that none need be put before it. */
const NAMES_PLACE = /^.{0,40}\b(bars?|measures?|upbeat|pickup) ?\d*/i;

/** One comment with its piece and place. */
export function commentMessage({ piece }: Pick<MessageParts, 'piece'>, comment: Said): string {
  return `${piece}${comment.whole || NAMES_PLACE.test(comment.text) ? '' : `, ${inSentence(comment.where)}`}: ${comment.text}`;
}

/** The whole review: what goes well, then what the teacher wrote; where she wrote nothing, what is worth saying. */
export function reviewMessage({ pupil, piece, day, comments, review }: MessageParts): string {
  const well = review.goingWell.map(({ text }) => text).join('\n');
  const said = comments.length > 0 ? comments.map(withPlace) : review.worthSaying.map(({ text, advice }) => `${text} ${advice}`.trim());
  return [`${firstName(pupil)}, about your recording of ${piece} on ${day}:`, well, said.join('\n')].filter((part) => part !== '').join('\n\n');
}

/** A comment with its place before it, unless its own words say it. */
function withPlace({ whole, where, text }: Said): string {
  return whole || NAMES_PLACE.test(text) ? text : `${where}: ${text}`;
}

/** How somebody is spoken to. */
function firstName(name: string): string {
  return name.split(' ')[0] ?? name;
}

/** "Bars 5–8" within a sentence. */
function inSentence(where: string): string {
  return where.charAt(0).toLowerCase() + where.slice(1);
}
