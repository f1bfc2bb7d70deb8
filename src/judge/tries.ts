import { countInWords, listInWords, ordinalInWords } from '../base/index.js';
import type { BarFacts } from '../measure/index.js';

/**
 * Words for the visits to one bar. A repeat written in the score gives another "time"; going back gives another
 * "try". `all` are all visits to the bar in time order.
 */

/** One visit: "first try", "second time, first try"; empty where the bar was played once. */
export function tryInWords(visit: BarFacts, all: readonly BarFacts[]): string {
  if (all.length < 2) return '';
  const passes = new Set(all.map((other) => other.pass));
  const tries = all.filter((other) => other.pass === visit.pass);
  const time = passes.size > 1 ? `${ordinalInWords(visit.pass)} time` : '';
  const attempt = tries.length > 1 ? `${ordinalInWords(tries.indexOf(visit) + 1)} try` : '';
  return [time, attempt].filter((text) => text !== '').join(', ');
}

/** Several visits: "both tries", "all three times", "first and third try". */
export function triesInWords(visits: readonly BarFacts[], all: readonly BarFacts[]): string {
  if (all.length < 2) return '';
  const times = new Set(all.map((visit) => visit.pass)).size === all.length;
  const things = times ? 'times' : 'tries';
  if (visits.length === all.length) return all.length === 2 ? `both ${things}` : `all ${countInWords(all.length)} ${things}`;
  if (visits.length === 1) return tryInWords(visits[0] ?? noVisit(), all);
  const places = visits.map((visit) => all.indexOf(visit) + 1).sort((a, b) => a - b).map(ordinalInWords);
  return `${listInWords(places)} ${times ? 'time' : 'try'}`;
}

/** "tried twice", "played three times"; empty where the bar was played once. */
export function visitsInWords(all: readonly BarFacts[]): string {
  if (all.length < 2) return '';
  const verb = new Set(all.map((visit) => visit.pass)).size === all.length ? 'played' : 'tried';
  return `${verb} ${all.length === 2 ? 'twice' : `${countInWords(all.length)} times`}`;
}

/** A list that is not empty has a first entry. */
function noVisit(): never {
  throw new RangeError('no visit given');
}
