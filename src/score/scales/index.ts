/** Scales and arpeggios made to measure. */
export { isScale } from './isScale.js';
export { scaleXml } from './scaleXml.js';
export { checkScalePlan, SCALE_KINDS, scaleKindInWords, scaleProblem, scaleTitle, TONICS, type ScaleHands, type ScaleKind, type ScalePlan, type ScaleTouch } from './scalePlan.js';
