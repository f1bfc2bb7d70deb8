/**
 * Whose recording is this? A file's name mostly says so; where it does not (an instrument calls its files USER001), the
 * piece may: if one pupil alone has it in hand, it is that pupil's. Anything less sure is asked, not guessed.
 */
import type { Pupil } from '../store/index.js';
import type { Room } from './shared.js';

/** Whose a recording is taken to be, and what that rests on. */
export interface Owner {
  readonly pupil: Pupil;
  /** "by the file’s name", for a sentence. */
  readonly because: string;
}

/** A pupil has a piece in hand who sent a recording of it within this time, ms: a term. */
const IN_HAND_MS = 120 * 86_400_000;

/** A first name shorter (<) than this is found in too many file names by accident, characters. */
const SHORTEST_NAME = 3;

/** The owner of a file, or null where nothing tells. @param before only what came before this moment tells who has the piece in hand */
export function ownerOf(room: Room, fileName: string, { pieceId, before }: { readonly pieceId: number; readonly before: Date }): Owner | null {
  const named = namedIn(fileName, room.store.pupils());
  const [one, another] = named;
  if (one !== undefined && another === undefined) return { pupil: one, because: 'by the file’s name' };
  const playing = whoPlays(room, pieceId, before);
  if (one !== undefined) return onlyOne(named.filter(({ id }) => playing.some((pupil) => pupil.id === id)), 'by the file’s name and the piece');
  return onlyOne(playing, 'the only one with this piece in hand');
}

/** Pupils who have a piece in hand at a moment, the latest first. */
export function whoPlays(room: Room, pieceId: number, at = room.now()): readonly Pupil[] {
  const recent = room.store.recordings({ pieceId }).filter(({ receivedAt }) => {
    const agoMs = at.getTime() - Date.parse(receivedAt);
    return agoMs > 0 && agoMs <= IN_HAND_MS;
  });
  return [...new Map(recent.map(({ pupil }) => [pupil.id, pupil])).values()];
}

/** Pupils whose name stands in a file's name: the whole name rather than the first name alone. */
export function namedIn(fileName: string, pupils: readonly Pupil[]): readonly Pupil[] {
  const words = wordsOf(fileName.replace(/\.[^.]*$/, ''));
  const inOne = words.join('');
  const whole = pupils.filter(({ name }) => isNamed(wordsOf(name), words) || (wordsOf(name).length > 1 && inOne.includes(wordsOf(name).join(''))));
  if (whole.length > 0) return whole;
  return pupils.filter(({ name }) => wordsOf(name).slice(0, 1).some((first) => first.length >= SHORTEST_NAME && words.some((word) => sameWord(word, first))));
}

/** True where every word of a name is there. */
function isNamed(name: readonly string[], words: readonly string[]): boolean {
  return name.length > 0 && name.every((part) => words.some((word) => sameWord(word, part)));
}

/** True for the same word, a number at its end apart: "mei2". */
function sameWord(word: string, part: string): boolean {
  return word.replace(/\d+$/, '') === part || word === part;
}

/** Words in lower case without accents. */
function wordsOf(text: string): readonly string[] {
  return text.normalize('NFKD').replace(/\p{M}+/gu, '').toLowerCase().split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');
}

/** The only one of a list, or null. */
function onlyOne(pupils: readonly Pupil[], because: string): Owner | null {
  const [pupil, another] = pupils;
  return pupil === undefined || another !== undefined ? null : { pupil, because };
}
