/*
 * Question: which notes sound, and which of them move as notes foreign to a chord do?
 * Conventions: written ticks, ends exclusive; ties merged along the printed bars; cue notes are left out, grace notes kept
 *   apart by a flag. A step is one or two semitones.
 * Method: a note is `prepared` where its key sounded up to its onset in the same stave, `approached` where a step away did, `left`
 *   where a note a step away begins at its end. These say how readily it can be heard as foreign.
 * Source: the usual definitions of suspension, passing and neighbour note; the test by staves is our own rule.
 * What it does not tell: whether the note is foreign. That needs a chord.
 */
import { firstIndex, groupBy } from '../base/index.js';
import type { Score, ScoreNote } from '../score/index.js';
import { fifthsOf, mod } from './pitchNames.js';

/** A sounding note, ties merged. */
export interface SoundingNote {
  /** Place in `Score.notes` of its first written note. */
  readonly noteIndex: number;
  readonly onset: number;
  readonly end: number;
  /** Up to when it is heard: for a bass that is left, longer than it is written; see heardBass.ts. */
  readonly heardUntil: number;
  readonly midi: number;
  readonly pc: number;
  /** Place on the line of fifths as spelled. */
  readonly fifths: number;
  readonly staff: number;
  readonly voice: string;
  readonly grace: boolean;
  readonly prepared: boolean;
  /** Semitones from the note before in its stave, a step at most: 1, 2, -1, -2; 0 otherwise. */
  readonly approach: number;
  /** Semitones to the note after in its stave, a step at most; 0 otherwise. */
  readonly departure: number;
}

/** How long a silence (crotchets, inclusive) may part a note from the one it steps to: a staccato line still moves by step. */
const STEP_GAP_QUARTERS = 0.5;

/** Sounding notes in order of onset, then pitch. */
export function soundingNotes(score: Score): readonly SoundingNote[] {
  const merged = mergeTies(score.notes.filter((note) => !note.cue));
  const gap = score.ticksPerQuarter * STEP_GAP_QUARTERS;
  const starts = groupBy(merged.filter((note) => !note.grace), (note) => note.onset);
  const onsets = [...starts.keys()].sort((a, b) => a - b);
  const ends = groupBy(merged.filter((note) => !note.grace), (note) => note.end);
  const endTicks = [...ends.keys()].sort((a, b) => a - b);
  return merged
    .map((note) => {
      const before = matesAt(note, near(endTicks, note.onset - gap, note.onset), ends).filter((other) => other.onset < note.onset);
      const after = matesAt(note, near(onsets, note.end, note.end + gap), starts);
      return {
        ...note,
        heardUntil: note.end,
        prepared: before.some((other) => other.midi === note.midi),
        approach: -stepTo(note, before),
        departure: stepTo(note, after),
      };
    })
    .sort((a, b) => a.onset - b.onset || a.midi - b.midi || a.noteIndex - b.noteIndex);
}

/** A note before its neighbours are known. */
type Merged = Omit<SoundingNote, 'heardUntil' | 'prepared' | 'approach' | 'departure'>;

/** Other notes of the same stave, at most a step away, at some ticks. */
function matesAt(note: Merged, ticks: readonly number[], groups: ReadonlyMap<number, readonly Merged[]>): readonly Merged[] {
  const mates: Merged[] = [];
  for (const tick of ticks)
    for (const other of groups.get(tick) ?? [])
      if (other !== note && other.staff === note.staff && Math.abs(other.midi - note.midi) <= 2) mates.push(other);
  return mates;
}

/** Notes with the lengths of their ties added. */
function mergeTies(notes: readonly ScoreNote[]): readonly Merged[] {
  const open = new Map<number, number>();
  const merged: Merged[] = [];
  for (const note of notes.toSorted((a, b) => a.onsetTick - b.onsetTick)) {
    const at = note.tieStop ? open.get(note.pitch.midi) : undefined;
    const held = at === undefined ? undefined : merged[at];
    const end = note.onsetTick + note.lengthTicks;
    if (at !== undefined && held !== undefined && held.end >= note.onsetTick) merged[at] = { ...held, end: Math.max(held.end, end) };
    else merged.push(fresh(note));
    if (note.tieStart) open.set(note.pitch.midi, at !== undefined && held !== undefined && held.end >= note.onsetTick ? at : merged.length - 1);
  }
  return merged;
}

/** A sound that begins with this written note. */
function fresh(note: ScoreNote): Merged {
  return {
    noteIndex: note.index,
    onset: note.onsetTick,
    end: note.onsetTick + note.lengthTicks,
    midi: note.pitch.midi,
    pc: mod(note.pitch.midi, 12),
    fifths: fifthsOf(note.pitch),
    staff: note.staff,
    voice: note.voice,
    grace: note.grace !== null || note.lengthTicks === 0,
  };
}

/** The interval to the nearest of some notes if it is a step, those of the same voice first; 0 otherwise. */
function stepTo(note: Merged, others: readonly Merged[]): number {
  const steps = others.filter((other) => Math.abs(other.midi - note.midi) >= 1 && Math.abs(other.midi - note.midi) <= 2);
  const best = steps.find((other) => other.voice === note.voice) ?? steps[0];
  return best === undefined ? 0 : best.midi - note.midi;
}

/** The sorted ticks within [from, to]. */
function near(ticks: readonly number[], from: number, to: number): readonly number[] {
  const start = firstIndex(ticks.length, (i) => (ticks[i] ?? 0) >= from);
  let end = start;
  while (end < ticks.length && (ticks[end] ?? 0) <= to) end += 1;
  return ticks.slice(start, end);
}
