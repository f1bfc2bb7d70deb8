import { groupBy } from '../base/index.js';
import type { Alignment, Pair } from '../align/index.js';
import type { Occurrence, Score } from '../score/index.js';
import { lineOf } from './touchAsked.js';

/** How far apart the end of a note and the start of the next may lie (<=), crotchets: room for tuplets rounded to whole ticks. */
const JOIN_GAP_CROTCHETS = 1 / 32;

/** The written notes that follow others in their voice, and how they were played. */
export interface Voices {
  /** The chord that begins where this occurrence ends in its voice; empty where a rest or nothing follows. */
  readonly after: (occurrence: Occurrence) => readonly Occurrence[];
}

/** Who follows whom, along the playing order. Grace notes follow nobody: they have no end of their own. */
export function voicesOf(score: Score): Voices {
  const slack = Math.floor(score.ticksPerQuarter * JOIN_GAP_CROTCHETS);
  const sounding = score.occurrences.filter(({ onsetTick, endTick }) => endTick > onsetTick);
  const byPlace = groupBy(sounding, (one) => `${voiceOf(score, one)} ${one.onsetTick}`);
  return {
    after: (occurrence) => {
      const voice = voiceOf(score, occurrence, occurrence.tied.at(-1));
      const exact = byPlace.get(`${voice} ${occurrence.endTick}`);
      if (exact !== undefined || slack === 0) return exact ?? [];
      for (let off = 1; off <= slack; off += 1) {
        const near = byPlace.get(`${voice} ${occurrence.endTick + off}`) ?? byPlace.get(`${voice} ${occurrence.endTick - off}`);
        if (near !== undefined) return near;
      }
      return [];
    },
  };
}

/** Stave and voice of an occurrence, by its first written note unless another is named. */
function voiceOf(score: Score, occurrence: Occurrence, noteIndex = occurrence.noteIndex): string {
  const note = score.notes[noteIndex];
  if (note === undefined) throw new RangeError(`the score has no note ${noteIndex}`);
  return lineOf(note);
}

/** Where a written note was played in a stretch: place in `Alignment.pairs`. */
export type PairsByOccurrence = (stretch: number, occurrence: number) => number | undefined;

/** Finds pairs by stretch and occurrence. */
export function pairsByOccurrence({ pairs }: Alignment): PairsByOccurrence {
  const key = ({ stretch, occurrence }: Pick<Pair, 'stretch' | 'occurrence'>): string => `${stretch} ${occurrence}`;
  const places = new Map(pairs.map((pair, index) => [key(pair), index]));
  return (stretch, occurrence) => places.get(key({ stretch, occurrence }));
}
