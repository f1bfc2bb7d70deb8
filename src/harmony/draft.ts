/** Harmonies on their way from the search to their names: a chord, where it stands, and what sounds in it. */
import type { Cell } from './grid.js';
import type { SoundingNote } from './notes.js';
import { mod, nearestFifths, tonicFifths } from './pitchNames.js';
import { modeOf, tonicOf } from './profiles.js';
import type { Segment } from './segment.js';
import { CHORDS } from './templates.js';
import type { Mode, Quality, SoughtQuality } from './types.js';

/** A key with its tonic on the line of fifths. */
export interface SpelledKey {
  readonly tonic: number;
  readonly mode: Mode;
  /** The tonic's place on the line of fifths. */
  readonly fifths: number;
}

/** A harmony before it is named. */
export interface Draft {
  readonly from: number;
  readonly to: number;
  readonly barIndex: number;
  readonly beat: number;
  readonly key: SpelledKey;
  readonly root: number;
  /** Pitch classes in the order root, third, fifth, seventh. */
  readonly members: readonly number[];
  readonly quality: Quality;
  /** Full notes that sound in it, those held into it included. */
  readonly notes: readonly SoundingNote[];
  /** The lowest note of its first beat, or null in silence. */
  readonly lowest: SoundingNote | null;
}

/** A numbered key, its tonic spelled so that its scale lies nearest to a mean place of notes on the line of fifths. */
export function spelledKey(key: number, meanFifths: number): SpelledKey {
  const mode = modeOf(key);
  return { tonic: tonicOf(key), mode, fifths: tonicFifths(tonicOf(key), mode, meanFifths) };
}

/** Drafts of the segments found. `keyAt` gives the key of a cell. */
export function draftsOf(
  segments: readonly Segment[],
  cells: readonly Cell[],
  { notes, keyAt }: { readonly notes: readonly SoundingNote[]; readonly keyAt: (cell: Cell) => SpelledKey },
): readonly Draft[] {
  const full = notes.filter((note) => !note.grace);
  const held = new Set<SoundingNote>();
  let next = 0;
  return segments.flatMap((segment) => {
    const first = cells[segment.fromCell];
    const last = cells[segment.toCell - 1];
    const chord = CHORDS[segment.chord];
    if (first === undefined || last === undefined || chord === undefined) return [];
    for (; (full[next]?.onset ?? Infinity) < last.to; next += 1) {
      const note = full[next];
      if (note !== undefined) held.add(note);
    }
    for (const note of held) if (note.heardUntil <= first.from) held.delete(note);
    return [{
      from: first.from,
      to: last.to,
      barIndex: first.barIndex,
      beat: first.beat,
      key: keyAt(first),
      root: chord.root,
      members: chord.template.intervals.map((interval) => mod(chord.root + interval, 12)),
      quality: namedQuality(chord.template.quality),
      notes: [...held].filter((note) => note.end > first.from),
      lowest: bassOf([...held], first.from + first.beat),
    }];
  });
}

/** The lowest of the notes that begin before a tick; where a tune alone begins a harmony and the lower stave joins it later, the lowest of what it brings. */
function bassOf(notes: readonly SoundingNote[], before: number): SoundingNote | null {
  const lowest = (some: readonly SoundingNote[]): SoundingNote | null => some.reduce<SoundingNote | null>((low, note) => (low === null || note.midi < low.midi ? note : low), null);
  const early = notes.filter((note) => note.onset < before);
  const late = notes.filter((note) => note.onset >= before && early.every((other) => note.staff > other.staff));
  const alone = early.every((note) => early.every((other) => other === note || other.onset !== note.onset));
  const first = late.reduce((earliest, note) => Math.min(earliest, note.onset), Infinity);
  return alone && late.length > 0 ? lowest(late.filter((note) => note.onset === first)) : lowest(early);
}

/** The cadential six-four is one thing in both modes. */
function namedQuality(quality: SoughtQuality): Quality {
  return quality === 'cadentialSixFourMinor' ? 'cadentialSixFour' : quality;
}

/** How a pitch class is spelled by the notes of a draft (the longest-sounding spelling), or null where it does not sound. */
export function spellingIn(draft: Draft, pc: number): number | null {
  const lengths = new Map<number, number>();
  for (const note of draft.notes)
    if (note.pc === pc) lengths.set(note.fifths, (lengths.get(note.fifths) ?? 0) + Math.min(note.end, draft.to) - Math.max(note.onset, draft.from));
  return [...lengths].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

/** How a key spells a pitch class: five steps down to six up from its tonic, so that the flattened supertonic is flat and the raised fourth sharp. */
export function spellingInKey(key: SpelledKey, pc: number): number {
  // the middle of that window lies half a step above the tonic
  return nearestFifths(pc, key.fifths + 0.5);
}
