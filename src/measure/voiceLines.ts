/*
 * The teacher's question: what was one voice to play, one moment after another, and when did it?
 *
 * Conventions: one line a stretch of the route, stave and voice; every written moment of the visited bars has its entry,
 *   played or not, so that two entries that follow one another also do so on paper. Notes with an ornament, a roll or grace notes
 *   before them stand at no written moment: they have an entry without an onset.
 * Method: notes of one voice at one tick are one moment; its onset is the median of those played, so that one late
 *   finger does not move a chord.
 * Source: our own rule.
 * What it does not tell: voices of a score without voices (a MIDI file): there a hand is one line.
 */
import { median } from 'simple-statistics';
import { firstIndex, groupBy } from '../base/index.js';
import type { Occurrence, Score } from '../score/index.js';
import { freeOnset, handOf, type Hand } from './hands.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import type { LineMoment, VoiceLine } from './rhythmTypes.js';
import { pairsByOccurrence, type PairsByOccurrence } from './voices.js';

/** The lines of every voice in every stretch. */
export function voiceLines(piece: Piece): readonly VoiceLine[] {
  const { score, alignment } = piece;
  const pairOf = pairsByOccurrence(alignment);
  const graced = gracedTicks(score);
  const occurrences = score.occurrences;
  const firstFrom = (tick: number): number => firstIndex(occurrences.length, (i) => (occurrences[i]?.onsetTick ?? Infinity) >= tick);
  return alignment.route.flatMap(({ fromVisit, toVisit }, stretch) => {
    const from = firstFrom(score.order[fromVisit]?.startTick ?? 0);
    const to = firstFrom(score.order[toVisit + 1]?.startTick ?? Infinity);
    const voices = groupBy(occurrences.slice(from, to), (one) => `${one.staff} ${writtenOf(score, one.index).note.voice}`);
    return [...voices.values()].map((voice) => lineOf(piece, voice, { stretch, pairOf, graced }));
  });
}

/** Ticks at which each hand has grace notes before a note: that note comes when they are done. */
export type GracedTicks = Readonly<Record<Hand, ReadonlySet<number>>>;

/** Where each hand has grace notes, unfolded ticks. */
export function gracedTicks(score: Score): GracedTicks {
  const ticks = { right: new Set<number>(), left: new Set<number>() };
  for (const one of score.occurrences) {
    if (writtenOf(score, one.index).note.grace !== null) ticks[handOf(one)].add(one.onsetTick);
  }
  return ticks;
}

/** What every line of a stretch is made with. */
interface LineGround {
  readonly stretch: number;
  readonly pairOf: PairsByOccurrence;
  readonly graced: GracedTicks;
}

/** One voice of one stretch. */
function lineOf(piece: Piece, voice: readonly Occurrence[], { stretch, pairOf, graced }: LineGround): VoiceLine {
  const hand = voice[0] === undefined ? 'right' : handOf(voice[0]);
  const chords = groupBy(voice.filter((one) => one.endTick > one.onsetTick), (one) => one.onsetTick);
  const moments = [...chords].map(([tick, chord]) => {
    const moment = momentOf(piece, chord, (one) => pairOf(stretch, one.index));
    return graced[hand].has(tick) ? { ...moment, onsetS: null } : moment;
  });
  return { stretch, hand, moments: moments.sort((a, b) => a.tick - b.tick) };
}

/** One moment; of a chord with an ornament or a roll no onset is told. */
function momentOf({ score, recording, alignment }: Piece, chord: readonly Occurrence[], pairOf: (one: Occurrence) => number | undefined): LineMoment {
  const pairs = chord.flatMap((one) => pairOf(one) ?? []);
  const free = chord.some((one) => freeOnset(writtenOf(score, one.index).note) !== null);
  const onsets = pairs.flatMap((pair) => {
    const note = alignment.pairs[pair]?.note;
    return note === undefined ? [] : [playedOf(recording, note).onsetS];
  });
  const tick = chord[0]?.onsetTick ?? 0;
  const endTick = Math.min(...chord.map((one) => one.endTick));
  return { tick, endTick, visitIndex: chord[0]?.visitIndex ?? 0, onsetS: free || onsets.length === 0 ? null : median(onsets), pairs };
}
