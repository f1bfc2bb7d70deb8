import type { BarNote, BarRest } from './notes.js';

/** Notes and rests of one bar in file order. */
export type BarItem = { readonly note: BarNote } | { readonly rest: BarRest };

/**
 * Gives every grace note its place: how many grace notes (a chord of them counts once) of its voice still come before
 * the main note, itself included. The main note is the next full note of the voice at the same onset; where a rest,
 * another onset or the end of the bar follows instead, they are after-notes, counted down to the last of them.
 */
export function placeGraces(items: readonly BarItem[]): readonly BarNote[] {
  const following = new Map<string, { readonly onset: number; readonly count: number; readonly after: boolean }>();
  const placed: BarNote[] = [];
  for (const item of items.toReversed()) {
    if ('rest' in item) {
      following.delete(item.rest.voice);
      continue;
    }
    const { note } = item;
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
