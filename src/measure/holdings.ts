import { barHoldings } from './barHoldings.js';
import type { HoldingFacts } from './holdingTypes.js';
import { momentsOf } from './moments.js';
import { noteHoldings } from './noteHoldings.js';
import type { Piece } from './piece.js';
import { restruckTies } from './restruckTies.js';
import { silences } from './silences.js';
import { touchAsked } from './touchAsked.js';
import type { BarFacts } from './types.js';

/** Lengths and touch of one recording: notes, joins, rests, ties. */
export function holdingFacts(piece: Piece, bars: readonly BarFacts[]): HoldingFacts {
  const moments = momentsOf(piece);
  const notes = noteHoldings(piece, moments);
  const found = silences(piece, moments);
  const asked = touchAsked(piece.score);
  return { notes, silences: found, restruck: restruckTies(piece, moments), bars: barHoldings(piece, bars, { notes, silences: found, asked }) };
}
