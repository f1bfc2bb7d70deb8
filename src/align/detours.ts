/**
 * The question: did the player really jump away and back, or only play something else for a moment?
 * Conventions: runs as cut at jumps; ticks unfolded; seconds.
 * Method: where a later run begins just where the player would have been by then without any jump, the runs between are a
 * detour on paper only. It is undone when playing straight on explains enough of the same presses. Another edition's
 * version of some bars looks like this; somebody who goes back or jumps on never arrives on time. Our own rule.
 */
import type { Press } from './press.js';
import type { Slots } from './slots.js';
import type { Run } from './stretches.js';

/** Runs that a detour may consist of. */
const MAX_RUNS = 4;
/** Presses that a detour may hold: some bars. More is a way of its own. */
const MAX_PRESSES = 150;
/** Straight on must explain at least this share of the presses that the detour explains. */
const STRAIGHT_SHARE = 0.4;
/** "On time": within this share of the time away, and never nearer than a crotchet counts. */
const ON_TIME_SHARE = 0.15;
/** Matches of a run that tell its pace. */
const PACE_MATCHES = 24;
/** A straight press comes within so many crotchets of its written place. */
const NEAR_CROTCHETS = 0.5;

interface Gap {
  readonly fromSlot: number;
  readonly toSlot: number;
  readonly fromS: number;
  readonly toS: number;
}

// Seconds a tick lasted towards the end (or after the beginning) of a run; 0 where it is too short to tell.
function paceOf(slots: Slots, presses: readonly Press[], run: Run): number {
  const first = Math.max(0, run.slots.length - PACE_MATCHES);
  const ticks = (slots.tick[run.slots.at(-1) ?? 0] ?? 0) - (slots.tick[run.slots[first] ?? 0] ?? 0);
  const seconds = (presses[run.presses.at(-1) ?? 0]?.onsetS ?? 0) - (presses[run.presses[first] ?? 0]?.onsetS ?? 0);
  return ticks > 0 && seconds > 0 ? seconds / ticks : 0;
}

function gapBetween(presses: readonly Press[], before: Run, after: Run): Gap {
  return {
    fromSlot: before.slots.reduce((a, b) => Math.max(a, b), 0),
    toSlot: after.slots[0] ?? 0,
    fromS: presses[before.lastPress]?.onsetS ?? 0,
    toS: presses[after.firstPress]?.onsetS ?? 0,
  };
}

function arrivesOnTime(slots: Slots, gap: Gap, pace: number, crotchetTicks: number): boolean {
  const ticks = (slots.tick[gap.toSlot] ?? 0) - (slots.tick[gap.fromSlot] ?? 0);
  if (ticks <= 0 || pace <= 0) return false;
  const away = gap.toS - gap.fromS;
  return Math.abs(away - ticks * pace) <= Math.max(crotchetTicks * pace, ON_TIME_SHARE * away);
}

// How many presses of the gap stand where playing straight on would put them.
function straightHits(slots: Slots, presses: readonly Press[], span: { gap: Gap; first: number; last: number; crotchetTicks: number }): number {
  const { gap } = span;
  const fromTick = slots.tick[gap.fromSlot] ?? 0;
  const toTick = slots.tick[gap.toSlot] ?? 0;
  let hits = 0;
  for (let i = span.first; i <= span.last; i += 1) {
    const press = presses[i];
    if (!press) continue;
    const tick = fromTick + ((toTick - fromTick) * (press.onsetS - gap.fromS)) / (gap.toS - gap.fromS);
    const places = slots.byKey[press.key]?.slots ?? [];
    if (places.some((slot) => slot >= gap.fromSlot && slot <= gap.toSlot && Math.abs((slots.tick[slot] ?? 0) - tick) <= NEAR_CROTCHETS * span.crotchetTicks)) hits += 1;
  }
  return hits;
}

/** Undoes detours that lead back on time; everything else is left as it is. */
export function undoDetours(slots: Slots, presses: readonly Press[], runs: readonly Run[], crotchetTicks: number): Run[] {
  const kept: Run[] = [];
  for (let i = 0; i < runs.length; i += 1) {
    const run = runs[i];
    const before = kept.at(-1);
    if (!run) continue;
    const end = before ? detourEnd(slots, presses, { before, runs, from: i, crotchetTicks }) : -1;
    const after = runs[end];
    if (!before || !after) { kept.push(run); continue; }
    kept[kept.length - 1] = { firstPress: before.firstPress, lastPress: after.lastPress, presses: [...before.presses, ...after.presses], slots: [...before.slots, ...after.slots] };
    i = end;
  }
  return kept;
}

// The run at which a detour that begins with run `from` comes back on time, or -1.
function detourEnd(slots: Slots, presses: readonly Press[], look: { before: Run; runs: readonly Run[]; from: number; crotchetTicks: number }): number {
  const { before, runs, from, crotchetTicks } = look;
  const pace = paceOf(slots, presses, before);
  let matched = 0;
  for (let end = from + 1; end < runs.length && end <= from + MAX_RUNS; end += 1) {
    matched += runs[end - 1]?.presses.length ?? 0;
    const after = runs[end];
    if (!after || matched > MAX_PRESSES) break;
    const gap = gapBetween(presses, before, after);
    if (!arrivesOnTime(slots, gap, pace, crotchetTicks)) continue;
    const hits = straightHits(slots, presses, { gap, first: before.lastPress + 1, last: after.firstPress - 1, crotchetTicks });
    if (hits >= STRAIGHT_SHARE * matched) return end;
  }
  return -1;
}
