/** What a comment said before. It is saved many times while it is written; only texts that stood for a while are history. */
import type { CommentVersion } from '../store/index.js';

/** A comment is saved many times while it is written; only what comes later than this (>) is a change, ms. */
export const ONE_WRITING_MS = 10 * 60_000;

/** Earlier texts, the newest first: the last one of each time it was written at. @param versions oldest first */
export function historyOf(versions: readonly CommentVersion[]): readonly CommentVersion[] {
  return versions
    .filter((version, i) => {
      const next = versions[i + 1];
      return next !== undefined && Date.parse(next.savedAt) - Date.parse(version.savedAt) > ONE_WRITING_MS;
    })
    .reverse();
}
