/** The systems of a piece with all that is known of it: over the staves form, keys and pitfalls; under them harmony and pedal plan. */
import type { PedalPlan } from '../../analysis/index.js';
import type { Harmony, KeySpan } from '../../harmony/index.js';
import type { Score } from '../../score/index.js';
import { composeSystem, type ComposedSystem, type Lane, type Mark } from '../compose.js';
import type { EngravedSystem, Engraving } from '../types.js';
import { BRACKET_HEIGHT_PX, bracketsOf, bracketSvg, type BracketedSection } from './brackets.js';
import { harmonyRows, rowsBetween, type HarmonyRows } from './harmonyRows.js';
import { BAND_HEIGHT_PX, keyBand } from './keyBand.js';
import { pedalLane } from './pedalLane.js';
import type { PlanPlace } from './planGrips.js';
import { GLASSES_PX, SPECTACLES_HEIGHT_PX, spectaclesOver, type NumberedPitfall } from './spectacles.js';
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
  /** Where changes of the plan can be put by hand; left out where the page is only looked at. */
  readonly planPlaces?: readonly PlanPlace[];
}

/** A system and its drawing. */
export interface DrawnSystem {
  readonly system: EngravedSystem;
  readonly drawn: ComposedSystem;
}

/* Words and signs of brackets, keys, harmony and plan are hidden from screen readers, which would spell them piece by piece: the page has them as tables. */

/** Room between the rows over a system, px. */
const BETWEEN_PX = 5;

/** In the first bar of a system a sign belongs over its notes, not over the clef: it begins so far before the first of them, px. */
const CLEF_CLEAR_PX = 12;

/** Every system of an engraving. */
export function drawPiece(engraving: Engraving, piece: PieceDrawing): readonly DrawnSystem[] {
  const ticks = headTicks(piece.score);
  const dry = piece.pedalPlan.entries.every(({ kind }) => kind === 'none');
  return engraving.systems.map((system) => {
    const places = tickPlaces(system, piece.score, ticks);
    // a piece without any pedal says so once, in words
    const lane = laneUnder(harmonyRows(piece.harmonies, places), dry ? NO_LANE : pedalLane(piece.pedalPlan.entries, places, piece.planPlaces ?? null));
    return { system, drawn: composeSystem(system, rowsOver(system, piece, places), lane.heightPx > 0 ? [lane] : []) };
  });
}

/** A lane of no height. */
const NO_LANE: Lane = { svg: '', heightPx: 0 };

/** Harmony and pedal plan of one system as one lane, for pages that draw other things as well. */
export function harmonyAndPlan(harmonies: readonly Harmony[], plan: PedalPlan, places: TickPlaces): Lane {
  return laneUnder(harmonyRows(harmonies, places), pedalLane(plan.entries, places));
}

/**
 * Harmony and plan as one lane. Chord names may need more rows than degrees: the plan stands under the degrees and
 * carries the number of rows by which the style sheet lowers it where chord names are shown.
 */
function laneUnder(harmony: HarmonyRows, plan: Lane): Lane {
  const lowered = rowsBetween(harmony);
  const svg = plan.heightPx === 0 ? '' : `<g transform="translate(0 ${harmony.degreesPx})"><g class="under-names lowered-${lowered}">${plan.svg}</g></g>`;
  return { svg: `<g class="lane" aria-hidden="true">${harmony.svg}${svg}</g>`, heightPx: Math.max(harmony.degreesPx, harmony.namesPx) + plan.heightPx };
}

/** The rows over a system from the lowest: spectacles, keys, sections. A row that has nothing takes no room. */
function rowsOver(system: EngravedSystem, { pitfalls, keys, sections }: PieceDrawing, places: TickPlaces): readonly Mark[] {
  const brackets = bracketsOf(system, sections);
  const rows: readonly Row[] = [
    { heightPx: SPECTACLES_HEIGHT_PX, draw: (top) => spectaclesOver(system.bars.map((bar, i) => (i === 0 ? { ...bar, left: places.startX - CLEF_CLEAR_PX } : bar)), pitfalls, top + GLASSES_PX) },
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
