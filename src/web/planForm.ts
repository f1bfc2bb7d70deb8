/** A change of the pedal plan as its form says it. Places are written ticks; the score says whether they are in it. */
import type { Request } from 'express';
import type { PlanEdit, PlannedKind } from '../analysis/index.js';
import { firstIndex, InputError } from '../base/index.js';
import { fieldOf } from './commentForm.js';

/** What a form can ask for: a change, the program's plan, or a plan as it once was. */
export type PlanAsked = PlanEdit | { readonly act: 'program' } | { readonly act: 'version'; readonly id: number };

/** A tick or a number of the store. */
const NUMBER = /^\d{1,9}$/;

/** What the buttons say, and what it plans. */
const KINDS: readonly PlannedKind[] = ['pedal', 'ring', 'up', 'none'];

/**
 * Reads the form: `act` is a kind with the fields `at` and `until`, or "move", "remove", "earlier", "later", "version" with a number
 * after it, or "program".
 * @param places where changes can be put, in order; a step earlier or later goes to the next of them
 * @throws InputError code `bad-value`
 */
export function planAsked(request: Request, places: readonly number[]): PlanAsked {
  const [act = '', number = fieldOf(request, 'at')] = fieldOf(request, 'act').split(' ');
  const kind = KINDS.find((one) => one === act);
  if (kind !== undefined) return { act: 'set', atTick: numberIn(number), kind, untilTick: fieldOf(request, 'until') === '' ? null : numberIn(fieldOf(request, 'until')) };
  switch (act) {
    case 'program': return { act };
    case 'version': return { act, id: numberIn(number) };
    case 'remove': return { act, atTick: numberIn(number) };
    case 'move': return { act, atTick: numberIn(number), toTick: numberIn(fieldOf(request, 'to')) };
    case 'earlier': return step(places, numberIn(number), -1);
    case 'later': return step(places, numberIn(number), 1);
    default: throw unclear();
  }
}

/** To the place beside. */
function step(places: readonly number[], atTick: number, by: 1 | -1): PlanEdit {
  const at = firstIndex(places.length, (i) => (places[i] ?? Infinity) >= atTick);
  const here = places[at] === atTick;
  const toTick = places[by === 1 ? (here ? at + 1 : at) : at - 1];
  if (toTick === undefined) throw new InputError('bad-value', 'It cannot go any further: the piece ends there.');
  return { act: 'move', atTick, toTick };
}

/** A number in a field. */
function numberIn(text: string): number {
  if (!NUMBER.test(text)) throw unclear();
  return Number(text);
}

/** A form that no page of the room sends. */
function unclear(): InputError {
  return new InputError('bad-value', 'The form does not say what to do with the pedal. Open the page again and choose once more.');
}
