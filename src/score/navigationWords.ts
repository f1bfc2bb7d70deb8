/**
 * Many programs print "D.C. al Fine" as plain words and leave out the `sound` that a machine could follow. A pianist
 * follows the words; so does this reader, where nothing better is there.
 */
import type { XmlElement } from './xmlTree.js';

/** What a bar may ask for at its end. */
export type JumpKind = 'dacapo' | 'dalsegno' | 'tocoda' | 'fine';

/** Signs that a jump goes to. */
export type TargetKind = 'segno' | 'coda';

/** Words as engravers print them, each with what it asks for; the first that fits counts. Common practice. */
const PATTERNS: readonly (readonly [RegExp, JumpKind | TargetKind])[] = [
  [/^d\.? ?c\b/, 'dacapo'],
  [/^da capo\b/, 'dacapo'],
  [/^d\.? ?s\b/, 'dalsegno'],
  [/^dal? segno\b/, 'dalsegno'],
  [/^(to|al) coda\b/, 'tocoda'],
  [/^fine\b\.?$/, 'fine'],
  [/^coda\.?$/, 'coda'],
  [/^segno\.?$/, 'segno'],
];

/** What a printed sign or a piece of text asks for in the playing order; null for all other words. */
export function wordsAsSign(sign: XmlElement): JumpKind | TargetKind | null {
  if (sign.name === 'segno' || sign.name === 'coda') return sign.name;
  if (sign.name !== 'words') return null;
  const words = sign.text.trim().toLowerCase().replace(/\s+/g, ' ');
  return PATTERNS.find(([pattern]) => pattern.test(words))?.[1] ?? null;
}
