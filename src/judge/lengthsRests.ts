/*
 * Rests: are they silent?
 *
 * What is a fault: keys that stay down through most of a rest where no pedal is down, and a rest of all staves that the
 * pedal fills. A rest of one stave under the pedal is choreography of the hand and no fault (teachers' common practice); nor is a
 * general rest over which the page itself prints a pedal. Rests shorter than a quaver are articulation.
 */
import { groupBy } from '../base/index.js';
import { PEDAL_HOLDS, PEDAL_LINGERS, type SilenceFacts } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import { isMarked } from './pedalFoot.js';
import type { Finding } from './types.js';

/** A rest is filled where a key stays down through this share of it (>=) … */
export const FILLED_SHARE = 0.5;

/** … and at least this long (>=), seconds. Our own rules: longer than any overlap that legato asks. */
export const FILLED_S = 0.2;

/** Shortest rest (>=) that is looked at, crotchets: a quaver. */
export const LEAST_REST_CROTCHETS = 0.5;

/** Shortest general rest (>=) in which the pedal is listened for, crotchets: in less the dampers hardly clear the bass (0.2-0.3 s, common practice). */
export const LEAST_GENERAL_CROTCHETS = 1;

/** The same in seconds. */
export const LEAST_GENERAL_S = 0.5;

/** How sure the program is that a pedal in a general rest is no choice of the player. Our own rule. */
const PEDAL_CONFIDENCE = 0.7;

/** A rest with the note that should have ended before it. */
interface Rest extends SilenceFacts {
  readonly before: HeldNote;
  readonly heldShare: number;
}

/** The rests of a recording that can be judged. */
export function restsOf(ground: HeldGround): readonly Rest[] {
  const { measures, score } = ground.input;
  return measures.holding.silences.flatMap((silence) => {
    const before = ground.byPair.get(silence.lastPair);
    const crotchets = (silence.toTick - silence.fromTick) / score.ticksPerQuarter;
    if (before === undefined || crotchets < LEAST_REST_CROTCHETS || before.note.fermata) return [];
    return [{ ...silence, before, heldShare: silence.heldS / (silence.toS - silence.fromS) }];
  });
}

/** Rests filled by fingers, and general rests filled by the pedal. */
export function restFindings(ground: HeldGround, rests: readonly Rest[]): readonly Finding[] {
  const byFinger = rests.filter((rest) => rest.staff !== null && rest.pedal < PEDAL_LINGERS && rest.heldShare >= FILLED_SHARE && rest.heldS >= FILLED_S);
  const together = [...groupBy(byFinger, ({ stretch, fromTick, toTick }) => `${stretch} ${fromTick} ${toTick}`).values()];
  const byPedal = rests.filter((rest) => rest.staff === null && rest.heldShare < FILLED_SHARE && pedalled(ground, rest));
  return [...together.flatMap((some) => filledFinding(ground, some)), ...byPedal.map((rest) => pedalFinding(ground, rest))];
}

/** Keys held through a rest; one finding for both hands where they rest together. */
function filledFinding(ground: HeldGround, rests: readonly Rest[]): readonly Finding[] {
  const worst = rests.reduce((a, b) => (b.heldShare > a.heldShare ? b : a));
  const hands = new Set(rests.map(({ before }) => before.hand));
  return [heldFinding(ground, {
    aspect: 'lengths', kind: 'filledRest', hand: hands.size > 1 ? null : worst.before.hand, bar: worst.before.bar, notes: rests.map(({ before }) => before),
    value: percent(worst.heldShare), unit: '%', threshold: percent(FILLED_SHARE), ratio: worst.heldShare / FILLED_SHARE, confidence: 1,
  })];
}

/** True for a general rest that the pedal fills, and no marked pedal does. */
function pedalled({ input: { score, analysis } }: HeldGround, { fromS, toS, soundS, pedal, fromTick, toTick, before }: Rest): boolean {
  const shift = (score.order[before.occurrence.visitIndex]?.startTick ?? 0) - (score.bars[before.bar.barIndex]?.startTick ?? 0);
  const marked = analysis.pedalPlan.entries.some((entry) => isMarked(entry) && entry.fromTick < toTick - shift && entry.toTick > fromTick - shift);
  const long = toS - fromS >= LEAST_GENERAL_S && toTick - fromTick >= LEAST_GENERAL_CROTCHETS * score.ticksPerQuarter;
  return long && !marked && pedal >= PEDAL_HOLDS && soundS >= FILLED_SHARE * (toS - fromS);
}

/** A general rest that the pedal fills. */
function pedalFinding(ground: HeldGround, { before, soundS, fromS, toS }: Rest): Finding {
  const share = soundS / (toS - fromS);
  return heldFinding(ground, {
    aspect: 'lengths', kind: 'pedalInRest', hand: null, bar: before.bar, notes: [before], value: percent(share), unit: '%', threshold: percent(FILLED_SHARE),
    ratio: share / FILLED_SHARE, confidence: PEDAL_CONFIDENCE,
  });
}
