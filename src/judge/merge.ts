import { groupBy } from '../base/index.js';
import { undecided, type Deciding } from './decisions.js';
import type { Finding, Observation, ObservedPlace, Told } from './types.js';
import { weightOf } from './weight.js';

/** An observation before its sentences are written. */
export type Untold = Omit<Observation, keyof Told>;

/**
 * Puts like findings together: one observation for each aspect, kind, hand and topic, with every place it happened at. What the
 * teacher decided about is left out before, so that the sentences are about what remains.
 * @param tell writes what was heard and what to do, or the first alone
 * @returns heaviest first
 */
export function observe(deciding: Deciding, findings: readonly Finding[], tell: (untold: Untold) => Told | string): readonly Observation[] {
  const groups = groupBy(undecided(findings, deciding), ({ aspect, kind, hand, topic }) => JSON.stringify([aspect, kind, hand, topic]));
  const observations = [...groups.values()].flatMap((group) => {
    const untold = untoldOf(group);
    if (untold === null) return [];
    const told = tell(untold);
    return [{ ...untold, ...(typeof told === 'string' ? { text: told, advice: '' } : told) }];
  });
  return observations.sort((a, b) => b.weight - a.weight);
}

/** One observation of like findings. */
function untoldOf(group: readonly Finding[]): Untold | null {
  const worst = [...group].sort((a, b) => b.severity * b.confidence - a.severity * a.confidence)[0];
  if (worst === undefined) return null;
  const { aspect, kind, hand, topic, measured, confidence } = worst;
  return { aspect, kind, hand, topic, places: joined(group.map((one) => ({ ...one.place, weight: one.severity * one.confidence }))), measured, weight: weightOf(group), confidence };
}

/** Places in order of time; those that overlap within one pass and try become one. */
function joined(places: readonly ObservedPlace[]): readonly ObservedPlace[] {
  const out: ObservedPlace[] = [];
  for (const place of [...places].sort((a, b) => a.startS - b.startS || a.fromBar - b.fromBar)) {
    const last = out.at(-1);
    if (last !== undefined && overlap(last, place)) out[out.length - 1] = union(last, place);
    else out.push(place);
  }
  return out;
}

/** True where two places share a bar of one pass and try. */
function overlap(a: ObservedPlace, b: ObservedPlace): boolean {
  return a.pass === b.pass && a.attempt === b.attempt && a.fromBar <= b.toBar && b.fromBar <= a.toBar;
}

/** Both places as one. */
function union(a: ObservedPlace, b: ObservedPlace): ObservedPlace {
  return {
    ...a,
    fromBar: Math.min(a.fromBar, b.fromBar),
    toBar: Math.max(a.toBar, b.toBar),
    notes: [...new Set([...a.notes, ...b.notes])],
    startS: Math.min(a.startS, b.startS),
    weight: Math.max(a.weight, b.weight),
  };
}
