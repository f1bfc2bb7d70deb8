import type { Occurrence, Ornament, Score, ScoreNote } from '../score/index.js';

/** Bit of the upper stave in a mask of hands. */
export const RIGHT = 1;
/** Bit of the lower stave. */
export const LEFT = 2;

/** Where one key is written: the slots that hold it, ascending, and the hands that play it there. */
export interface KeyPlaces {
  readonly slots: Int32Array;
  readonly hands: Uint8Array;
}

/**
 * The score as a follower sees it: a row of slots, each the notes struck together at one unfolded moment (grace notes
 * stand in slots of their own before their main note). Arrays are indexed by slot unless said otherwise.
 */
export interface Slots {
  readonly count: number;
  /** Unfolded ticks. */
  readonly tick: Float64Array;
  /** 0 for ordinary notes, else how many grace notes still come, this one counted. */
  readonly grace: Int8Array;
  /** Place in `Score.order`. */
  readonly visit: Int32Array;
  /** 1 where the slot is the first of its bar. */
  readonly opensBar: Uint8Array;
  /** Hands with a note here, as a mask. */
  readonly hands: Uint8Array;
  /** Occurrences of slot s: `members[first[s]]` up to `members[first[s + 1] - 1]`. */
  readonly first: Int32Array;
  readonly members: Int32Array;
  /** How many slots before s hold a note of the right (left) hand; one entry more than slots. */
  readonly rightBefore: Int32Array;
  readonly leftBefore: Int32Array;
  /** Keys that an ornament sounding over this slot may strike; no entry where none sounds. */
  readonly ornamentKeys: ReadonlyMap<number, ReadonlySet<number>>;
  /** Keys of cue notes in the bar of this slot; they are in `ornamentKeys` as well. */
  readonly cueKeys: ReadonlyMap<number, ReadonlySet<number>>;
  /** By MIDI key. */
  readonly byKey: readonly KeyPlaces[];
}

/** Semitones around the written note that an ornament strikes: neighbours up to a whole tone; a slide starts a third off. */
const NEIGHBOURS = [-2, -1, 0, 1, 2];
const ORNAMENT_KEYS: Record<Ornament, readonly number[]> = {
  trill: NEIGHBOURS, mordent: NEIGHBOURS, invertedMordent: NEIGHBOURS, turn: NEIGHBOURS, invertedTurn: NEIGHBOURS, delayedTurn: NEIGHBOURS,
  shake: NEIGHBOURS, schleifer: [-4, -3, ...NEIGHBOURS], wavyLine: NEIGHBOURS, otherOrnament: NEIGHBOURS,
  // a tremolo strikes what is written, again and again; the partner of a pair stands in the score as a note of its own
  tremolo: [0], tremoloPair: [0],
};

/** Hand of a written note: the first stave is the right hand's, any other the left's. */
export function handOf(staff: number): number {
  return staff === 1 ? RIGHT : LEFT;
}

/** The written note of an occurrence. */
export function writtenNote(score: Score, occurrence: Occurrence): ScoreNote {
  const note = score.notes[occurrence.noteIndex];
  if (!note) throw new RangeError(`occurrence ${occurrence.index} has no written note`);
  return note;
}

/** Semitones around a written note that its ornament signs may strike; empty where it has none. */
export function ornamentSteps(note: ScoreNote): readonly number[] {
  return note.ornaments.flatMap((sign) => ORNAMENT_KEYS[sign]);
}

function graceLevel(note: ScoreNote): number {
  return note.grace ? Math.min(127, note.grace.before) : 0;
}

interface Group {
  readonly tick: number;
  readonly grace: number;
  readonly visit: number;
  readonly members: number[];
}

// Graces before their main note, the largest count first; after-notes stand at the end of their own bar.
function group(score: Score): Group[] {
  const keyed = score.occurrences.map((occurrence) => ({ occurrence, grace: graceLevel(writtenNote(score, occurrence)) }));
  keyed.sort((a, b) => a.occurrence.onsetTick - b.occurrence.onsetTick || a.occurrence.visitIndex - b.occurrence.visitIndex || b.grace - a.grace || a.occurrence.index - b.occurrence.index);
  const groups: Group[] = [];
  for (const { occurrence, grace } of keyed) {
    const last = groups.at(-1);
    if (last?.tick === occurrence.onsetTick && last.grace === grace && last.visit === occurrence.visitIndex) last.members.push(occurrence.index);
    else groups.push({ tick: occurrence.onsetTick, grace, visit: occurrence.visitIndex, members: [occurrence.index] });
  }
  return groups;
}

function collectKeys(score: Score, groups: readonly Group[]): KeyPlaces[] {
  const places = Array.from({ length: 128 }, (): Map<number, number> => new Map());
  groups.forEach((slot, s) => {
    for (const member of slot.members) {
      const occurrence = score.occurrences[member];
      const place = occurrence && places[occurrence.midi];
      if (occurrence && place) place.set(s, (place.get(s) ?? 0) | handOf(occurrence.staff));
    }
  });
  return places.map((place) => ({ slots: Int32Array.from(place.keys()), hands: Uint8Array.from(place.values()) }));
}

// Every slot that starts while an ornamented note sounds, with the keys its ornament may strike. Of a tremolo between
// two notes each half sounds through the other's time as well.
function spreadOrnaments(score: Score, groups: readonly Group[]): Map<number, Set<number>> {
  const keys = new Map<number, Set<number>>();
  groups.forEach((slot, s) => {
    for (const member of slot.members) {
      const occurrence = score.occurrences[member];
      const note = occurrence && writtenNote(score, occurrence);
      const steps = note ? ornamentSteps(note) : [];
      if (!occurrence || !steps.length) continue;
      const length = (occurrence.endTick - occurrence.onsetTick) * (note?.ornaments.includes('tremoloPair') ? 2 : 1);
      for (let t = s; t < groups.length && (t === s || (groups[t]?.tick ?? Infinity) < occurrence.onsetTick + length); t += 1) {
        const here = keys.get(t) ?? new Set<number>();
        for (const step of steps) here.add(occurrence.midi + step);
        keys.set(t, here);
      }
    }
  });
  return keys;
}

// Cue notes often write a trill out. They sound for nobody, but who plays them plays nothing wrong.
function spreadCues(score: Score, groups: readonly Group[]): Map<number, Set<number>> {
  const ofBar = new Map<number, Set<number>>();
  for (const cue of score.notes.filter((note) => note.cue)) {
    const keys = ofBar.get(cue.barIndex) ?? new Set<number>();
    for (const step of [0, ...ornamentSteps(cue)]) keys.add(cue.pitch.midi + step);
    ofBar.set(cue.barIndex, keys);
  }
  return new Map(groups.flatMap((slot, s) => {
    const keys = ofBar.get(score.order[slot.visit]?.barIndex ?? -1);
    return keys ? [[s, keys] as const] : [];
  }));
}

// Both maps in one.
function joined(ornaments: ReadonlyMap<number, ReadonlySet<number>>, cues: ReadonlyMap<number, ReadonlySet<number>>): Map<number, ReadonlySet<number>> {
  const all = new Map(ornaments);
  for (const [slot, keys] of cues) all.set(slot, new Set([...keys, ...(ornaments.get(slot) ?? [])]));
  return all;
}

function countBefore(hands: Uint8Array, hand: number): Int32Array {
  const before = new Int32Array(hands.length + 1);
  hands.forEach((mask, s) => { before[s + 1] = (before[s] ?? 0) + (mask & hand ? 1 : 0); });
  return before;
}

/** Lays out a score's occurrences as slots in unfolded order. Linear in their number, but for sorting. */
export function layOutSlots(score: Score): Slots {
  const groups = group(score);
  const first = new Int32Array(groups.length + 1);
  groups.forEach((slot, s) => { first[s + 1] = (first[s] ?? 0) + slot.members.length; });
  const cueKeys = spreadCues(score, groups);
  const hands = Uint8Array.from(groups, (slot) => slot.members.reduce((mask, m) => mask | handOf(score.occurrences[m]?.staff ?? 1), 0));
  return {
    count: groups.length,
    tick: Float64Array.from(groups, (slot) => slot.tick),
    grace: Int8Array.from(groups, (slot) => slot.grace),
    visit: Int32Array.from(groups, (slot) => slot.visit),
    opensBar: Uint8Array.from(groups, (slot, s) => (slot.visit !== groups[s - 1]?.visit ? 1 : 0)),
    hands,
    first,
    members: Int32Array.from(groups.flatMap((slot) => slot.members)),
    rightBefore: countBefore(hands, RIGHT),
    leftBefore: countBefore(hands, LEFT),
    ornamentKeys: joined(spreadOrnaments(score, groups), cueKeys),
    cueKeys,
    byKey: collectKeys(score, groups),
  };
}
