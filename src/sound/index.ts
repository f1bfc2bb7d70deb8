/** The recording as it could be: pure functions from score, recording and alignment to another recording. */
export type * from './types.js';
export { asPrinted } from './asPrinted.js';
export { balanceMended } from './balanceMended.js';
export { clockOf } from './clock.js';
export { dynamicsMade } from './dynamicsMade.js';
export { lengthsGiven } from './lengthsGiven.js';
export { levelsMatched, type Matched } from './levelMatch.js';
export { shownBars, shownMoments, type ShownBar, type ShownMoment } from './moments.js';
export { notesRighted } from './notesRighted.js';
export { pedalAsPlanned } from './pedalAsPlanned.js';
export { playbackOf, type Playback, type PlaybackKey } from './playback.js';
export { pulseEvened } from './pulseEvened.js';
export { isVersionName, makeVersion, VERSION_NAMES, versionInWords } from './versions.js';
