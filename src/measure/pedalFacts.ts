/*
 * The teacher's question: what did the foot do at every change of harmony, and what did the ear get of it?
 *
 * Conventions: seconds; changes, smears and cuts in order of time, one list each; bars parallel to the bar facts.
 * Method: rings every note (ringing.ts), finds the changes of the way taken (changePoints.ts), splits old from new at each (oldAndNew.ts), and holds
 *   the blur of it against a clean change as late as this player's own (carriedOver.ts).
 * Source: no fixed time fits all tempi (Repp 1997), so the lag is the player's own, within what hearing grants.
 * What it does not tell: whether any of it was wanted; marks, plan and judgement say that.
 */
import { median } from 'simple-statistics';
import type { Analysis } from '../analysis/index.js';
import { firstIndex, groupBy } from '../base/index.js';
import { bassCatch } from './bassCatch.js';
import { carriedOver } from './carriedOver.js';
import { changePoints, type ChangePoint } from './changePoints.js';
import { footDowns, type FootDown } from './footCurve.js';
import { footAround, type FootAround } from './footMoves.js';
import { gapBefore } from './gapBefore.js';
import { innerPoints, oldAndNew, writtenGround, type InnerPoint, type OldNew, type RingingNote } from './oldAndNew.js';
import { pedalCuts } from './pedalCuts.js';
import { downShare, pedalHabits } from './pedalHabits.js';
import { pedalWords } from './pedalWords.js';
import type { BarPedal, PedalChange, PedalFacts, PedalSmear } from './pedalTypes.js';
import type { Piece } from './piece.js';
import { plausibleFoot } from './plausibleFoot.js';
import { ringsOf } from './ringing.js';
import { roughnessTeller, type RoughnessTeller } from './soundingRoughness.js';
import { stretchNotes } from './stretchNotes.js';
import type { BarFacts } from './types.js';
import { writtenChanges } from './writtenChanges.js';
import { visitAtTick, type Score } from '../score/index.js';

/** A clean change lifts with the new sound; a player's own lag is granted within these limits, seconds: below the least nobody hears it, above the most everybody. */
const OWN_LAG_S = { least: 0.05, most: 0.2 } as const;

/** Of a short harmony the lag may take at most this share: with the tempo it becomes shorter (Repp 1997). Our own rule. */
const LAG_SHARE = 0.3;

/** Fewest changes (>=) that tell a player's own lag. */
const LEAST_CHANGES = 4;

/** How many notes before a change tell whether there is a hole. */
const LAST_NOTES = 8;

/** What the pedal is told from. */
export interface PedalPiece extends Piece {
  readonly analysis: Pick<Analysis, 'harmonies' | 'pedalPlan'>;
}

/** A change with all it is told from. */
interface Told {
  readonly point: ChangePoint;
  readonly sounds: OldNew;
  readonly around: FootAround;
  readonly notes: readonly RingingNote[];
}

/** All that is measured of the pedal. */
export function pedalFacts(piece: PedalPiece, bars: readonly BarFacts[]): PedalFacts {
  const { recording, score, analysis, alignment } = piece;
  const sustain = plausibleFoot(recording.sustain);
  const rings = ringsOf({ ...recording, sustain });
  const downs = footDowns(sustain, recording.durationS);
  const ground = writtenGround(score, analysis);
  const changesOf = { score, harmonies: analysis.harmonies, written: writtenChanges(analysis) };
  const stretches = stretchNotes(piece).map((plain, index) => {
    const notes = plain.flatMap((note): RingingNote[] => {
      const ring = rings[note.note];
      return ring === undefined ? [] : [{ ...note, ring }];
    });
    const stretch = alignment.route[index];
    const points = stretch === undefined ? [] : changePoints(changesOf, stretch, notes);
    const sounds = oldAndNew(ground, notes, points);
    const told = points.flatMap((point, i): Told[] => {
      const sound = sounds[i];
      return sound === undefined ? [] : [{ point, sounds: sound, around: footAround(downs, point), notes }];
    });
    return { notes, told, inner: innerPoints(ground, points, sounds) };
  });
  const ownLagS = ownLag(stretches.flatMap(({ told }) => told));
  const rough = roughnessTeller();
  const changes = stretches.flatMap(({ told }) => told.map((one) => changeOf(one, ownLagS, rough)));
  const music = stretches.flatMap(({ notes }) => {
    const [first, last] = [notes[0], notes.at(-1)];
    return first === undefined || last === undefined ? [] : [{ fromS: first.onsetS, toS: last.onsetS }];
  });
  return { downs, changes, smears: stretches.flatMap(({ inner }) => inner.flatMap((one) => smearOf(score, one, rough))), cuts: pedalCuts(rings, downs), habits: pedalHabits(recording, changes, { downs, music }), words: pedalWords(piece), bars: barPedals(bars, changes, downs) };
}

/** How late this player's foot lifts in changes, within what hearing grants. */
function ownLag(told: readonly Told[]): number {
  const lags = told.flatMap(({ around: { foot, liftS } }) => (foot === 'changed' && liftS !== null && liftS >= 0 && liftS <= 2 * OWN_LAG_S.most ? [liftS] : []));
  const own = lags.length < LEAST_CHANGES ? OWN_LAG_S.least : median(lags);
  return Math.min(OWN_LAG_S.most, Math.max(OWN_LAG_S.least, own));
}

/** One change with everything measured of it. */
function changeOf({ point, sounds, around, notes }: Told, ownLagS: number, rough: RoughnessTeller): PedalChange {
  const { stretch, visitIndex, tick, untilTick, writtenTick, harmony, certainty, soundS, untilS } = point;
  const lagS = Math.min(ownLagS, LAG_SHARE * (untilS - soundS));
  const liftS = around.foot === 'changed' || around.foot === 'lifted' ? (around.liftS ?? Infinity) : around.foot === 'pressed' ? -Infinity : Infinity;
  const upTo = firstIndex(notes.length, (i) => (notes[i]?.onsetS ?? Infinity) >= point.soundS);
  const last = notes.slice(Math.max(0, upTo - LAST_NOTES), upTo).filter((note) => note.tick === null || note.tick < tick);
  return {
    stretch, visitIndex, tick, untilTick, writtenTick, harmony, certainty, soundS, untilS, ...around,
    ...carriedOver(point, sounds, { lagS, liftS, rough }),
    gapS: gapBefore({ point, sounds, around, last }),
    bass: bassCatch(point, sounds),
  };
}

/** Foreign notes that ring on into their harmony; nothing where none is heard. */
function smearOf(score: Score, { point: { stretch, harmony }, tick, soundS, untilS, sounds }: InnerPoint, rough: RoughnessTeller): readonly PedalSmear[] {
  if (harmony === null) return [];
  const blur = carriedOver({ soundS, untilS }, sounds, { lagS: OWN_LAG_S.least, liftS: Infinity, rough });
  if (blur.blur <= 0) return [];
  const visit = visitAtTick(score, tick);
  const writtenTick = (score.bars[visit.barIndex]?.startTick ?? 0) + tick - visit.startTick;
  return [{ stretch, visitIndex: visit.index, tick, writtenTick, harmony, soundS, untilS, ...blur }];
}

/** One entry a visit. */
function barPedals(bars: readonly BarFacts[], changes: readonly PedalChange[], downs: readonly FootDown[]): readonly BarPedal[] {
  const byVisit = groupBy(changes, ({ stretch, visitIndex }) => `${stretch} ${visitIndex}`);
  return bars.map((bar, i) => {
    const next = bars[i + 1];
    const toS = next !== undefined && next.stretch === bar.stretch && next.startS > bar.startS ? next.startS : bar.endS;
    const blur = (byVisit.get(`${bar.stretch} ${bar.visitIndex}`) ?? []).reduce((worst, change) => Math.max(worst, change.blur), 0);
    return { downShare: downShare(downs, { fromS: bar.startS, toS }), blur };
  });
}
