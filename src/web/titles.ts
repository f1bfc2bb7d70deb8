/** Pieces of one name told apart: two editions, or two files that came without a title. */
import { ordinalInWords } from '../base/index.js';
import type { Piece } from '../store/index.js';
import type { Room } from './shared.js';

/** How a piece is called on a page. */
export interface Title {
  readonly title: string;
  /** What tells it from others of the same title: "second of this name, from march.mxl"; empty where it has the title alone. */
  readonly apart: string;
  /** Both in one, for lists that take no markup. */
  readonly whole: string;
}

/** The titles of all pieces in the room, by the piece's number. */
export function titlesOf({ store }: Room): ReadonlyMap<number, Title> {
  const pieces = [...store.pieces()].sort((a, b) => a.id - b.id);
  return new Map(pieces.map((piece) => {
    const namesakes = pieces.filter((other) => looksAlike(other.title, piece.title));
    const apart = namesakes.length === 1 ? '' : toldApart(piece, namesakes, store.scoreOfPiece(piece.id).fileName);
    return [piece.id, { title: piece.title, apart, whole: apart === '' ? piece.title : `${piece.title} (${apart})` }];
  }));
}

/** Upper and lower case do not tell two titles apart at a glance. */
function looksAlike(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** The composer, where that is enough; else the order in which they came, which always is, and the file's name. */
function toldApart(piece: Piece, namesakes: readonly Piece[], fileName: string): string {
  const composers = new Set(namesakes.map(({ composer }) => composer.trim().toLowerCase()));
  if (composers.size === namesakes.length && !composers.has('')) return piece.composer;
  return `${ordinalInWords(namesakes.indexOf(piece) + 1)} of this name, from ${fileName}`;
}
