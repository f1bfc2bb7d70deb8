import type { TimedEvent } from './events.js';
import type { ControlPoint } from './types.js';

/** The three pedals over time. */
export interface Pedals {
  readonly sustain: readonly ControlPoint[];
  readonly sostenuto: readonly ControlPoint[];
  readonly soft: readonly ControlPoint[];
}

const SUSTAIN = 64;
const SOSTENUTO = 66;
const SOFT = 67;
const RESET_CONTROLLERS = 121;

/**
 * The pedals of the piano's channels, and of channels that play no note at all (a pedal may be sent on a track and a
 * channel of its own). "Reset all controllers" lifts every pedal that is down.
 * @param events in time order
 * @param leftOut channels whose notes are not the piano's: their pedals are not either
 */
export function readPedals(events: readonly TimedEvent[], leftOut: ReadonlySet<number>): Pedals {
  const controls = events.filter((event) => event.kind === 'control' && !leftOut.has(event.channel));
  return { sustain: curve(controls, SUSTAIN), sostenuto: curve(controls, SOSTENUTO), soft: curve(controls, SOFT) };
}

/** Values of one controller, every one as it was sent. */
function curve(events: readonly TimedEvent[], controller: number): readonly ControlPoint[] {
  const points: ControlPoint[] = [];
  for (const event of events) {
    if (event.kind !== 'control') continue;
    const last = points.at(-1);
    const reset = event.controller === RESET_CONTROLLERS && last !== undefined && last.value > 0;
    if (event.controller !== controller && !reset) continue;
    points.push({ timeS: event.timeS, value: reset ? 0 : event.value });
  }
  return points;
}
