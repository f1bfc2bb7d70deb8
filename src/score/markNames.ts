/** Tables of element names. Apart from logic, so that a sign can be added without touching code. */
import type { Articulation, Ornament } from './types.js';

/** Articulation elements of MusicXML 4.0 (staccato dot, staccatissimo wedge, spiccato stroke, tenuto line, detached-legato line and dot …). */
export const ARTICULATIONS: ReadonlyMap<string, readonly Articulation[]> = new Map([
  ['staccato', ['staccato']],
  ['staccatissimo', ['staccatissimo']],
  ['spiccato', ['spiccato']],
  ['tenuto', ['tenuto']],
  ['detached-legato', ['detachedLegato']],
  ['accent', ['accent']],
  ['soft-accent', ['accent']],
  ['strong-accent', ['strongAccent']],
  ['stress', ['stress']],
  ['unstress', ['unstress']],
  ['breath-mark', ['breathMark']],
  ['caesura', ['caesura']],
]);

/** Ornament elements of MusicXML 4.0 whose meaning does not hang on an attribute. */
export const ORNAMENTS: ReadonlyMap<string, readonly Ornament[]> = new Map([
  ['trill-mark', ['trill']],
  ['mordent', ['mordent']],
  ['inverted-mordent', ['invertedMordent']],
  ['turn', ['turn']],
  ['vertical-turn', ['turn']],
  ['inverted-turn', ['invertedTurn']],
  ['inverted-vertical-turn', ['invertedTurn']],
  ['delayed-turn', ['delayedTurn']],
  ['delayed-inverted-turn', ['delayedTurn']],
  ['shake', ['shake']],
  ['schleifer', ['schleifer']],
  ['haydn', ['otherOrnament']],
  ['other-ornament', ['otherOrnament']],
]);
