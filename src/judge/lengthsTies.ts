/*
 * Ties: was a tied note struck again?
 *
 * What is a fault: a second stroke that is heard beside the first. A key that only comes back under the finger, far softer, is none.
 */
import { heldFinding, type HeldGround } from './heldNotes.js';
import type { Finding } from './types.js';

/** A second stroke softer (<) than this share of the first one's velocity is covered by it. Our own rule: a third is about 19 dB less (Dannenberg 2006, amplitude with the square of velocity). */
const HEARD_SHARE = 1 / 3;

/** Every tied note that was struck again. */
export function tieFindings(ground: HeldGround): readonly Finding[] {
  const { measures, recording, score } = ground.input;
  return measures.holding.restruck.flatMap(({ pair, note, tied }) => {
    const held = ground.byPair.get(pair);
    const again = recording.notes[note];
    const written = score.notes[tied];
    if (held === undefined || again === undefined || written === undefined || again.velocity < HEARD_SHARE * held.velocity) return [];
    const found = heldFinding(ground, { aspect: 'lengths', kind: 'tieStruckAgain', hand: held.hand, bar: held.bar, notes: [held], value: 1, unit: 'time', threshold: 1, ratio: 1.5, confidence: 1 });
    return [{ ...found, place: { ...found.place, fromBar: written.barIndex, toBar: written.barIndex, notes: [tied], startS: again.onsetS } }];
  });
}
