/*
 * The pedal over a change of harmony: the old blurs into the new, or is caught by the press.
 *
 * What is a fault: a clash that is heard, over a change of harmony that is certain enough; the less certain it is, the plainer the clash has to
 * be. A harmony too quick for a foot asks for no change. What rings by mark or plan is right, and so is one long marked pedal. Foreign notes that smear inside one harmony are a fault only
 * where they are plainly heard.
 */
import { median, quantile } from 'simple-statistics';
import type { Blur, PedalChange, PedalSmear } from '../measure/index.js';
import { mayRingOver, pedalFinding, type PedalGround } from './pedalGround.js';
import type { Finding } from './types.js';

/** Blur (0-1) that counts (>=) where both harmonies are sure: about 0.15 s of full clash. Our own rule: order of the time dampers need. */
export const BLUR_SURE = 0.25;

/** Blur that counts (>=) whatever the harmony: a clash that is plainly heard, about 0.35 s in full. Our own rule. */
export const BLUR_PLAIN = 0.5;

/** Harmonies this sure (>=) are sure, and those less sure than the other (<=) are not, 0-1; between them the threshold runs evenly. */
const CERTAINTY = { sure: 0.8, unsure: 0.5 } as const;

/**
 * No foot changes for a harmony that is over sooner (<), seconds: legs press about three times a second at the most (teachers' common practice). What
 * rings on beyond it is told of the next one.
 */
const LEAST_HARMONY_S = 0.35;

/** A press earlier (<) than this before the new sound belongs to the old one: what it carries over is held over, not caught. Seconds. */
const CAUGHT_FROM_S = -0.3;

/**
 * What is caught by a quick change counts only (>=) from so many times the upper quartile of this player's own changes on, at `most` in any case,
 * where there are so many changes (>=): dampers differ, and a player is compared with the own normal (Repp 1997 found no fixed time).
 */
const OWN = { times: 1.5, most: 0.6, changes: 8 } as const;

/**
 * A foot that was up for longer (>) than this share of what this player's own changes usually take gave the dampers their time; what little they
 * leave is the instrument's. Where there are `OWN.changes` to tell it from. Our own rule.
 */
const QUICK_SHARE = 0.5;

/** Which share of the blur (>=) must lie after the press for it to be caught. */
const CAUGHT_SHARE = 0.5;

/** How sure the program is of a blur over a sure change, and of one that rests on the clash alone. */
const CONFIDENCE = { sure: 0.95, plain: 0.7 } as const;

/**
 * A smear inside one harmony counts (>=) from `least` on where this player's own smears in the piece are slight, and from so many times their
 * upper quartile where they are not, at `most` in any case: a line under the pedal always smears a little. Our own rule.
 */
const SMEAR = { least: 0.42, times: 2.5, most: 0.6 } as const;

/** From here up (>=), MIDI number, passing notes and suspensions may ring over a held bass: C5, teachers' common practice. */
const MAY_RING_FROM = 72;

/** A smear inside one harmony is heard less than a blur of two. Our own rule. */
const SMEAR_HEARD = 0.7;

/** Blurs, catches and smears of one recording. */
export function blurFindings(ground: PedalGround): readonly Finding[] {
  const { changes, smears } = ground.facts;
  const usual = smears.length === 0 ? 0 : quantile(smears.map(({ blur }) => blur), 0.75);
  const own: OwnChanges = { catch: usualCatch(changes), upS: usualUp(changes) };
  const threshold = Math.min(SMEAR.most, Math.max(SMEAR.least, SMEAR.times * usual));
  return [...changes.flatMap((change) => changeFinding(ground, change, own)), ...smears.flatMap((smear) => smearFinding(ground, smear, threshold))];
}

/** From which blur on a change is remarked on, by how sure its harmonies are. */
export function blurThreshold(certainty: number): number {
  return BLUR_PLAIN + surety(certainty) * (BLUR_SURE - BLUR_PLAIN);
}

/** 0-1: how far a certainty (0-1) is on its way from unsure to sure. */
function surety(certainty: number): number {
  return Math.min(1, Math.max(0, (certainty - CERTAINTY.unsure) / (CERTAINTY.sure - CERTAINTY.unsure)));
}

/** Which of the two faults a blurred change is. */
export function kindOfBlur({ foot, pressS, blurParts }: PedalChange): 'blurred' | 'caught' {
  const pressed = (foot === 'changed' || foot === 'pressed') && pressS !== null && pressS >= CAUGHT_FROM_S;
  return pressed && blurParts.caught >= CAUGHT_SHARE * (blurParts.caught + blurParts.heldOver) ? 'caught' : 'blurred';
}

/** From which blur on a catch stands out of this player's own changes; 0 where there are too few. */
function usualCatch(changes: readonly PedalChange[]): number {
  const own = changes.filter(({ foot }) => foot === 'changed').map(({ blur }) => blur);
  return own.length < OWN.changes ? 0 : Math.min(OWN.most, OWN.times * quantile(own, 0.75));
}

/** What is usual in this player's own changes; 0 where there are too few to tell. */
interface OwnChanges {
  /** Blur from which on a catch stands out, 0-1. */
  readonly catch: number;
  /** How long the foot is up, seconds. */
  readonly upS: number;
}

/** How long the foot is up in this player's own changes, seconds; 0 where there are too few. */
function usualUp(changes: readonly PedalChange[]): number {
  const own = changes.flatMap((change) => (change.foot === 'changed' ? upTime(change) : []));
  return own.length < OWN.changes ? 0 : median(own);
}

/** How long the foot was up, seconds; empty where it did not go up and down again. */
function upTime({ liftS, pressS }: PedalChange): readonly number[] {
  return liftS === null || pressS === null ? [] : [pressS - liftS];
}

/** True where the key of the worst was up, and the foot no quicker than this player's usually is: then nothing was caught that could have been let go. */
function clearsAsUsual({ input }: PedalGround, change: PedalChange, usualS: number): boolean {
  const { soundS, pressS, carried } = change;
  if (pressS === null || usualS === 0) return false;
  const worst = input.recording.notes[carried[0]?.note ?? -1];
  const keysUp = worst !== undefined && worst.releaseS <= soundS + pressS;
  return keysUp && upTime(change).some((upS) => upS > QUICK_SHARE * usualS);
}

/** One change. */
function changeFinding(ground: PedalGround, change: PedalChange, own: OwnChanges): readonly Finding[] {
  const visit = ground.visit(change.stretch, change.visitIndex);
  const kind = kindOfBlur(change);
  const least = blurThreshold(change.certainty);
  const threshold = kind === 'caught' ? Math.max(least, own.catch) : least;
  if (kind === 'caught' && clearsAsUsual(ground, change, own.upS)) return [];
  if (visit === undefined || change.untilS - change.soundS < LEAST_HARMONY_S || change.blur < threshold || mayRingOver(ground.planAt(change.writtenTick), change)) return [];
  const share = (BLUR_PLAIN - least) / (BLUR_PLAIN - BLUR_SURE);
  return [pedalFinding({
    kind, visit, notes: notesOf(change), startS: change.soundS, ...evidence(change, threshold),
    confidence: CONFIDENCE.plain + share * (CONFIDENCE.sure - CONFIDENCE.plain),
  })];
}

/** Foreign notes that ring on into their own harmony. Where that is unsure they may be one of their own, and a plain clash is as much as over a change. */
function smearFinding(ground: PedalGround, smear: PedalSmear, usual: number): readonly Finding[] {
  const visit = ground.visit(smear.stretch, smear.visitIndex);
  const sure = surety(ground.input.analysis.harmonies[smear.harmony]?.confidence ?? 0);
  const threshold = Math.min(usual, BLUR_PLAIN + sure * (usual - BLUR_PLAIN));
  if (smear.carried.every(({ pitch }) => pitch >= MAY_RING_FROM)) return [];
  if (visit === undefined || smear.blur < threshold || mayRingOver(ground.planAt(smear.writtenTick), smear)) return [];
  return [pedalFinding({ kind: 'smeared', visit, notes: notesOf(smear), startS: smear.soundS, ...evidence(smear, threshold), confidence: CONFIDENCE.plain, heard: SMEAR_HEARD })];
}

/** The blur as weighed seconds, in which twice is twice as much. */
function evidence({ blur, overlapS }: Blur, threshold: number): { readonly value: number; readonly unit: string; readonly threshold: number; readonly ratio: number } {
  const weighed = (value: number): number => -Math.log(1 - Math.min(0.999, value));
  const ratio = weighed(blur) / weighed(threshold);
  return { value: overlapS, unit: 's', threshold: overlapS / ratio, ratio };
}

/** The written notes that were carried over. */
function notesOf({ carried }: Blur): readonly number[] {
  return carried.flatMap(({ noteIndex }) => (noteIndex === null ? [] : [noteIndex]));
}
