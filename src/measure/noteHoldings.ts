/*
 * The teacher's question: was this note held for as long as it is written, and was it joined to the next?
 *
 * Conventions: seconds; one entry a pair, in the order of `Alignment.pairs`. The written length ends where the page says, at
 *   the moment when that place was reached (moments.ts), and no later than where the same key is due again: a key that
 *   another voice needs cannot stay down. Ties are one length.
 *   With `length`, the share of the written length held by the finger is `keyS / writtenS`, by the ear `soundS / writtenS`. With
 *   `join`, KOT = `overlapS` (release of this note minus onset of the next, positive where they overlap), KOR = KOT / `intervalS`,
 *   KDR = `keyS / intervalS`.
 * Method: as defined; what sounds after the key is up is told by soundEnds.ts, half pedal counted as sound.
 * Source: the definitions are those of Repp (1995) and Bresin and Battel (2000).
 * What it does not tell: whether more or less was asked; that is `touchAsked`. Under a pedal the ear hears less of the fingers than
 *   stands here. Grace notes, ornamented notes and notes under a fermata have no written end to be held against.
 */
import { measured, notMeasured, type Measured } from '../base/index.js';
import type { Pair } from '../align/index.js';
import type { Occurrence, Score } from '../score/index.js';
import { handOf } from './hands.js';
import type { NoteHolding, NoteJoin, NoteLength } from './holdingTypes.js';
import { momentsOf, momentsOfStretch, type Moments } from './moments.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import { highestBetween, PEDAL_LINGERS, soundEnds } from './soundEnds.js';
import { pairsByOccurrence, voicesOf, type PairsByOccurrence, type Voices } from './voices.js';

/** Two notes of a voice that follow within less (<) than this are not told apart as one after the other, seconds: the spread of a chord. */
const LEAST_INTERVAL_S = 0.03;

/** A key that comes down again within this time (<=) of its release, seconds, without a written note, only bounced: its sound goes on. Our own rule: quicker than any repetition with one finger. */
const BOUNCE_S = 0.1;

/** Everything a note's holding is told from. */
interface Ground {
  readonly piece: Piece;
  readonly moments: readonly Moments[];
  readonly ends: ReadonlyMap<number, Ends>;
  readonly keyFreeTick: ReadonlyMap<number, number>;
  readonly voices: Voices;
  readonly pairAt: PairsByOccurrence;
  readonly fermataTicks: ReadonlySet<number>;
}

/** When the key of a pressed note came up for good, and when it fell silent, seconds. */
interface Ends {
  readonly releaseS: number;
  readonly soundEndS: number;
  /** When the key was struck again without a written note; infinite where it was not. */
  readonly againS: number;
}

/**
 * Length and join of every paired note.
 * @param moments of this piece, where they are known already
 * @throws RangeError where the alignment is not of this score and recording
 */
export function noteHoldings(piece: Piece, moments = momentsOf(piece)): readonly NoteHolding[] {
  const ground: Ground = {
    piece,
    moments,
    ends: endsOf(piece),
    keyFreeTick: keysNeededAgain(piece.score),
    voices: voicesOf(piece.score),
    pairAt: pairsByOccurrence(piece.alignment),
    fermataTicks: fermatas(piece.score),
  };
  return piece.alignment.pairs.map((pair, index) => ({ pair: index, length: lengthOf(ground, pair), join: joinOf(ground, pair) }));
}

/** The ends of every paired note by its place in the recording, presses that only bounced counted in. */
function endsOf({ recording, alignment }: Piece): ReadonlyMap<number, Ends> {
  const soundEndS = soundEnds(recording, PEDAL_LINGERS);
  const unwritten = new Set(alignment.added.flatMap(({ note, instead }) => (instead ? [] : [note])));
  const extra = new Set([...unwritten, ...alignment.ornaments.map(({ note }) => note)]);
  const open = new Map<number, number>();
  const ends = new Map<number, Ends>();
  for (const { index, pitch, onsetS, releaseS } of recording.notes) {
    const before = open.get(pitch);
    const earlier = before === undefined ? undefined : ends.get(before);
    const bounced = before !== undefined && earlier !== undefined && unwritten.has(index) && onsetS - earlier.releaseS <= BOUNCE_S;
    if (earlier !== undefined && before !== undefined && !bounced && extra.has(index)) ends.set(before, { ...earlier, againS: onsetS });
    ends.set(bounced ? before : index, { releaseS, soundEndS: soundEndS[index] ?? releaseS, againS: Infinity });
    if (!bounced) open.set(pitch, index);
  }
  return ends;
}

/**
 * For each occurrence, the tick at which its key is free or due again: where another note needs it, and, of two voices
 * in unison on it, where the shorter one ends.
 */
function keysNeededAgain(score: Score): ReadonlyMap<number, number> {
  const due = new Map<number, { readonly tick: number; readonly after: number }>();
  const again = new Map<number, number>();
  for (const { index, midi, onsetTick, endTick } of score.occurrences.toReversed()) {
    const next = due.get(midi) ?? { tick: Infinity, after: Infinity };
    const free = Math.min(endTick, next.tick === onsetTick ? next.after : next.tick);
    if (endTick === onsetTick) continue;
    again.set(index, free);
    due.set(midi, { tick: onsetTick, after: free });
  }
  return again;
}

/** Onsets of written notes with a fermata, in written ticks. */
function fermatas(score: Score): ReadonlySet<number> {
  return new Set([...score.notes, ...score.rests].filter(({ fermata }) => fermata).map(({ onsetTick, lengthTicks }) => onsetTick + lengthTicks));
}

/** Length of one note. */
function lengthOf(ground: Ground, pair: Pair): Measured<NoteLength> {
  const { piece, moments, keyFreeTick } = ground;
  const { occurrence, note } = writtenOf(piece.score, pair.occurrence);
  if (note.grace !== null) return notMeasured('a grace note has no written length of its own');
  if (note.ornaments.length > 0) return notMeasured('an ornament leaves open how long its written note is held');
  if (underFermata(ground, occurrence)) return notMeasured('a fermata leaves open how long the note is held');
  const { onsetS, hanging } = playedOf(piece.recording, pair.note);
  if (hanging) return notMeasured('the recording does not say when the key was let go');
  const endTick = keyFreeTick.get(occurrence.index) ?? occurrence.endTick;
  const dueS = momentsOfStretch(moments, pair.stretch)(endTick, handOf(occurrence));
  if (dueS === null) return notMeasured('too little is played after it to tell when its end was due');
  if (dueS - onsetS < LEAST_INTERVAL_S) return notMeasured('what should follow it was played before it');
  const { releaseS, soundEndS, againS } = endsAt(ground, pair);
  if (againS < dueS) return notMeasured('its key was struck again before its end was due');
  return measured({ writtenS: dueS - onsetS, keyS: releaseS - onsetS, soundS: soundEndS - onsetS });
}

/** True where the note, or what ends with it, has a fermata. */
function underFermata({ piece: { score }, fermataTicks }: Ground, occurrence: Occurrence): boolean {
  const last = score.notes[occurrence.tied.at(-1) ?? occurrence.noteIndex];
  return last !== undefined && fermataTicks.has(last.onsetTick + last.lengthTicks);
}

/** How one note was joined to the next of its voice. */
function joinOf(ground: Ground, pair: Pair): Measured<NoteJoin> {
  const { piece, voices, pairAt } = ground;
  const { occurrence } = writtenOf(piece.score, pair.occurrence);
  const following = voices.after(occurrence);
  if (following.length === 0) return notMeasured('no note of its voice follows at once');
  const next = following
    .flatMap(({ index }) => pairAt(pair.stretch, index) ?? [])
    .map((place) => ({ place, note: playedOf(piece.recording, piece.alignment.pairs[place]?.note ?? -1) }))
    .sort((a, b) => a.note.onsetS - b.note.onsetS)[0];
  if (next === undefined) return notMeasured('the next note of its voice was not played');
  const { onsetS, hanging } = playedOf(piece.recording, pair.note);
  if (hanging) return notMeasured('the recording does not say when the key was let go');
  const { releaseS } = endsAt(ground, pair);
  const intervalS = next.note.onsetS - onsetS;
  if (intervalS < LEAST_INTERVAL_S) return notMeasured('the next note of its voice was played before it');
  return measured({
    next: next.place,
    intervalS,
    overlapS: releaseS - next.note.onsetS,
    repeated: following.some(({ midi }) => midi === occurrence.midi),
    pedal: highestBetween(piece.recording.sustain, Math.min(releaseS, next.note.onsetS), next.note.onsetS),
  });
}

/** The ends of a pair's note. @throws RangeError where the alignment is not of this recording */
function endsAt({ ends }: Ground, { note }: Pair): Ends {
  const found = ends.get(note);
  if (found === undefined) throw new RangeError(`the recording has no note ${note}`);
  return found;
}
