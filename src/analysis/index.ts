/**
 * What a teacher wants to know of a piece before she teaches it, from the score alone. Everything outside of this folder
 * takes analyses from here.
 */
export { findBeatPlaces } from './beatPlaces.js';
export type * from './beatTypes.js';
