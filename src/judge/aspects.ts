/** The judges, one an aspect, in the order in which aspects are told. */
import { judgeBalance } from './balance.js';
import { judgeDynamics } from './dynamics.js';
import { judgeLengths } from './lengths.js';
import { judgeNotes } from './notes.js';
import { judgePedal } from './pedal.js';
import { judgePulse } from './pulse.js';
import { judgeRhythm } from './rhythm.js';
import { judgeRoute } from './route.js';
import { judgeTempo } from './tempo.js';
import { judgeTouch } from './touch.js';
import type { Aspect, AspectJudge } from './types.js';

/** Every aspect, in the order in which pages and tables list them. */
export const ASPECTS: readonly Aspect[] = ['notes', 'route', 'rhythm', 'pulse', 'tempo', 'lengths', 'touch', 'pedal', 'dynamics', 'balance'];

/** In the order of `ASPECTS`. */
export const ASPECT_JUDGES: readonly AspectJudge[] = [judgeNotes, judgeRoute, judgeRhythm, judgePulse, judgeTempo, judgeLengths, judgeTouch, judgePedal, judgeDynamics, judgeBalance];
