import { firstIndex, groupBy } from '../base/index.js';
import type { ControlPoint, RecordedNote, Recording } from '../recording/index.js';
import type { Change, ClockPoint, Version, VersionName } from './types.js';

/** A note in the making. */
export interface DraftNote extends Omit<RecordedNote, 'index'> {
  /** Its place in the notes as played; null for one that was not played. */
  readonly from: number | null;
}

/** The notes as played, to be changed. */
export function draftOf({ notes }: Recording): readonly DraftNote[] {
  return notes.map(({ index, ...note }) => ({ ...note, from: index }));
}

/** What a version is put together from; what is left out stays as it was played. */
export interface Parts {
  readonly notes?: readonly DraftNote[];
  readonly sustain?: readonly ControlPoint[];
  readonly clock?: readonly ClockPoint[];
  readonly changes: readonly Change[];
}

/** A version from its parts: notes in order and numbered anew, the end no earlier than the last note. */
export function versionOf(name: VersionName, played: Recording, { notes = draftOf(played), sustain = played.sustain, clock = [], changes }: Parts): Version {
  const ordered = [...notes].sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
  const recording: Recording = {
    ...played,
    notes: ordered.map(recordedNote),
    sustain,
    durationS: ordered.reduce((end, { releaseS }) => Math.max(end, releaseS), played.durationS),
  };
  return { name, recording, from: ordered.map(({ from }) => from), clock, changes: [...changes].sort((a, b) => a.startS - b.startS) };
}

/** A note without its origin, at its place. */
function recordedNote({ onsetS, releaseS, pitch, velocity, releaseVelocity, hanging }: DraftNote, index: number): RecordedNote {
  return { index, onsetS, releaseS, pitch, velocity, releaseVelocity, hanging };
}

/** Time between a key's release and its next stroke that any action needs, seconds: our own rule. */
export const REPEAT_GAP_S = 0.02;

/** Gives a note its new end. */
export type EndBefore = (note: Pick<RecordedNote, 'onsetS' | 'pitch'>, wantedS: number) => number;

/**
 * New ends of notes, each no later than the next stroke of its key lets it.
 * @param strokes all notes that stay
 */
export function endsBefore(strokes: readonly Pick<RecordedNote, 'onsetS' | 'pitch'>[]): EndBefore {
  const byKey = new Map([...groupBy(strokes, ({ pitch }) => pitch)].map(([pitch, own]) => [pitch, own.map(({ onsetS }) => onsetS).sort((a, b) => a - b)]));
  return ({ onsetS, pitch }, wantedS) => {
    const own = byKey.get(pitch) ?? [];
    const next = own[firstIndex(own.length, (i) => (own[i] ?? Infinity) > onsetS)] ?? Infinity;
    return Math.max(onsetS + REPEAT_GAP_S, Math.min(wantedS, next - REPEAT_GAP_S));
  };
}
