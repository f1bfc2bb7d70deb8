import type { Score } from '../score/index.js';
import type { Press } from './press.js';
import { nameLeftovers, type Leftover } from './leftovers.js';
import { handOf, RIGHT, type Slots } from './slots.js';
import type { Added, Alignment, Hands, Missed, OrnamentNote, Pair, Stretch } from './types.js';
import { cutByHands, handsOf, occurrencesByVisit, type RunVisit, type VisitedRun } from './visits.js';

interface Parts {
  readonly score: Score;
  readonly slots: Slots;
  readonly presses: readonly Press[];
  readonly runs: readonly VisitedRun[];
  readonly transposition: number;
}

/** At the ragged ends of a stretch, a bar counts as played through when at least this share of its notes was played. */
const PLAYED_THROUGH = 0.5;

// The stretches of one run: cut where a hand falls silent or comes in.
function stretchesOf(score: Score, run: VisitedRun, presses: readonly Press[], firstIndex: number): Stretch[] {
  return cutByHands(run.visits).map(([from, to], k) => {
    const visits = run.visits.slice(from, to + 1);
    const inside = new Set(visits.map((visit) => visit.visit));
    const onsets = run.paired.pairs.filter((pair) => inside.has(score.occurrences[pair.occurrence]?.visitIndex ?? -1)).map((pair) => presses[pair.press]?.onsetS ?? 0);
    return {
      index: firstIndex + k,
      fromVisit: visits[0]?.visit ?? 0,
      toVisit: visits.at(-1)?.visit ?? 0,
      startS: onsets.reduce((a, b) => Math.min(a, b), Infinity),
      endS: onsets.reduce((a, b) => Math.max(a, b), -Infinity),
      attempt: visits[0]?.attempt ?? 1,
      hands: handsOf(visits),
    };
  });
}

function playsHand(hands: Hands, staff: number): boolean {
  return hands === 'both' || hands === (handOf(staff) === RIGHT ? 'right' : 'left');
}

// A bar at a ragged end counts only between the first and the last slot played, unless most of it was played.
function wholeBar(visit: RunVisit, hands: Hands): boolean {
  const written = (hands === 'left' ? 0 : visit.rightWritten) + (hands === 'right' ? 0 : visit.leftWritten);
  return visit.rightPlayed + visit.leftPlayed >= PLAYED_THROUGH * written;
}

// What was written and not played. Where the player broke off to go elsewhere, or came from elsewhere, the rest of the bar was
// not missed but left.
function missedOf(parts: Parts, r: number, stretches: readonly Stretch[], byVisit: readonly number[][]): Missed[] {
  const { score, slots } = parts;
  const run = parts.runs[r];
  if (!run) return [];
  const open = { first: r === 0, last: r === parts.runs.length - 1 };
  // voices in unison are one sound, and missed once at the most; a grace note before the same key is a sound of its own
  const soundOf = (id: number): string => `${score.occurrences[id]?.onsetTick ?? 0}/${score.occurrences[id]?.midi ?? 0}/${score.notes[score.occurrences[id]?.noteIndex ?? -1]?.grace?.before ?? 0}`;
  const accountedFor = new Set(run.paired.pairs.map((pair) => soundOf(pair.occurrence)));
  const fromTick = slots.tick[run.paired.firstSlot] ?? 0;
  const toTick = slots.tick[run.paired.lastSlot] ?? 0;
  const missed: Missed[] = [];
  run.visits.forEach((visit, i) => {
    const stretch = stretches.find((one) => visit.visit >= one.fromVisit && visit.visit <= one.toVisit);
    if (!stretch) return;
    const brokenOff = (i === 0 && !open.first) || (i === run.visits.length - 1 && !open.last);
    const ragged = brokenOff || ((i === 0 || i === run.visits.length - 1) && !wholeBar(visit, stretch.hands));
    for (const id of byVisit[visit.visit] ?? []) {
      const occurrence = score.occurrences[id];
      if (!occurrence || !playsHand(stretch.hands, occurrence.staff) || accountedFor.has(soundOf(id))) continue;
      if (ragged && (occurrence.onsetTick < fromTick || occurrence.onsetTick > toTick)) continue;
      accountedFor.add(soundOf(id));
      missed.push({ occurrence: id, stretch: stretch.index, attempt: visit.attempt });
    }
  });
  return missed;
}

// The stretch that holds an occurrence; an ornament at the ragged end of a run belongs to its last one.
function stretchAt(score: Score, stretches: readonly Stretch[], occurrence: number): number {
  const visit = score.occurrences[occurrence]?.visitIndex ?? 0;
  return (stretches.find((one) => visit >= one.fromVisit && visit <= one.toVisit) ?? stretches.at(-1))?.index ?? 0;
}

function pairsOf(score: Score, run: VisitedRun, stretches: readonly Stretch[]): Pair[] {
  const attempts = new Map(run.visits.map((visit) => [visit.visit, visit.attempt]));
  return run.paired.pairs.map((pair) => {
    const visit = score.occurrences[pair.occurrence]?.visitIndex ?? 0;
    return { occurrence: pair.occurrence, note: pair.press, stretch: stretchAt(score, stretches, pair.occurrence), attempt: attempts.get(visit) ?? 1, octaveSlip: pair.octaveSlip };
  });
}

// Free presses of a run: those up to the next run's first one, and before the first run all that came earlier.
function freePresses(parts: Parts, taken: ReadonlySet<number>): number[][] {
  let next = 0;
  return parts.runs.map((run, r) => {
    const until = parts.runs[r + 1]?.paired.run.firstPress ?? parts.presses.length;
    const free: number[] = [];
    for (; next < until; next += 1) if (!taken.has(next)) free.push(next);
    return run.paired.pairs.length ? free : [];
  });
}

/** Seconds before the first and after the last matched note of the whole route within which a stray press still has a place in the score. */
const EDGE_S = 1;

function addedOf(leftover: Leftover, stretches: readonly Stretch[], onsetS: number): Added {
  const inside = stretches.find((one) => onsetS >= one.startS - EDGE_S && onsetS <= one.endS + EDGE_S);
  if (!inside) return { note: leftover.press, stretch: null, near: null, instead: false };
  return { note: leftover.press, stretch: inside.index, near: leftover.near, instead: leftover.instead };
}

// A wrong note is its written note missed, also where the player broke off right there and the rest of the bar is only left. What
// stands in a bar or hand that was not played at all cannot be missed: then the press is simply added.
function settleWrongNotes(parts: Parts, r: number, found: { stretches: readonly Stretch[]; missed: readonly Missed[]; added: readonly Added[] }): { missed: Missed[]; added: Added[] } {
  const attempts = new Map(parts.runs[r]?.visits.map((visit) => [visit.visit, visit.attempt]));
  const missed = [...found.missed];
  const known = new Set(missed.map((one) => one.occurrence));
  const added = found.added.map((one): Added => {
    if (!one.instead || one.near === null || known.has(one.near)) return one;
    const occurrence = parts.score.occurrences[one.near];
    const attempt = attempts.get(occurrence?.visitIndex ?? -1);
    const stretch = found.stretches.find(({ fromVisit, toVisit }) => occurrence && occurrence.visitIndex >= fromVisit && occurrence.visitIndex <= toVisit);
    if (!occurrence || !stretch || attempt === undefined || !playsHand(stretch.hands, occurrence.staff)) return { ...one, instead: false };
    known.add(one.near);
    missed.push({ occurrence: one.near, stretch: stretch.index, attempt });
    return one;
  });
  return { missed: missed.sort((a, b) => a.occurrence - b.occurrence), added };
}

/** Adds items to a list one by one: a call with all of them as arguments overflows the stack in long recordings. */
function addAll<T>(list: T[], items: readonly T[]): void {
  for (const item of items) list.push(item);
}

/** Puts the parts of an alignment together in time order. */
export function assemble(parts: Parts): Alignment {
  const { score, presses, slots } = parts;
  const byVisit = occurrencesByVisit(score);
  const taken = new Set(parts.runs.flatMap((run) => [...run.paired.pairs, ...run.paired.ornaments].map((pair) => pair.press)));
  const free = freePresses(parts, taken);
  const route: Stretch[] = [];
  const pairs: Pair[] = [];
  const missed: Missed[] = [];
  const added: Added[] = [];
  const ornaments: OrnamentNote[] = [];
  parts.runs.forEach((run, r) => {
    const stretches = stretchesOf(score, run, presses, route.length);
    addAll(route, stretches);
    addAll(pairs, pairsOf(score, run, stretches));
    addAll(ornaments, run.paired.ornaments.map(({ press, occurrence }) => ({ occurrence, note: press, stretch: stretchAt(score, stretches, occurrence) })));
    const strays = nameLeftovers(score, slots, run.paired, { presses, free: free[r] ?? [] }).map((leftover) => addedOf(leftover, stretches, presses[leftover.press]?.onsetS ?? 0));
    const settled = settleWrongNotes(parts, r, { stretches, missed: missedOf(parts, r, stretches, byVisit), added: strays });
    addAll(missed, settled.missed);
    addAll(added, settled.added);
  });
  const kinds = new Set(route.map((stretch) => stretch.hands));
  const [hands = 'both'] = kinds;
  pairs.sort((a, b) => a.note - b.note);
  return {
    pairs, missed, added, ornaments, route,
    hands: kinds.size > 1 ? 'mixed' : hands,
    transposition: parts.transposition,
    matched: presses.length ? (pairs.length + ornaments.length) / presses.length : 0,
  };
}
