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
import { damping, levelAt, levelFollower, SILENT_DB } from './ringing.js';
import type { RoughnessOf, RoughnessTeller } from './soundingRoughness.js';
import { energyOf, togetherDb } from './velocityLevel.js';

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

/** A note while it is listened to, at moments that never go back. */
interface Voice {
  readonly note: RingingNote;
  readonly playedDb: (timeS: number) => number;
  /** With a clean change, from the level as played. */
  readonly cleanDb: (timeS: number, playedDb: number) => number;
}

/** A foreign note and what is heard of it. */
interface Foreign extends Voice {
  readonly clash: number;
  lastsS: number;
}

/** Everything of one change while it is listened to. */
interface Change {
  readonly point: Sounding;
  readonly sounds: OldNew;
  readonly fresh: readonly Voice[];
  readonly old: readonly Voice[];
  readonly foreign: readonly Foreign[];
  readonly damperS: number;
}

/** What was carried over one change. */
export function carriedOver(point: Sounding, sounds: OldNew, listening: Listening): Blur {
  const lengthS = Math.min(LONGEST_S, point.untilS - point.soundS);
  const change = changeOf(point, sounds, { lengthS, lagS: listening.lagS });
  if (change.foreign.length === 0 || sounds.fresh.length === 0) return NOTHING;
  let rough: RoughnessOf | null = null;
  const sum = { heldOver: 0, caught: 0, overlapS: 0, played: 0, clean: 0, looks: 0 };
  const course: OldAndNew[] = [];
  for (let look = 0; look < Math.ceil(lengthS / STEP_S); look += 1) {
    const atS = look * STEP_S;
    const heard = lookAt(change, point.soundS + atS);
    if (heard.oldDb === -Infinity) break;
    if (heard.excess <= 0) continue;
    sum[atS < listening.liftS ? 'heldOver' : 'caught'] += heard.excess * STEP_S;
    sum.overlapS = atS + STEP_S;
    if (sum.looks > 0 && look % COURSE_STEPS !== 0) continue;
    rough ??= listening.rough([...change.fresh, ...change.old].map(({ note }) => note.ring.pitch));
    const { played, clean } = amplitudesAt(change, point.soundS + atS);
    sum.played += rough(played);
    sum.clean += rough(clean);
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

/** A change ready to be listened to for so many seconds. */
function changeOf(point: Sounding, sounds: OldNew, { lengthS, lagS }: Pick<Listening, 'lagS'> & { readonly lengthS: number }): Change {
  const damperS = point.soundS + lagS;
  const voiceOf = (note: RingingNote): Voice => ({ note, playedDb: levelFollower(note.ring), cleanDb: damping(note.ring, damperS) });
  const fresh = sounds.fresh.filter(({ ring }) => ring.onsetS < point.soundS + lengthS);
  const foreign = sounds.old.map((note): Foreign => ({ ...voiceOf(note), clash: clashOf(note.ring.pitch, sounds.harmony), lastsS: 0 })).filter(({ clash }) => clash > 0);
  return { point, sounds, fresh: fresh.map(voiceOf), old: sounds.old.map(voiceOf), foreign, damperS };
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
function lookAt({ fresh, foreign }: Change, timeS: number): { readonly excess: number; readonly oldDb: number; readonly newDb: number } {
  let [newEnergy, oldEnergy, played, clean] = [0, 0, 1, 1];
  for (const { playedDb } of fresh) newEnergy += energyOf(playedDb(timeS));
  const newDb = 10 * Math.log10(newEnergy);
  for (const one of foreign) {
    const level = one.playedDb(timeS);
    if (level === -Infinity) continue;
    const [heard, left] = [audible(level, newDb), audible(one.cleanDb(timeS, level), newDb)];
    oldEnergy += energyOf(level);
    played *= 1 - heard * one.clash;
    clean *= 1 - left * one.clash;
    if (heard > 0 && left === 0) one.lastsS += STEP_S;
  }
  return { excess: Math.max(0, clean - played), oldDb: 10 * Math.log10(oldEnergy), newDb };
}

/** 0-1: how much of an old note is heard through the new sound; nothing jars with silence. */
function audible(levelDb: number, newDb: number): number {
  return newDb <= SILENT_DB || levelDb === -Infinity ? 0 : Math.min(1, Math.max(0, (levelDb - newDb - MASKED_DB) / -MASKED_DB));
}

/** Level of several notes together; minus infinity in silence. */
function totalDb(notes: readonly RingingNote[], timeS: number): number {
  return togetherDb(notes.map(({ ring }) => levelAt(ring, timeS)));
}

/** Amplitudes of the new notes and then the old ones, as played and with a clean change. */
function amplitudesAt({ fresh, old }: Change, timeS: number): { readonly played: Float64Array; readonly clean: Float64Array } {
  const played = new Float64Array(fresh.length + old.length);
  fresh.forEach(({ playedDb }, i) => { played[i] = amplitudeOf(playedDb(timeS)); });
  const clean = played.slice();
  old.forEach(({ playedDb, cleanDb }, i) => {
    const level = playedDb(timeS);
    played[fresh.length + i] = amplitudeOf(level);
    clean[fresh.length + i] = amplitudeOf(cleanDb(timeS, level));
  });
  return { played, clean };
}

/** Linear amplitude of a level, 1 at 0 dB; 0 where nothing is heard any more. */
function amplitudeOf(levelDb: number): number {
  return levelDb > SILENT_DB ? Math.sqrt(energyOf(levelDb)) : 0;
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
