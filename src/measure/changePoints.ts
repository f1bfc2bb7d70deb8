/*
 * The teacher's question: when did each harmony, and each marked pedal, begin to sound?
 *
 * Conventions: seconds; unfolded ticks; one list a stretch of the route, in order.
 * Method: the harmonies of every bar along the way taken, and the marks that stand where no harmony begins. Each begins with the first
 *   onset of its notes; one without a note of its own goes on with the one before.
 * Source: our own rule.
 * What it does not tell: whether the harmony is told rightly; its certainty is that of the analysis, of both sides the lesser.
 */
import type { Analysis } from '../analysis/index.js';
import { firstIndex } from '../base/index.js';
import type { Stretch } from '../align/index.js';
import type { Score } from '../score/index.js';
import type { ChangeMoment } from './pedalTypes.js';
import type { StretchNote } from './stretchNotes.js';
import type { WrittenChange } from './writtenChanges.js';

/** A change with the moment at which the one before it began. */
export interface ChangePoint extends ChangeMoment {
  /** Seconds; minus infinity for the first. */
  readonly beforeS: number;
}

/** What a change is before it is known when it sounded. */
type UnfoldedChange = WrittenChange & Pick<ChangePoint, 'visitIndex' | 'tick'>;

/** What the changes are told from. */
export interface ChangeGround {
  readonly score: Score;
  readonly harmonies: Analysis['harmonies'];
  readonly written: readonly WrittenChange[];
}

/** The changes of one stretch. `notes` are the stretch's notes in order of time. */
export function changePoints(ground: ChangeGround, stretch: Stretch, notes: readonly StretchNote[]): readonly ChangePoint[] {
  const { score } = ground;
  const begun = sounding(score.order.slice(stretch.fromVisit, stretch.toVisit + 1).flatMap(({ index }) => changesIn(ground, index)), notes);
  const endS = notes.reduce((last, { releaseS }) => Math.max(last, releaseS), 0);
  const endTick = endOf(score, stretch.toVisit);
  return begun.map(({ soundS, ...change }, i) => {
    const next = begun[i + 1];
    return {
      ...change, stretch: stretch.index, soundS, untilTick: next?.tick ?? endTick, untilS: next?.soundS ?? Math.max(endS, soundS),
      beforeS: begun[i - 1]?.soundS ?? -Infinity, certainty: certaintyOf(ground, change, begun[i - 1]),
    };
  });
}

/** Unfolded end of a visit. */
function endOf({ order, bars }: Score, visitIndex: number): number {
  const visit = order[visitIndex];
  return visit === undefined ? 0 : visit.startTick + (bars[visit.barIndex]?.lengthTicks ?? 0);
}

/** The changes that stand in a visit. */
function changesIn({ score, written }: ChangeGround, visitIndex: number): readonly UnfoldedChange[] {
  const visit = score.order[visitIndex];
  const bar = visit === undefined ? undefined : score.bars[visit.barIndex];
  if (visit === undefined || bar === undefined) return [];
  const from = firstIndex(written.length, (i) => (written[i]?.writtenTick ?? 0) >= bar.startTick);
  const to = firstIndex(written.length, (i) => (written[i]?.writtenTick ?? 0) >= bar.startTick + bar.lengthTicks, from);
  return written.slice(from, to).map((change) => ({ ...change, visitIndex, tick: visit.startTick + change.writtenTick - bar.startTick }));
}

/** Those that begin with a note, each with the first of its onsets. */
function sounding(written: readonly UnfoldedChange[], notes: readonly StretchNote[]): readonly (UnfoldedChange & { readonly soundS: number })[] {
  const first = new Map<number, number>();
  for (const { tick, grace, onsetS } of notes) {
    if (tick !== null && !grace) first.set(tick, Math.min(first.get(tick) ?? Infinity, onsetS));
  }
  const ticks = [...first.keys()].sort((a, b) => a - b);
  const begun: (UnfoldedChange & { readonly soundS: number })[] = [];
  let place = 0;
  written.forEach((change, i) => {
    while (place < ticks.length && (ticks[place] ?? 0) < change.tick) place += 1;
    const tick = ticks[place];
    if (tick === undefined || tick >= (written[i + 1]?.tick ?? Infinity)) return;
    const soundS = first.get(tick) ?? 0;
    if (soundS > (begun.at(-1)?.soundS ?? -Infinity)) begun.push({ ...change, soundS });
  });
  return begun;
}

/** The lesser confidence of the two harmonies; a first chord changes nothing, and a mark alone is no harmony. */
function certaintyOf({ harmonies }: ChangeGround, { harmony }: UnfoldedChange, before: UnfoldedChange | undefined): number {
  const [then = 0, now = 0] = [before?.harmony ?? null, harmony].map((place) => (place === null ? 0 : (harmonies[place]?.confidence ?? 0)));
  return Math.min(then, now);
}
