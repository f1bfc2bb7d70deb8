/** What is known of a piece, drawn on its engraving. */
export { bracketsOf, type Bracket, type BracketedSection } from './piece/brackets.js';
export { drawPiece, harmonyAndPlan, type DrawnSystem, type PieceDrawing } from './piece/draw.js';
export { placeNames, type PlacedName } from './piece/harmonyRows.js';
export { chordLabel, degreeLabel, writeLabel, type Label, type LabelPiece } from './piece/labels.js';
export type { PlanPlace } from './piece/planGrips.js';
export type { NumberedPitfall } from './piece/spectacles.js';
export { headTicks, tickPlaces, type TickPlaces } from './piece/tickToX.js';
