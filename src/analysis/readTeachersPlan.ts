/** A teacher's pedal plan as files and databases hold it: checked once, here, so that everything after can rely on it. */
import { InputError } from '../base/index.js';
import type { PlannedFoot, PlannedKind, TeachersPlan } from './pedalPlanTypes.js';

/** Every kind there is. */
const KINDS: readonly PlannedKind[] = ['pedal', 'ring', 'up', 'none'];

/** Most points of a plan (<=): several a beat in the longest piece there is. */
const MOST_POINTS = 20_000;

/**
 * Reads a plan from parsed JSON: `[{ "barIndex": 0, "offset": 1.5, "kind": "pedal" }]`.
 * @throws InputError code `bad-value`, `too-large`
 */
export function readTeachersPlan(value: unknown): TeachersPlan {
  if (!Array.isArray(value)) throw new InputError('bad-value', 'The pedal plan has to be a list.');
  if (value.length > MOST_POINTS) throw new InputError('too-large', `A pedal plan holds at most ${MOST_POINTS} changes.`);
  return value.map(pointOf);
}

/** One point. */
function pointOf(value: unknown): PlannedFoot {
  if (typeof value !== 'object' || value === null) throw new InputError('bad-value', 'An entry of the pedal plan has to be an object.');
  const barIndex = 'barIndex' in value ? value.barIndex : null;
  const offset = 'offset' in value ? value.offset : null;
  const kind = KINDS.find((one) => 'kind' in value && value.kind === one);
  if (typeof barIndex !== 'number' || !Number.isInteger(barIndex) || barIndex < 0) throw new InputError('bad-value', '“barIndex” of the pedal plan counts the bars from 0 on.');
  if (typeof offset !== 'number' || !Number.isFinite(offset) || offset < 0) throw new InputError('bad-value', '“offset” of the pedal plan counts crotchets from the start of the bar.');
  if (kind === undefined) throw new InputError('bad-value', `“kind” of the pedal plan is one of: ${KINDS.join(', ')}.`);
  return { barIndex, offset, kind };
}
