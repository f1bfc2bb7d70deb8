import { barHoldings } from './barHoldings.js';
import type { HoldingFacts } from './holdingTypes.js';
import { noteHoldings } from './noteHoldings.js';
import type { Piece } from './piece.js';
import { restruckTies } from './restruckTies.js';
import { silences } from './silences.js';
import { touchAsked } from './touchAsked.js';
import type { BarFacts } from './types.js';

/** Lengths and touch of one recording: notes, joins, rests, ties. */
export function holdingFacts(piece: Piece, bars: readonly BarFacts[]): HoldingFacts {
  const notes = noteHoldings(piece);
  const found = silences(piece);
  const asked = touchAsked(piece.score);
  return { notes, silences: found, restruck: restruckTies(piece), bars: barHoldings(piece, bars, { notes, silences: found, asked }) };
}
