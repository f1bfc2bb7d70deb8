/*
 * The pedal changed where the plan says. Nothing but the sustain pedal is touched, and that only where it was remarked on.
 *
 * Conventions: seconds. A blur or a catch: the foot goes up as the new sound begins and down again when the dampers have had their time
 *   and the old keys are up. A gap: the foot stays down until the new sound. A bass that was lost: the foot comes before its key is up. A mark that was not followed,
 *   or a sound that should ring: the foot stays down as long as the plan has it.
 * Source: legato pedalling as taught (references: up at the instant the new chord sounds, down again after it); low bass needs 0.2-0.3 s to clear,
 *   treble 0.1 s (common practice), which the plan holds for each change.
 * What it does not tell: whether another pedalling would be finer.
 */
import { median } from 'simple-statistics';
import { firstIndex } from '../base/index.js';
import { pedalFindings } from '../judge/index.js';
import { footOver, measureAll, type BarFacts, type CarriedNote, type PedalChange } from '../measure/index.js';
import { draftOf, versionOf } from './draft.js';
import { pedalAt, withFoot, type FootHeld } from './footChanges.js';
import { blurMended, bassKept, gapClosed, ringKept } from './pedalChangeWords.js';
import { placesOf, visitOf, type RemarkedPlace } from './places.js';
import type { Change, SoundInput, Version } from './types.js';

/** Time the dampers are given where the plan names none, seconds: between treble and bass. */
const CLEAR_S = 0.2;

/** The shortest lift that still clears something, seconds: what the treble needs (common practice). */
const LEAST_UP_S = 0.1;

/** The foot comes so long before the key of the bass is up, seconds. Our own rule. */
const BEFORE_KEY_UP_S = 0.03;

/** A marked pedal is pressed so long after its sound, seconds: with the sound, not before it. Our own rule. */
const AFTER_SOUND_S = 0.05;

/** A pedal all the way down. */
const DOWN = 127;

/** What the foot does instead, and what comes of it. */
interface Mended {
  readonly feet: readonly FootHeld[];
  readonly text: string;
}

/** Mending one change may uncover the next: what rang over both was one blur. So many rounds (<=) are made. Our own rule. */
const MOST_ROUNDS = 3;

/** Faults of the foot at a change; a later round mends these, and of the rest only what was remarked on at first. */
const AT_CHANGES: ReadonlySet<string> = new Set(['blurred', 'caught', 'smeared']);

/** Her playing with the pedal changed where it was remarked on. */
export function pedalAsPlanned(input: SoundInput): Version {
  const changes: Change[] = [];
  const remarked = placesOf(input.observations, 'pedal');
  const kinds = new Set(remarked.map(({ kind }) => kind));
  let now = input;
  let places = remarked;
  for (let round = 0; round < MOST_ROUNDS && places.length > 0; round += 1) {
    let { sustain } = now.recording;
    for (const place of places) {
      const visit = visitOf(now, place);
      const mended = visit === undefined ? null : mend(now, place, visit);
      if (mended === null) continue;
      for (const foot of mended.feet) sustain = withFoot(sustain, foot);
      changes.push({ barIndex: place.fromBar, startS: place.startS, text: mended.text });
    }
    const recording = { ...now.recording, sustain };
    now = { ...now, recording, measures: measureAll({ ...now, recording }) };
    places = pedalFindings({ ...now, language: 'british' }).filter(({ kind }) => AT_CHANGES.has(kind) || kinds.has(kind))
      .map(({ kind, hand, place, severity, confidence }) => ({ ...place, kind, hand, weight: severity * confidence }));
  }
  return versionOf('pedal', input.recording, { notes: draftOf(input.recording), sustain: now.recording.sustain, changes });
}

/** What mends one remark; null for remarks that no foot could mend. */
function mend(input: SoundInput, place: RemarkedPlace, visit: BarFacts): Mended | null {
  const { changes, smears } = input.measures.pedal;
  const change = changes.find(({ soundS, stretch }) => soundS === place.startS && stretch === visit.stretch);
  switch (place.kind) {
    case 'blurred':
    case 'caught':
      return change === undefined ? null : cleared(input, change, visit);
    case 'smeared': {
      const smear = smears.find(({ soundS, stretch }) => soundS === place.startS && stretch === visit.stretch);
      return smear === undefined ? null : { feet: [{ fromS: smear.soundS, toS: pressAt(input, smear, null), value: 0 }], text: blurMended(input, smear, visit) };
    }
    case 'gap':
      return change === undefined ? null : { feet: [{ fromS: change.soundS - change.gapS, toS: change.soundS, value: depthOf(input) }], text: gapClosed(input, change, visit) };
    case 'bassNotCaught':
      return change === undefined ? null : caughtBass(input, change, visit);
    case 'notUsed':
    case 'notRinging':
      return ringing(input, place, visit);
    default:
      return null;
  }
}

/** A change as it is taught; where she changed later herself, her own late lift goes. */
function cleared(input: SoundInput, change: PedalChange, visit: BarFacts): Mended {
  const { soundS, pressS, foot } = change;
  const downS = pressAt(input, change, change);
  const lateS = foot === 'changed' && pressS !== null ? soundS + pressS : downS;
  const feet = [{ fromS: soundS, toS: downS, value: 0 }, { fromS: downS, toS: lateS, value: depthOf(input) }];
  return { feet, text: blurMended(input, change, visit) };
}

/** New sound, and what of the old may be caught. */
interface Sounding extends Pick<PedalChange, 'soundS' | 'untilS'> {
  readonly carried: readonly Pick<CarriedNote, 'note'>[];
}

/** When the foot goes down again: the dampers have had their time and the old keys are up, but the new bass is still held, and the next change has not come. */
function pressAt({ recording, analysis }: SoundInput, { carried, soundS, untilS }: Sounding, change: PedalChange | null): number {
  const { entries } = analysis.pedalPlan;
  const plan = change === null ? undefined : entries[firstIndex(entries.length, (i) => (entries[i]?.fromTick ?? Infinity) > change.writtenTick) - 1];
  const keysUpS = Math.max(0, ...carried.map(({ note }) => recording.notes[note]?.releaseS ?? 0));
  const wantedS = Math.max(soundS + (plan?.clearS ?? CLEAR_S), keysUpS);
  const bassS = change?.bass ? Math.max(soundS + LEAST_UP_S, soundS + change.bass.keyUpS - BEFORE_KEY_UP_S) : Infinity;
  const latestS = Math.max(soundS + LEAST_UP_S, (soundS + untilS) / 2);
  return Math.min(wantedS, bassS, latestS);
}

/** The foot before the key of the bass is up. */
function caughtBass(input: SoundInput, change: PedalChange, visit: BarFacts): Mended | null {
  const { soundS, pressS, bass } = change;
  if (bass === null || pressS === null) return null;
  const fromS = Math.max(soundS + Math.min(LEAST_UP_S, bass.keyUpS / 2), soundS + bass.keyUpS - BEFORE_KEY_UP_S);
  return { feet: [{ fromS: soundS, toS: fromS, value: 0 }, { fromS, toS: soundS + pressS, value: depthOf(input) }], text: bassKept(input, { ...change, bass }, visit) };
}

/** The foot down for as long as the plan has it, from the remark on. */
function ringing(input: SoundInput, { kind, startS }: RemarkedPlace, visit: BarFacts): Mended | null {
  const over = footOver(input, input.analysis.pedalPlan.entries).find((one) => one.stretch === visit.stretch && one.fromS <= startS && startS < one.toS);
  if (over === undefined) return null;
  const text = ringKept(kind, over.toS - startS, { input, visit });
  if (kind === 'notRinging') return { feet: [{ fromS: startS, toS: over.toS, value: depthOf(input) }], text };
  const change = input.measures.pedal.changes.find(({ soundS, stretch }) => stretch === visit.stretch && Math.abs(soundS - over.fromS) <= AFTER_SOUND_S);
  const pressS = change === undefined ? over.fromS + AFTER_SOUND_S : pressAt(input, { ...change, carried: stillHeld(input, over.fromS) }, change);
  return { feet: [{ fromS: over.fromS, toS: pressS, value: 0 }, { fromS: pressS, toS: over.toS, value: depthOf(input) }], text };
}

/** Notes struck before a moment whose keys are still down then. */
function stillHeld({ recording }: SoundInput, momentS: number): readonly Pick<CarriedNote, 'note'>[] {
  return recording.notes.flatMap(({ index, onsetS, releaseS }) => (onsetS < momentS - AFTER_SOUND_S && releaseS > momentS ? [{ note: index }] : []));
}

/** How far she puts the pedal down herself. */
function depthOf({ measures, recording }: SoundInput): number {
  const depths = measures.pedal.downs.map(({ depth }) => depth);
  return depths.length === 0 ? DOWN : Math.max(pedalAt(recording.sustain, Infinity), median(depths));
}
