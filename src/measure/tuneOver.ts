/*
 * The teacher's question: does the tune stand over its accompaniment?
 *
 * Conventions: velocity units, the tune louder positive; one value an accompanying note that was struck while a tune note sounded, or soon after.
 * Method: the tune's note against the accompanying one, both levelled by register; a tune note that has been sounding for a while has faded, so its decay
 *   since its onset is taken off, up to a bound. A chord that answers soon after the tune's note has ended is held
 *   against the mean of the tune's last notes: the very last is often tapered. Notes that only thicken the tune (struck with it in its own hand) are no accompaniment.
 * Source: first decay of a few dB a second in the bass and 5-15 in the middle (Fletcher and Rossing, from memory; an order of
 *   magnitude); 0.26 dB a velocity unit (Slade et al. 2022: .25-.27). The bound is our own rule: the ear goes on following
 *   a tune note by its beginning.
 * What it does not tell: what the pedal adds.
 */
import { groupBy } from '../base/index.js';
import type { Score } from '../score/index.js';
import { meanOf, type Struck, type StruckNotes } from './struck.js';
import { lineMembers, type BarTune } from './tuneLines.js';

/** First decay at middle C, dB a second, and how many semitones up double it. */
const DECAY_AT_MIDDLE_C = 6;
const DECAY_DOUBLES = 18;

/** Decibels that one velocity unit makes (Slade et al. 2022). */
export const DB_A_UNIT = 0.26;

/** Most (<=) that the decay of a tune note is held against its accompaniment, velocity units: about what is just heard, twice. */
const MOST_DECAY_UNITS = 6;

/** How long after a tune note has ended (<) an answering chord is still held against it, crotchets. Our own rule. */
const ANSWER_CROTCHETS = 2;

/** How far back the tune is remembered by an answer, crotchets. Our own rule: about a bar. */
const REMEMBERED_CROTCHETS = 4;

/** Confidence that a line is the tune, from which (>=) balance is asked for. Our own rule. */
export const LEAST_TUNE_CONFIDENCE = 0.25;

/** One accompanying note against the tune. */
export interface Against {
  readonly note: Struck;
  readonly tune: Struck;
  /** Velocity units. */
  readonly over: number;
  /** True where both were struck at one written moment. */
  readonly together: boolean;
}

/** Every accompanying note against the tune note that sounds over it or that it answers, in order of stretch and time. */
export function againstTune(score: Score, struck: StruckNotes, tunes: readonly BarTune[]): readonly Against[] {
  const members = membersByBar(score, tunes);
  const [answer, remembered] = [ANSWER_CROTCHETS * score.ticksPerQuarter, REMEMBERED_CROTCHETS * score.ticksPerQuarter];
  return [...groupBy(struck.notes, ({ stretch }) => stretch).values()].flatMap((notes) => {
    const isTune = (note: Struck): boolean => members.get(note.visitIndex)?.has(note.occurrence) === true;
    const tune = notes.filter(isTune);
    let next = 0;
    let current: Struck | undefined;
    return notes.flatMap((note): readonly Against[] => {
      while ((tune[next]?.tick ?? Infinity) <= note.tick) current = tune[next++];
      if (current === undefined || isTune(note) || current.endTick + answer <= note.tick || !members.has(note.visitIndex)) return [];
      const together = current.tick === note.tick;
      if (together && current.hand === note.hand) return [];
      const rings = current.endTick > note.tick;
      const level = rings ? current.levelled - decayUnits(current, note.onsetS) : rememberedLevel(tune, next - 1, note.tick - remembered);
      return [{ note, tune: current, together, over: level - note.levelled }];
    });
  });
}

/** Notes of the tune by visit (places in `Score.occurrences`), for bars where it is known well enough. */
export function membersByBar(score: Score, tunes: readonly BarTune[]): ReadonlyMap<number, ReadonlySet<number>> {
  const lines = new Map<string, ReadonlySet<number>>();
  return new Map(tunes.filter(({ confidence }) => confidence >= LEAST_TUNE_CONFIDENCE).map((tune) => {
    const name = `${tune.hand} ${tune.line}`;
    const members = lines.get(name) ?? lineMembers(score, tune);
    lines.set(name, members);
    return [tune.visitIndex, members];
  }));
}

/** Mean level of the tune's notes from a tick to a place, the last one at least. */
function rememberedLevel(tune: readonly Struck[], last: number, sinceTick: number): number {
  let from = last;
  while ((tune[from - 1]?.tick ?? -Infinity) >= sinceTick) from -= 1;
  return meanOf(tune.slice(from, last + 1).map(({ levelled }) => levelled));
}

/** What a tune note has lost by a moment, velocity units. */
function decayUnits(tune: Struck, atS: number): number {
  const perSecond = DECAY_AT_MIDDLE_C * 2 ** ((tune.midi - 60) / DECAY_DOUBLES);
  return Math.min(MOST_DECAY_UNITS, (perSecond * Math.max(0, atS - tune.onsetS)) / DB_A_UNIT);
}
