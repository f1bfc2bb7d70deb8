/** The pencil: every stroke as a function from a place to SVG, each mark a `<g class="mark mark-…">` with its title. */
export { added, ADDED_REACH_PX, type AddedPlace } from './pencil/added.js';
export { ARROW_BELOW_PX, earlyArrow, lateArrow } from './pencil/arrow.js';
export { look } from './pencil/look.js';
export type { MarkKind, MarkLabels } from './pencil/mark.js';
export { missing, missingBeside, MISSING_BESIDE_PX, MISSING_REACH_PX } from './pencil/missing.js';
export { ring, RING_REACH_PX } from './pencil/ring.js';
export { stop } from './pencil/stop.js';
export { stretch, type StretchPlace } from './pencil/stretch.js';
export { pencilStroke, PENCIL_PX, smoothPath, type StrokeOptions } from './pencil/stroke.js';
export { tick } from './pencil/tick.js';
