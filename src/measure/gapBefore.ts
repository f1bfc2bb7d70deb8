/*
 * The teacher's question: was there a hole before this harmony, where the line should have gone on?
 *
 * Conventions: seconds of silence right before the new sound; 0 where there is none or where the foot has nothing to do with it.
 * Method: the old notes have all fallen `UNHEARD_DB` under the softest stroke of the new sound before that begins. It counts where something is
 *   written right up to the change, and where at the end only the foot had carried the sound: its fingers were gone before the lift.
 * Source: our own rule.
 * What it does not tell: whether a breath was meant; ends of phrases are for judgement.
 */
import type { ChangePoint } from './changePoints.js';
import type { FootAround } from './footMoves.js';
import type { OldNew, RingingNote } from './oldAndNew.js';
import { levelAt, silentFrom } from './ringing.js';

/** What has fallen so far (>=) under the new sound leaves a hole, dB: about as in carriedOver.ts, a twentieth of the amplitude. */
const UNHEARD_DB = 25;

/** How far back the end of the old sound is looked for, seconds. */
const BACK_S = 2;

/** Time between two looks, seconds. */
const STEP_S = 0.02;

/** Fingers that left the keys less (<) than this before the foot let go together with it, seconds. */
const TOGETHER_S = 0.08;

/** What the gap is told from: all notes before the change, whatever became of them. */
export interface BeforeChange {
  readonly point: ChangePoint;
  readonly sounds: OldNew;
  readonly around: FootAround;
  /** The last notes struck before the change, in order of time. */
  readonly last: readonly RingingNote[];
}

/** Silence before the new sound, seconds. */
export function gapBefore({ point, sounds, around, last }: BeforeChange): number {
  const { liftS } = around;
  if (liftS === null || liftS >= 0 || last.length === 0) return 0;
  const written = last.some(({ endTick }) => endTick !== null && endTick >= point.tick);
  const liftAtS = point.soundS + liftS;
  const carried = last.every(({ ring }) => ring.letGoS < point.soundS) && last.some(({ ring }) => ring.letGoS < liftAtS - TOGETHER_S && silentFrom(ring) >= liftAtS);
  if (!written || !carried) return 0;
  const strokes = sounds.fresh.filter(({ onsetS }) => onsetS <= point.soundS + STEP_S).map(({ ring }) => levelAt(ring, ring.onsetS));
  const unheard = strokes.reduce((low, level) => Math.min(low, level), 0) - UNHEARD_DB;
  let gapS = 0;
  while (gapS < BACK_S && last.every(({ ring }) => levelAt(ring, point.soundS - gapS - STEP_S) <= unheard)) gapS += STEP_S;
  return gapS >= BACK_S ? 0 : gapS;
}
