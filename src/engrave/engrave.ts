import { InputError } from '../base/index.js';
import type { Score } from '../score/index.js';
import { barGrid } from './barGrid.js';
import { engraveScore } from './engraveScore.js';
import type { Toolkit } from './toolkit.js';
import type { Engraving } from './types.js';

/** How wide and by which engraver. */
export interface EngraveOrGridOptions {
  readonly widthPx: number;
  readonly toolkit: Toolkit;
}

/** Why a MIDI score is not engraved. */
export const NO_NOTATION = 'A MIDI file holds no notation to engrave.';

/** Engraves a score that was read, or draws its bar grid and says why. Fails only for a width that no page has. */
export async function engraveOrGrid(score: Score, { widthPx, toolkit }: EngraveOrGridOptions): Promise<Engraving> {
  if (score.xml === null) return barGrid(score, { widthPx, reason: NO_NOTATION });
  const part = score.parts.find(({ chosen }) => chosen)?.id;
  try {
    return await engraveScore(score.xml, { widthPx, bars: score.bars, toolkit, ...(part === undefined ? {} : { part }) });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return barGrid(score, { widthPx, reason: error.message });
  }
}
