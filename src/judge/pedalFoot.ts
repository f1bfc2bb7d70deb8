/*
 * The foot itself: lifted too soon, too late for the bass, not at all where it is marked, or where the sound should ring.
 *
 * What is a fault: a hole before a new harmony that is written without a rest, where the foot alone had carried the sound, not at the end of a phrase and
 * not where the plan lifts; a bass gone before the pedal came, where a pedal is marked, or where one is planned and the hand has to leave it; a marked
 * pedal without any; a foot that is down where no pedal is marked or set by the teacher; a lift that takes the bass or most of the sound
 * away where ringing is marked or planned. Re-pedalling over one harmony is neutral, and a long marked pedal may be taken in fractions.
 */
import { isAsked, type PedalEntry } from '../analysis/index.js';
import { footOver, PEDAL_LINGERS, type FootOver, type PedalChange } from '../measure/index.js';
import { beatTicks } from '../score/index.js';
import { pedalFinding, type PedalGround } from './pedalGround.js';
import type { Finding } from './types.js';

/** A hole this long (>=) is heard as a break in the line, seconds: gaps of 30 ms pass as legato, and dampers take 0.1-0.2 s. Our own rule. */
export const GAP_S = 0.2;

/** A foot that comes this much (>=) after the key of the bass came up finds it damped, seconds: half of what the bass needs to clear (0.2-0.3 s). */
export const BASS_LATE_S = 0.1;

/** A press later (>) than this after the chord is no late catch but another pedal, seconds: about a beat. */
const BASS_PRESS_S = 1;

/** A bass lost for less (<) than this is hardly missed, seconds. Our own rule. */
const BASS_GONE_S = 0.3;

/** A marked pedal over less (<) than this is too short to be missed, seconds. */
const MARKED_LEAST_S = 0.5;

/** A lift in the last part of a ringing sound, seconds, prepares what comes. */
const RING_END_S = 0.5;

/** Notes up to this (<=), MIDI number, carry a ringing sound: losing one of them loses it. */
const RING_BASS = 59;

/** How sure the program is of each. */
const CONFIDENCE = { gap: 0.7, bass: 0.85, notUsed: 0.8, ring: 0.8, notDry: 0.8 } as const;

/** Where no pedal is asked for, the foot is down for so long (>=) before it counts, seconds: less is a lift that comes late. Our own rule. */
const DRY_LEAST_S = 0.5;

/** Holes, lost basses, marks not followed. */
export function footFindings(ground: PedalGround): readonly Finding[] {
  const { analysis } = ground.input;
  const marked = analysis.pedalPlan.entries.filter((entry) => isAsked(entry) || entry.kind === 'ring');
  const over = footOver(ground.input, marked);
  return [
    ...ground.facts.changes.flatMap((change) => [...gapFinding(ground, change), ...bassFinding(ground, change)]),
    ...over.flatMap((one) => [...notUsed(ground, one), ...notRinging(ground, one), ...notDry(ground, one)]),
  ];
}

/** True for a pedal that the score marks, or the teacher has set. */
export function isMarked(entry: PedalEntry): boolean {
  return isAsked(entry) && entry.kind !== 'up' && entry.kind !== 'none';
}

/** A hole before a change. */
function gapFinding(ground: PedalGround, change: PedalChange): readonly Finding[] {
  const visit = ground.visit(change.stretch, change.visitIndex);
  if (visit === undefined || change.gapS < GAP_S || breathes(ground, change)) return [];
  return [pedalFinding({ kind: 'gap', visit, notes: [], startS: change.soundS, value: change.gapS, unit: 's', threshold: GAP_S, ratio: change.gapS / GAP_S, confidence: CONFIDENCE.gap })];
}

/** True where a phrase begins or ends, where something breathes, and where the plan lifts. */
function breathes({ input: { analysis, score }, planAt }: PedalGround, { writtenTick, harmony }: PedalChange): boolean {
  const bar = score.bars[analysis.harmonies[harmony ?? -1]?.barIndex ?? 0];
  const beat = bar === undefined ? 0 : beatTicks(score, bar);
  const edges = analysis.phrases.flatMap(({ from, untilTick }) => [from.tick, untilTick]);
  const before = planAt(writtenTick - 1);
  const lifted = before?.kind === 'up' || (before?.kind === 'none' && isAsked(before));
  const fermata = score.notes.some(({ fermata: held, onsetTick, lengthTicks }) => held && onsetTick + lengthTicks >= writtenTick - beat && onsetTick + lengthTicks <= writtenTick);
  return edges.some((tick) => Math.abs(tick - writtenTick) <= beat) || lifted || fermata;
}

/** A bass that was gone before the pedal came. */
function bassFinding(ground: PedalGround, change: PedalChange): readonly Finding[] {
  const visit = ground.visit(change.stretch, change.visitIndex);
  const { bass, pressS } = change;
  const plan = ground.planAt(change.writtenTick);
  if (visit === undefined || bass === null || pressS === null) return [];
  const lateS = pressS - bass.keyUpS;
  const marked = plan !== undefined && isMarked(plan);
  const planned = plan?.kind === 'down' || plan?.kind === 'change' || plan?.kind === 'ring';
  if (!(marked || (planned && bass.mustBeLeft)) || lateS < BASS_LATE_S || pressS > BASS_PRESS_S || bass.goneS < BASS_GONE_S) return [];
  return [pedalFinding({ kind: 'bassNotCaught', hand: 'left', visit, notes: [bass.noteIndex], startS: change.soundS, value: lateS, unit: 's', threshold: BASS_LATE_S, ratio: lateS / BASS_LATE_S, confidence: CONFIDENCE.bass })];
}

/** A marked pedal without any. */
function notUsed(ground: PedalGround, { entry, stretch, visitIndex, fromS, toS, depth }: FootOver<PedalEntry>): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined || !isMarked(entry) || depth >= PEDAL_LINGERS || toS - fromS < MARKED_LEAST_S) return [];
  return [pedalFinding({ kind: 'notUsed', visit, notes: [], startS: fromS, value: toS - fromS, unit: 's', threshold: MARKED_LEAST_S, ratio: (toS - fromS) / MARKED_LEAST_S, confidence: CONFIDENCE.notUsed })];
}

/** A foot that is down where no pedal is asked for: the longest time of it. */
function notDry({ input: { measures }, facts, visit }: PedalGround, { entry, stretch, fromS, toS }: FootOver<PedalEntry>): readonly Finding[] {
  if (entry.kind !== 'none' || !isAsked(entry)) return [];
  const within = facts.downs.map((down) => ({ startS: Math.max(fromS, down.fromS), heldS: Math.min(toS, down.toS) - Math.max(fromS, down.fromS) }));
  const longest = within.reduce((most, one) => (one.heldS > most.heldS ? one : most), { startS: fromS, heldS: 0 });
  const bar = measures.bars.findLast((one) => one.stretch === stretch && one.startS <= longest.startS + DRY_LEAST_S / 2);
  const found = bar === undefined ? undefined : visit(stretch, bar.visitIndex);
  if (found === undefined || longest.heldS < DRY_LEAST_S) return [];
  return [pedalFinding({ kind: 'notDry', visit: found, notes: [], startS: longest.startS, value: longest.heldS, unit: 's', threshold: DRY_LEAST_S, ratio: longest.heldS / DRY_LEAST_S, confidence: CONFIDENCE.notDry })];
}

/** A sound that should ring on, cut by a lift. */
function notRinging(ground: PedalGround, { entry, stretch, visitIndex, fromS, toS }: FootOver<PedalEntry>): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined || entry.kind !== 'ring') return [];
  const { notes } = ground.input.recording;
  const cut = ground.facts.cuts.find(({ liftS, notes: lost }) => liftS > fromS && liftS < toS - RING_END_S && lost.some((index) => {
    const note = notes[index];
    return note !== undefined && note.onsetS >= fromS - RING_END_S / 2 && note.pitch <= RING_BASS;
  }));
  if (cut === undefined) return [];
  const lostS = toS - cut.liftS;
  const written = new Map(ground.input.alignment.pairs.map(({ note, occurrence }) => [note, ground.input.score.occurrences[occurrence]?.noteIndex]));
  return [pedalFinding({
    kind: 'notRinging', visit, notes: cut.notes.flatMap((note) => written.get(note) ?? []), startS: cut.liftS, value: lostS, unit: 's', threshold: RING_END_S, ratio: lostS / RING_END_S, confidence: CONFIDENCE.ring,
  })];
}
