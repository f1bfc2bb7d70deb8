/** The systems of a piece with all that is known of it: over the staves form, keys and pitfalls; under them harmony and pedal plan. */
import type { PedalPlan } from '../../analysis/index.js';
import type { Harmony, KeySpan } from '../../harmony/index.js';
import type { Score } from '../../score/index.js';
import { composeSystem, type ComposedSystem, type Mark } from '../compose.js';
import type { EngravedSystem, Engraving } from '../types.js';
import { BRACKET_HEIGHT_PX, bracketsOf, bracketSvg, type BracketedSection } from './brackets.js';
import { harmonyLane } from './harmonyLane.js';
import { BAND_HEIGHT_PX, keyBand } from './keyBand.js';
import { pedalLane } from './pedalLane.js';
import { SPECTACLES_HEIGHT_PX, spectaclesOver, type NumberedPitfall } from './spectacles.js';
import { headTicks, tickPlaces, type TickPlaces } from './tickToX.js';

/** What is drawn on a piece. */
export interface PieceDrawing {
  readonly score: Pick<Score, 'bars' | 'notes'>;
  readonly sections: readonly BracketedSection[];
  readonly keys: readonly KeySpan[];
  readonly harmonies: readonly Harmony[];
  /** The plan to show: the analysis's own, or one that a teacher has changed. */
  readonly pedalPlan: PedalPlan;
  readonly pitfalls: readonly NumberedPitfall[];
}

/** A system and its drawing. */
export interface DrawnSystem {
  readonly system: EngravedSystem;
  readonly drawn: ComposedSystem;
}

/** Room between the rows over a system, px. */
const BETWEEN_PX = 5;

/** Every system of an engraving. */
export function drawPiece(engraving: Engraving, piece: PieceDrawing): readonly DrawnSystem[] {
  const ticks = headTicks(piece.score);
  const dry = piece.pedalPlan.entries.every(({ kind }) => kind === 'none');
  return engraving.systems.map((system) => {
    const places = tickPlaces(system, piece.score, ticks);
    const leftX = system.bars[0]?.left ?? 0;
    // a piece without any pedal says so once, in words
    const lanes = [harmonyLane(piece.harmonies, places), ...(dry ? [] : [pedalLane(piece.pedalPlan.entries, places, leftX)])];
    return { system, drawn: composeSystem(system, rowsOver(system, piece, places), lanes.filter(({ heightPx }) => heightPx > 0)) };
  });
}

/** The rows over a system from the lowest: spectacles, keys, sections. A row that has nothing takes no room. */
function rowsOver(system: EngravedSystem, { pitfalls, keys, sections }: PieceDrawing, places: TickPlaces): readonly Mark[] {
  const brackets = bracketsOf(system, sections);
  const rows: readonly Row[] = [
    { heightPx: SPECTACLES_HEIGHT_PX, draw: (top) => spectaclesOver(system, pitfalls, top + SPECTACLES_HEIGHT_PX / 2) },
    { heightPx: BAND_HEIGHT_PX, draw: (top) => keyBand(keys, places, top) },
    { heightPx: BRACKET_HEIGHT_PX, draw: (top) => brackets.map((bracket) => bracketSvg(bracket, top + BRACKET_HEIGHT_PX)).join('') },
  ];
  return rows.reduce<{ readonly marks: readonly Mark[]; readonly y: number }>(({ marks, y }, { heightPx, draw }) => {
    const top = y - heightPx;
    const svg = draw(top);
    return svg === '' ? { marks, y } : { marks: [...marks, { svg, top, bottom: y }], y: top - BETWEEN_PX };
  }, { marks: [], y: 0 }).marks;
}

/** One row over a system. */
interface Row {
  readonly heightPx: number;
  /** Draws it from its upper edge down; "" where there is nothing. */
  readonly draw: (top: number) => string;
}
