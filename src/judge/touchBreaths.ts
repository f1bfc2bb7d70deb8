/*
 * Breath marks: is the line let go where one is printed?
 *
 * What is a fault: a note under a breath mark or caesura that is joined on to the next as in legato. A pedal that is down says nothing.
 */
import { groupBy } from '../base/index.js';
import { JOINED_GAP_S, PEDAL_LINGERS } from '../measure/index.js';
import { heldFinding, type HeldGround, type HeldNote } from './heldNotes.js';
import type { Finding } from './types.js';

/** How far beyond its threshold a breath that is not taken is put: there is no more or less of it. Our own rule. */
const RATIO = 1.3;

/** The chords under printed breaths. */
export function breathsOf(ground: HeldGround): readonly (readonly HeldNote[])[] {
  const marked = ground.notes.filter(({ note }) => note.articulations.includes('breathMark') || note.articulations.includes('caesura'));
  return [...groupBy(marked, ({ chord }) => chord).values()];
}

/** Every printed breath that was played through. */
export function breathFindings(ground: HeldGround, breaths: readonly (readonly HeldNote[])[]): readonly Finding[] {
  return breaths.flatMap((notes) => {
    const [first] = notes;
    const joins = notes.flatMap(({ holding: { join } }) => (join.measured ? [join.value] : []));
    const through = joins.some(({ overlapS }) => overlapS > -JOINED_GAP_S) && joins.every(({ pedal }) => pedal < PEDAL_LINGERS);
    return first === undefined || !through ? [] : [heldFinding(ground, { aspect: 'touch', kind: 'noBreath', hand: first.hand, bar: first.bar, notes, value: 1, unit: 'time', threshold: 1, ratio: RATIO, confidence: 1 })];
  });
}
