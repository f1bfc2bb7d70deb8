/*
 * The marked dynamics made: contrasts, hairpins and accents that were remarked on are there; only how hard keys are struck is changed.
 *
 * Conventions: velocity units. Marks are gone through in order: what is under one that was not made is moved up or down until the contrast is there, and
 *   a later contrast is measured from there, so that p f p with all three alike becomes p f p and not p f ff. Hairpins grow evenly over their ticks and what was
 *   gained stays until the next mark. Level within a phrase, between voices and from note to note stays as she made it.
 * Source: a step of the marks makes some 5 velocity units (common practice, no source).
 * What it does not tell: how much contrast the music wants.
 */
import { groupBy } from '../base/index.js';
import { HANDS, handOf, marksAsked, type Hand, type HairpinPlayed, type LevelChange, type LevelFacts } from '../measure/index.js';
import { versionOf } from './draft.js';
import { placesOf, type RemarkedPlace } from './places.js';
import type { Change, SoundInput, Version } from './types.js';
import { struckPlaces, withLevels } from './velocities.js';

/** What a step of the marks makes, and a hairpin from end to end, velocity units. */
const STEP_UNITS = 5;
const HAIRPIN_UNITS = 10;

/** What an accent stands over its neighbours, velocity units: a little over what is just heard, three times. Our own rule. */
const ACCENT_UNITS = 12;

/** The level of one hand is moved by so much from a tick on; over a hairpin it moves evenly to `toUnits`. */
interface Moved {
  readonly fromTick: number;
  readonly toTick: number;
  readonly fromUnits: number;
  readonly toUnits: number;
}

/** Her playing with the marked dynamics made where that was remarked on. */
export function dynamicsMade(input: SoundInput): Version {
  const { levels } = input.measures;
  const places = placesOf(input.observations, 'dynamics').filter(({ kind }) => kind !== 'sticksOut');
  if (!levels.measured || places.length === 0) return versionOf('dynamics', input.recording, { changes: [] });
  const units = new Map<number, number>();
  const struck = groupBy(struckPlaces(input), ({ stretch }) => stretch);
  const asked = marksAsked(input.score);
  for (const [stretch, notes] of struck) {
    for (const hand of HANDS) {
      const moved = movesOf(levels.value, places, { stretch, hand, marks: asked[hand].marks.map(({ tick }) => tick) });
      for (const { note, occurrence } of notes) {
        const written = input.score.occurrences[occurrence];
        if (written !== undefined && handOf(written) === hand) units.set(note, unitsAt(moved, written.onsetTick));
      }
    }
  }
  for (const [note, more] of accents(input, levels.value, places)) units.set(note, (units.get(note) ?? 0) + more);
  return versionOf('dynamics', input.recording, { notes: withLevels(input, units), changes: changesOf(levels.value, places) });
}

/** How far the level is moved at a tick: all that holds there together. */
function unitsAt(moved: readonly Moved[], tick: number): number {
  return moved.filter(({ fromTick, toTick }) => fromTick <= tick && tick < toTick)
    .reduce((sum, { fromTick, toTick, fromUnits, toUnits }) => sum + fromUnits + (fromUnits === toUnits ? 0 : ((tick - fromTick) / (toTick - fromTick)) * (toUnits - fromUnits)), 0);
}

/** Which hand in which stretch, and where its marks stand. */
interface Line {
  readonly stretch: number;
  readonly hand: Hand;
  /** Unfolded ticks. */
  readonly marks: readonly number[];
}

/** Everything that moves the level of one hand in one stretch. */
function movesOf({ changes, hairpins }: LevelFacts, places: readonly RemarkedPlace[], line: Line): readonly Moved[] {
  const own = <T extends Pick<LevelChange, 'hand' | 'stretch'>>(all: readonly T[]): readonly T[] => all.filter(({ hand, stretch }) => stretch === line.stretch && (hand === null || hand === line.hand));
  const contrasts = contrastMoves(own(changes).toSorted((a, b) => a.tick - b.tick), places);
  const pins = own(hairpins).filter((pin) => isRemarked(places, 'hairpinNotMade', pin)).flatMap((pin) => hairpinMoves(pin, line));
  return [...contrasts, ...pins];
}

/** Contrasts in order; each is measured from where the one before it left the level. */
function contrastMoves(changes: readonly LevelChange[], places: readonly RemarkedPlace[]): readonly Moved[] {
  const oneLevel = places.some(({ kind }) => kind === 'oneLevel');
  let before = 0;
  return changes.map((change, i): Moved => {
    const sign = change.louder ? 1 : -1;
    const remarked = oneLevel || isRemarked(places, 'changeNotMade', change);
    // where it stood before the change it was made, or nobody misses it: only what the move before took away is given back
    const wanted = remarked ? Math.max(change.made, STEP_UNITS * change.steps) : change.made;
    const units = remarked ? before + sign * (wanted - change.made) : keepsWay(change, before) ? 0 : before;
    before = units;
    return { fromTick: change.tick, toTick: changes[i + 1]?.tick ?? Infinity, fromUnits: units, toUnits: units };
  });
}

/** True where a contrast still goes the way it was asked if the level returns to what was played. */
function keepsWay({ made, louder }: LevelChange, before: number): boolean {
  return made - (louder ? before : -before) >= 0;
}

/** A hairpin that grows, and what it gained until the next mark of its hand. */
function hairpinMoves({ kind, tick, untilTick, made }: HairpinPlayed, { marks }: Line): readonly Moved[] {
  const units = Math.max(0, HAIRPIN_UNITS - made) * (kind === 'crescendo' ? 1 : -1);
  const next = marks.find((mark) => mark >= untilTick) ?? untilTick;
  return [{ fromTick: tick, toTick: untilTick, fromUnits: 0, toUnits: units }, ...(next > untilTick ? [{ fromTick: untilTick, toTick: next, fromUnits: units, toUnits: units }] : [])];
}

/** True where a mark was remarked on. */
function isRemarked(places: readonly RemarkedPlace[], kind: string, { startS, hand }: Pick<LevelChange, 'startS' | 'hand'>): boolean {
  return places.some((place) => place.kind === kind && place.startS === startS && place.hand === hand);
}

/** Accented notes that were remarked on, by how much harder they become. */
function accents({ score, alignment }: SoundInput, levels: LevelFacts, places: readonly RemarkedPlace[]): readonly (readonly [note: number, units: number])[] {
  return levels.accents.filter((accent) => isRemarked(places, 'accentNotHeard', accent)).flatMap(({ notes, stretch, visitIndex, over }) => alignment.pairs.flatMap((pair) => {
    const written = score.occurrences[pair.occurrence];
    const own = written !== undefined && pair.stretch === stretch && written.visitIndex === visitIndex && notes.includes(written.noteIndex);
    return own ? [[pair.note, Math.max(0, ACCENT_UNITS - over)] as const] : [];
  }));
}

/** What each would do. */
function changesOf({ changes, hairpins, accents: struck }: LevelFacts, places: readonly RemarkedPlace[]): readonly Change[] {
  return places.flatMap((place): readonly Change[] => {
    const at = { barIndex: place.fromBar, startS: place.startS };
    const change = changes.find(({ startS, hand }) => startS === place.startS && hand === place.hand);
    const pin = hairpins.find(({ startS, hand }) => startS === place.startS && hand === place.hand);
    const accent = struck.find(({ startS, hand }) => startS === place.startS && hand === place.hand);
    if (place.kind === 'changeNotMade' && change !== undefined) return [{ ...at, text: `the ${change.to} would be plainly ${change.louder ? 'louder' : 'softer'} than the ${change.from} before it` }];
    if (place.kind === 'hairpinNotMade' && pin !== undefined) return [{ ...at, text: `the ${pin.kind} would be heard to ${pin.kind === 'crescendo' ? 'grow' : 'fade'} all along` }];
    if (place.kind === 'accentNotHeard' && accent !== undefined) return [{ ...at, text: 'the accent would stand out of its neighbours' }];
    return place.kind === 'oneLevel' ? [{ ...at, text: 'the marks would be heard as different levels' }] : [];
  });
}
