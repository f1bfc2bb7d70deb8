/**
 * Grace notes have no duration; their place is counted towards the note they lean on, because a player may take the
 * time from before it or from it, and both are right.
 */
import type { BarNote } from './notes.js';

/**
 * Gives every grace note its place: how many grace notes (a chord of them counts once) of its voice still come before
 * the main note, itself included. The main note is the next full note of the voice at the same onset; where another
 * onset (a rest lies between) or the end of the bar follows instead, they are after-notes, counted down to the last.
 * @param notes notes of one bar in file order
 */
export function placeGraces(notes: readonly BarNote[]): readonly BarNote[] {
  const following = new Map<string, { readonly onset: number; readonly count: number; readonly after: boolean }>();
  const placed: BarNote[] = [];
  for (const note of notes.toReversed()) {
    if (note.grace === null) {
      following.set(note.voice, { onset: note.offsetTicks, count: 0, after: false });
      placed.push(note);
      continue;
    }
    const next = following.get(note.voice);
    const ahead = next?.onset === note.offsetTicks ? next : { count: 0, after: true };
    placed.push({ ...note, grace: { ...note.grace, before: ahead.count + 1, after: ahead.after } });
    if (!note.inChord) following.set(note.voice, { onset: note.offsetTicks, count: ahead.count + 1, after: ahead.after });
  }
  return placed.reverse();
}
