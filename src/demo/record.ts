/** Makes one planned recording: legs, playing, faults, pedal. The same plan gives the same notes on every machine. */
import { seededRandom } from '../base/index.js';
import { applyFault } from './faults.js';
import { legsOf } from './legs.js';
import { pedalOf } from './pedalling.js';
import type { Piece } from './piece.js';
import { play } from './play.js';
import { faultsOf, type TakePlan } from './plan.js';
import type { Take, TakeNote } from './take.js';
import { freeKeys } from './touch.js';
import { unfold } from './visits.js';

/** Silence before the first key, seconds: the finger goes from the record button to the keys. */
const START_S = 1.4;
/** What a keyboard without touch response sends for every key. */
const NO_TOUCH_VELOCITY = 64;

/** The finished recording. Its notes are in the order of their onsets, missed ones at the time at which they were due. */
export function makeTake(piece: Piece, plan: TakePlan): Take {
  const random = seededRandom(plan.seed);
  const legs = legsOf(unfold(piece), plan.faults);
  const ritardando = faultsOf(plan.faults, 'noRitardando').length === 0;
  const hairpins = faultsOf(plan.faults, 'noHairpins').length === 0;
  const faultless = play({ piece, legs, player: plan.player, ritardando, hairpins, random }, START_S);
  const faulty = plan.faults.reduce<readonly TakeNote[]>(applyFault, faultless);
  const sent = plan.instrument.touch ? faulty : faulty.map((note) => ({ ...note, velocity: NO_TOUCH_VELOCITY, releaseVelocity: NO_TOUCH_VELOCITY }));
  const notes = [...freeKeys(sent)].sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
  return { notes, sustain: pedalOf(piece, notes, { faults: plan.faults, instrument: plan.instrument, tempo: plan.player.tempo, random }) };
}
