/**
 * The question: did the player land where the follower says, only to jump on at once, or somewhere that leads straight to the next run?
 * Conventions: runs as cut at jumps, in time order; ticks unfolded; seconds.
 * Method: music that comes again nearly alike may win a landing by a few notes and then has to jump, without a pause, to where
 * the player really is. Where some place at which the first key is written leads straight to the next run, at about its pace, and
 * explains nearly all that the landed run does, the landed run is taken into the next: one jump instead of two. Who truly
 * jumps stops to do so. Our own rule.
 */
import { firstIndex } from '../base/index.js';
import { PAUSE_S } from './costs.js';
import type { Press } from './press.js';
import type { Slots } from './slots.js';
import type { Run } from './stretches.js';

/** The way that leads to the next run must explain at least this share of the presses that the landed run matches: a jump costs some notes, not many. */
const EXPLAINED_SHARE = 0.75;
/** Presses of a landed run that can be told from chance. */
const LEAST_PRESSES = 12;
/** Matches at the beginning of a run that tell its pace. */
const PACE_MATCHES = 24;
/** The way there may be so much quicker or slower than the next run begins, as a share. */
const PACE_WITHIN = 0.2;
/** The player stopped where nothing was struck for longer (>) than this, crotchets, and than a pause. */
const STOP_CROTCHETS = 1.5;
/** A press comes within so many crotchets of its written place. */
const NEAR_CROTCHETS = 0.5;

/** A match on the way to the next run: press and slot. */
type Match = readonly [press: number, slot: number];

/** A landed run and the one it jumps on to. */
interface Landing {
  readonly run: Run;
  readonly next: Run;
}

/** Takes landed runs into the runs that they jump on to at once, where those are reached as well without a jump. */
export function joinFalseLandings(slots: Slots, presses: readonly Press[], runs: readonly Run[], crotchetTicks: number): readonly Run[] {
  return runs.reduceRight<readonly Run[]>((later, run, place) => {
    const [next, ...rest] = later;
    // the first run is no landing: nothing was jumped from
    const matches = place === 0 || next === undefined ? [] : straightTo(slots, presses, { run, next }, crotchetTicks);
    if (next === undefined || matches.length < EXPLAINED_SHARE * run.presses.length) return [run, ...later];
    return [{ firstPress: run.firstPress, lastPress: next.lastPress, presses: [...matches.map(([press]) => press), ...next.presses], slots: [...matches.map(([, slot]) => slot), ...next.slots] }, ...rest];
  }, []);
}

// What the best way to the next run explains of a landed one; nothing where the player stopped between them.
function straightTo(slots: Slots, presses: readonly Press[], landing: Landing, crotchetTicks: number): readonly Match[] {
  const { run, next } = landing;
  const [fromS, endS, toS] = [run.firstPress, run.lastPress, next.firstPress].map((press) => presses[press]?.onsetS ?? 0);
  const pace = paceAtStart(slots, presses, next);
  if (fromS === undefined || endS === undefined || toS === undefined || run.presses.length < LEAST_PRESSES || pace <= 0 || toS - endS > Math.max(PAUSE_S, STOP_CROTCHETS * crotchetTicks * pace)) return [];
  const toTick = slots.tick[next.slots[0] ?? 0] ?? 0;
  const awayTicks = (toS - fromS) / pace;
  const starts = [...(slots.byKey[presses[run.firstPress]?.key ?? 0]?.slots ?? [])].filter((slot) => Math.abs(toTick - (slots.tick[slot] ?? 0) - awayTicks) <= PACE_WITHIN * awayTicks);
  return starts.map((start) => matchesFrom(slots, presses, { ...landing, start }, crotchetTicks)).reduce<readonly Match[]>((a, b) => (b.length > a.length ? b : a), []);
}

// Presses of a landed run that stand where going straight from a slot to the next run would put them.
function matchesFrom(slots: Slots, presses: readonly Press[], { run, next, start }: Landing & { readonly start: number }, crotchetTicks: number): readonly Match[] {
  const [fromTick, toTick] = [slots.tick[start] ?? 0, slots.tick[next.slots[0] ?? 0] ?? 0];
  const [fromS, toS] = [presses[run.firstPress]?.onsetS ?? 0, presses[next.firstPress]?.onsetS ?? 0];
  const matches: Match[] = [];
  for (let i = run.firstPress; i < next.firstPress; i += 1) {
    const press = presses[i];
    if (!press) continue;
    const tick = fromTick + ((toTick - fromTick) * (press.onsetS - fromS)) / (toS - fromS);
    const slot = nearestSlot(slots, press.key, tick);
    if (slot !== undefined && slot >= start && slot <= (next.slots[0] ?? 0) && Math.abs((slots.tick[slot] ?? 0) - tick) <= NEAR_CROTCHETS * crotchetTicks) matches.push([i, slot]);
  }
  return matches;
}

// The slot of a key that stands nearest to a moment.
function nearestSlot(slots: Slots, key: number, tick: number): number | undefined {
  const places = slots.byKey[key]?.slots ?? new Int32Array();
  const tickAt = (place: number): number => slots.tick[places[place] ?? 0] ?? 0;
  const after = firstIndex(places.length, (place) => tickAt(place) >= tick);
  return after > 0 && (after === places.length || tick - tickAt(after - 1) < tickAt(after) - tick) ? places[after - 1] : places[after];
}

// Seconds a tick lasted at the beginning of a run; 0 where it is too short to tell.
function paceAtStart(slots: Slots, presses: readonly Press[], run: Run): number {
  const last = Math.min(PACE_MATCHES, run.slots.length - 1);
  const ticks = (slots.tick[run.slots[last] ?? 0] ?? 0) - (slots.tick[run.slots[0] ?? 0] ?? 0);
  const seconds = (presses[run.presses[last] ?? 0]?.onsetS ?? 0) - (presses[run.presses[0] ?? 0]?.onsetS ?? 0);
  return ticks > 0 && seconds > 0 ? seconds / ticks : 0;
}
