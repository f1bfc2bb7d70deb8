/**
 * The teacher's own phrases: sentences that she wrote more than once, or lately. Where in the piece they were said is left
 * out, and so is every sentence with a pupil's name in it: what was written for one pupil is not shown for another.
 */
import { Router } from 'express';
import { sentenceCase } from '../base/index.js';
import type { Room } from './shared.js';

/** Most phrases offered: hers of a few years; a page gets them at once. */
const MOST_PHRASES = 400;

/** A phrase (>=, <=) in characters: a single word is typed faster than chosen, a whole paragraph fits nowhere else. */
const SHORTEST = 8;
const LONGEST = 200;

/** A place at the beginning: "Right hand, bars 5–8: ". */
const PLACE = /^(?:(?:right|left|both) hands?,? ?)?(?:in )?(?:the )?(?:bars?|measures?|upbeat|pickup)\b[^:.!?]{0,40}: */i;

/** A bar named by its number: such a sentence belongs to one piece. */
const NUMBERED_BAR = /\b(?:bars?|measures?) \d/i;

/** Phrases learned from comments, the most used first, then the newest. @param texts newest first @param names of all pupils */
export function phrasesIn(texts: readonly string[], names: readonly string[]): readonly string[] {
  const firstNames = new Set(names.flatMap((name) => name.toLowerCase().split(/[^\p{L}]+/u)).filter((word) => word.length > 1));
  const found = new Map<string, { readonly phrase: string; count: number; readonly at: number }>();
  for (const sentence of texts.flatMap(sentencesOf)) {
    const known = found.get(sentence.toLowerCase());
    if (known === undefined) found.set(sentence.toLowerCase(), { phrase: sentence, count: 1, at: found.size });
    else known.count += 1;
  }
  return [...found.values()]
    .filter(({ phrase }) => !phrase.toLowerCase().split(/[^\p{L}]+/u).some((word) => firstNames.has(word)))
    .sort((a, b) => b.count - a.count || a.at - b.at)
    .slice(0, MOST_PHRASES)
    .map(({ phrase }) => phrase);
}

/** Sentences that could be said again elsewhere. */
function sentencesOf(text: string): readonly string[] {
  return text
    .split(/(?<=[.!?])\s+|\n+/)
    .map((sentence) => sentenceCase(sentence.trim().replace(PLACE, '').trim()))
    .filter((sentence) => sentence.length >= SHORTEST && sentence.length <= LONGEST && !NUMBERED_BAR.test(sentence));
}

/** Gives the phrases to the page's script. */
export function phraseRoutes(room: Room): Router {
  const router = Router();
  router.get('/phrases', (_request, response) => {
    const names = [...room.store.pupils(), ...room.store.pupils({ removed: true })].map(({ name }) => name);
    response.json({ phrases: phrasesIn(room.store.textsWritten(), names) });
  });
  return router;
}
