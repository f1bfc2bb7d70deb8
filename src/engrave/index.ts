export type * from './types.js';
export { barGrid, type BarGridOptions } from './barGrid.js';
export { composeSystem, type ComposedSystem, type Lane, type Mark } from './compose.js';
export { engraveOrGrid, NO_NOTATION, type EngraveOrGridOptions } from './engrave.js';
export { engraveScore, type EngraveOptions } from './engraveScore.js';
export { repairForEngraving, type RepairedScore, type RepairOptions } from './repair.js';
export { createToolkit, type Toolkit } from './toolkit.js';
