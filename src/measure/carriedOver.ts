/*
 * The teacher's question: what of the old harmony still sounds in the new one, how loud, for how long, and how bad is it?
 *
 * Conventions: seconds after the new sound began; `blur` 0-1; levels in dB.
 * Method: every 50 ms of the new harmony (at most `LONGEST_S`) each old note that is foreign to it weighs by how it jars (clash.ts) and by how loud it is against
 *   all that is new: in full when as loud, nothing at `MASKED_DB` under it. Weights add as chances do. The same is done for a clean
 *   change, in which the dampers fall with the new sound or as late as this player's own clean changes; what is beyond it counts. The blur is
 *   1 − e^(−sum / `BLUR_S`): half a second of full clash gives 0.63. Notes that a finger holds are not the foot's.
 * Source: our own rule, on levels and clashes whose sources stand in their files.
 * What it does not tell: whether a blur is wanted; marks and plan say that.
 */
import { clashOf } from './clash.js';
import type { OldNew, RingingNote } from './oldAndNew.js';
import type { Blur, CarriedNote, OldAndNew } from './pedalTypes.js';
import { levelAt, levelIfDamped, SILENT_DB } from './ringing.js';
import type { RoughnessTeller } from './soundingRoughness.js';
import { togetherDb } from './velocityLevel.js';

/** Time between two looks, seconds: half of what a damper needs in the treble. */
const STEP_S = 0.05;

/** A harmony is looked at for at most so long, seconds; what jars has been heard by then. */
const LONGEST_S = 4;

/** An old note so far (<=) under the new sound is covered by it, dB. Our own rule: a twentieth of the amplitude. */
export const MASKED_DB = -26;

/** Weighed seconds after which a blur counts as most of what it can be (63 %). */
const BLUR_S = 0.5;

/** Roughness is taken, and the course kept, at every so many looks, and at the first. */
const COURSE_STEPS = 2;

/** Nothing carried over. */
const NOTHING: Blur = { carried: [], overlapS: 0, blur: 0, blurParts: { heldOver: 0, caught: 0 }, roughness: null, course: [] };

/** When new sound begins and the next one does, seconds. */
export interface Sounding {
  readonly soundS: number;
  readonly untilS: number;
}

/** How a change is looked at. */
export interface Listening {
  /** How long after the new sound this player's foot lifts in a clean change, seconds. */
  readonly lagS: number;
  /** When the foot lifts at this change, seconds after the new sound; infinite where it does not. */
  readonly liftS: number;
  readonly rough: RoughnessTeller;
}

/** A foreign note and what is heard of it. */
interface Foreign {
  readonly note: RingingNote;
  readonly clash: number;
  lastsS: number;
}

/** Everything of one change while it is listened to. */
interface Change {
  readonly point: Sounding;
  readonly sounds: OldNew;
  readonly foreign: readonly Foreign[];
  readonly damperS: number;
}

/** What was carried over one change. */
export function carriedOver(point: Sounding, sounds: OldNew, listening: Listening): Blur {
  const foreign = sounds.old.map((note): Foreign => ({ note, clash: clashOf(note.ring.pitch, sounds.harmony), lastsS: 0 })).filter(({ clash }) => clash > 0);
  if (foreign.length === 0 || sounds.fresh.length === 0) return NOTHING;
  const change: Change = { point, sounds, foreign, damperS: point.soundS + listening.lagS };
  const looks = Math.ceil(Math.min(LONGEST_S, point.untilS - point.soundS) / STEP_S);
  const sum = { heldOver: 0, caught: 0, overlapS: 0, played: 0, clean: 0, looks: 0 };
  const course: OldAndNew[] = [];
  for (let look = 0; look < looks; look += 1) {
    const atS = look * STEP_S;
    const heard = lookAt(change, point.soundS + atS);
    if (heard.excess <= 0) continue;
    sum[atS < listening.liftS ? 'heldOver' : 'caught'] += heard.excess * STEP_S;
    sum.overlapS = atS + STEP_S;
    if (sum.looks > 0 && look % COURSE_STEPS !== 0) continue;
    const rough = roughnessAtLook(change, point.soundS + atS, listening.rough);
    sum.played += rough.played;
    sum.clean += rough.clean;
    sum.looks += 1;
    course.push({ atS, oldDb: known(heard.oldDb), newDb: known(heard.newDb) });
  }
  if (sum.looks === 0) return NOTHING;
  return {
    carried: carriedNotes(change), overlapS: sum.overlapS, course,
    blur: saturated(sum.heldOver + sum.caught),
    blurParts: { heldOver: saturated(sum.heldOver), caught: saturated(sum.caught) },
    roughness: { played: sum.played / sum.looks, clean: sum.clean / sum.looks },
  };
}

/** Weighed seconds as 0-1. */
function saturated(weighedS: number): number {
  return 1 - Math.exp(-weighedS / BLUR_S);
}

/** A level that files can carry. */
function known(levelDb: number): number | null {
  return Number.isFinite(levelDb) ? levelDb : null;
}

/** Old against new at one moment: the blur beyond that of a clean change. */
function lookAt({ sounds, foreign, damperS }: Change, timeS: number): { readonly excess: number; readonly oldDb: number; readonly newDb: number } {
  const newDb = totalDb(sounds.fresh, timeS);
  let [played, clean] = [1, 1];
  const levels: number[] = [];
  for (const one of foreign) {
    const level = levelAt(one.note.ring, timeS);
    const damped = levelIfDamped(one.note.ring, damperS, timeS);
    const [heard, left] = [audible(level, newDb), audible(damped, newDb)];
    levels.push(level);
    played *= 1 - heard * one.clash;
    clean *= 1 - left * one.clash;
    if (heard > 0 && left === 0) one.lastsS += STEP_S;
  }
  return { excess: Math.max(0, clean - played), oldDb: togetherDb(levels), newDb };
}

/** 0-1: how much of an old note is heard through the new sound; nothing jars with silence. */
function audible(levelDb: number, newDb: number): number {
  return newDb <= SILENT_DB || levelDb === -Infinity ? 0 : Math.min(1, Math.max(0, (levelDb - newDb - MASKED_DB) / -MASKED_DB));
}

/** Level of several notes together; minus infinity in silence. */
function totalDb(notes: readonly RingingNote[], timeS: number): number {
  return togetherDb(notes.map(({ ring }) => levelAt(ring, timeS)));
}

/** Roughness of all that sounds, as played and with a clean change. */
function roughnessAtLook({ sounds, damperS }: Change, timeS: number, rough: RoughnessTeller): { readonly played: number; readonly clean: number } {
  const fresh = sounds.fresh.map(({ ring }) => ({ pitch: ring.pitch, levelDb: levelAt(ring, timeS) })).filter(({ levelDb }) => levelDb > SILENT_DB);
  const of = (levelOf: (note: RingingNote) => number): number =>
    rough([...fresh, ...sounds.old.map((note) => ({ pitch: note.ring.pitch, levelDb: levelOf(note) })).filter(({ levelDb }) => levelDb > SILENT_DB)]);
  return { played: of(({ ring }) => levelAt(ring, timeS)), clean: of(({ ring }) => levelIfDamped(ring, damperS, timeS)) };
}

/** The foreign notes that are heard, the worst first. */
function carriedNotes({ point, sounds, foreign, damperS }: Change): readonly CarriedNote[] {
  return foreign
    .filter(({ lastsS }) => lastsS > 0)
    .map(({ note, clash, lastsS }) => {
      const timeS = Math.max(damperS, point.soundS) + STEP_S;
      const against = levelAt(note.ring, timeS) - totalDb(sounds.fresh, timeS);
      return { note: note.note, noteIndex: note.noteIndex, pitch: note.ring.pitch, clash, lastsS, againstNewDb: Number.isFinite(against) ? against : MASKED_DB };
    })
    .sort((a, b) => b.clash * b.lastsS - a.clash * a.lastsS);
}
