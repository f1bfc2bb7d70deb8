/** Question: which hand plays a note of a MIDI file? The file does not say; the rule used is told to the teacher. */
import type { MidiContent, MidiNote } from './midiEvents.js';
import { namesLeftHand, namesRightHand } from './partNames.js';

/** How hands were told from a MIDI file. */
export interface HandRule {
  /** Stave (1 right, 2 left) of a note. */
  readonly staffOf: (note: MidiNote) => number;
  /** The rule in words, for the teacher. */
  readonly text: string;
}

/** Middle C: with a single track, this key and those above count as right hand. */
const SPLIT_PITCH = 60;

/**
 * Tells the hands (our own rule): by track names where two tracks are named so; else of two tracks, or of two channels
 * of one track, the higher on average is the right hand; else everything from middle C up is the right hand.
 */
export function findHands(content: MidiContent): HandRule {
  const named = handsByName(content);
  if (named !== null) return named;
  return (
    byHeight(content.notes, (note) => note.track, 'tracks') ??
    byHeight(content.notes, (note) => note.channel, 'channels') ?? {
      staffOf: (note) => (note.pitch >= SPLIT_PITCH ? 1 : 2),
      text: 'hands cannot be told from this MIDI file: notes from middle C up count as right hand, those below as left',
    }
  );
}

/** Hands by track names; null unless one track names the right hand and another the left. */
function handsByName(content: MidiContent): HandRule | null {
  const right = content.trackNames.findIndex(namesRightHand);
  const left = content.trackNames.findIndex(namesLeftHand);
  if (right < 0 || left < 0 || right === left) return null;
  return { staffOf: (note) => (note.track === left ? 2 : 1), text: 'hands are taken from the names of the tracks' };
}

/** Two groups of notes by their average pitch; null unless there are exactly two. */
function byHeight(notes: readonly MidiNote[], groupOf: (note: MidiNote) => number, what: string): HandRule | null {
  const groups = [...new Set(notes.map(groupOf))];
  const [first, second] = groups;
  if (groups.length !== 2 || first === undefined || second === undefined) return null;
  const height = (group: number): number => {
    const members = notes.filter((note) => groupOf(note) === group);
    return members.reduce((sum, note) => sum + note.pitch, 0) / members.length;
  };
  const lower = height(first) < height(second) ? first : second;
  return {
    staffOf: (note) => (groupOf(note) === lower ? 2 : 1),
    text: `hands are taken from the two ${what}: the higher one on average is the right hand`,
  };
}
