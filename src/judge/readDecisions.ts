/** Decisions as files and databases hold them: checked once, here, so that judgement can rely on them. */
import { InputError } from '../base/index.js';
import { ASPECTS } from './aspects.js';
import { NO_DECISIONS } from './decisions.js';
import type { Hand } from '../measure/index.js';
import type { Aspect, Decisions, LeftAlone, Preferences, RightAsPlayed, Strictness } from './types.js';

/** What strictness may be asked for beside the aspects. */
const ORNAMENTS = 'ornaments';

/** Every degree of strictness. */
const STRICTNESSES: readonly Strictness[] = ['lenient', 'usual', 'strict'];

/**
 * Reads decisions from parsed JSON: `{ "rightAsPlayed": [{ "aspect", "kind", "hand", "notes", "bars" }], "left": [{ "aspect", "kind" }],
 * "preferences": { "strictness": { "tempo": "lenient" }, "lookAt": ["rhythm"] } }`; each part may be left out.
 * @throws InputError code `bad-value`, naming the part
 */
export function readDecisions(value: unknown): Decisions {
  const { rightAsPlayed, left, preferences } = recordOf(value, 'The decisions');
  return {
    rightAsPlayed: listOf(rightAsPlayed, 'rightAsPlayed').map(readRightAsPlayed),
    left: listOf(left, 'left').map(readLeftAlone),
    preferences: preferences === undefined ? NO_DECISIONS.preferences : readPreferences(preferences),
  };
}

/** One thing that is right as played. @throws InputError code `bad-value` */
export function readRightAsPlayed(value: unknown): RightAsPlayed {
  const { aspect, kind, hand, notes, bars } = recordOf(value, 'An entry of rightAsPlayed');
  return {
    aspect: aspectOf(aspect),
    kind: kind === undefined || kind === null ? null : textOf(kind, 'kind'),
    hand: hand === undefined || hand === null ? null : handOf(hand),
    notes: listOf(notes, 'notes').map((one) => textOf(one, 'notes')),
    bars: bars === undefined || bars === null ? null : stretchesOf(bars),
  };
}

/** One kind of remark that is left alone. @throws InputError code `bad-value` */
export function readLeftAlone(value: unknown): LeftAlone {
  const { aspect, kind } = recordOf(value, 'An entry of left');
  return { aspect: aspectOf(aspect), kind: textOf(kind, 'kind') };
}

/** Strictness and what to look at. @throws InputError code `bad-value` */
export function readPreferences(value: unknown): Preferences {
  const { strictness, lookAt } = recordOf(value, 'The preferences');
  const entries = Object.entries(strictness === undefined ? {} : recordOf(strictness, 'strictness'));
  return {
    strictness: Object.fromEntries(entries.map(([aspect, how]) => [aspect === ORNAMENTS ? ORNAMENTS : aspectOf(aspect), strictnessOf(how)])),
    lookAt: listOf(lookAt, 'lookAt').map(aspectOf),
  };
}

/** A record with named parts. */
function recordOf(value: unknown, what: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw bad(`${what} must be a record with named parts.`);
  return Object.fromEntries(Object.entries(value));
}

/** A list, empty where left out. */
function listOf(value: unknown, what: string): readonly unknown[] {
  if (value === undefined) return [];
  if (!Array.isArray(value)) throw bad(`"${what}" must be a list.`);
  return value.map((one: unknown) => one);
}

function textOf(value: unknown, what: string): string {
  if (typeof value !== 'string' || value === '') throw bad(`"${what}" must be a text.`);
  return value;
}

function aspectOf(value: unknown): Aspect {
  const found = ASPECTS.find((aspect) => aspect === value);
  if (found === undefined) throw bad(`An aspect must be one of ${ASPECTS.join(', ')}.`);
  return found;
}

function handOf(value: unknown): Hand {
  if (value !== 'right' && value !== 'left') throw bad('A hand must be right or left; leave it out for both.');
  return value;
}

function strictnessOf(value: unknown): Strictness {
  const found = STRICTNESSES.find((one) => one === value);
  if (found === undefined) throw bad(`Strictness must be one of ${STRICTNESSES.join(', ')}.`);
  return found;
}

/** Stretches of bars: a list of them, or one by itself; one bar may be given once. */
function stretchesOf(value: unknown): readonly (readonly [string, string])[] {
  const list = listOf(value, 'bars');
  return list.length > 0 && list.every(Array.isArray) ? list.map(stretchOf) : [stretchOf(list)];
}

/** First and last printed bar. */
function stretchOf(value: unknown): readonly [string, string] {
  const [first, last = first, ...more] = listOf(value, 'bars');
  if (more.length > 0) throw bad('"bars" must hold the first and the last bar.');
  return [textOf(first, 'bars'), textOf(last, 'bars')];
}

function bad(sentence: string): InputError {
  return new InputError('bad-value', sentence);
}
