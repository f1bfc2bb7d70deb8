/*
 * The teacher's question: what touch does the page ask of this note?
 *
 * Conventions: one entry a written note, in the order of `Score.notes`; of a chord every note has what any of its notes has.
 *   `joined` holds for the way from this note to the next of its voice; the last note under a slur is not joined on.
 * Method: slurs are paired by their number within a voice, else within the stave; dots under a slur, its last note with
 *   them, or with a line are portato. A slur counts by the notes it covers in its voice.
 * Source: MusicXML 4.0 for the marks (dot, wedge, line, line and dot); what they mean is common practice.
 * What it does not tell: what unmarked notes should be. They have no required touch.
 */
import { groupBy } from '../base/index.js';
import type { Articulation, Score, ScoreNote } from '../score/index.js';

/** A touch that is marked; `slurred` is under a slur without any other mark. */
export type MarkedTouch = 'slurred' | 'staccato' | 'staccatissimo' | 'portato' | 'tenuto';

/** What is asked of one note. */
export interface TouchAsked {
  /** Null where nothing is marked. */
  readonly touch: MarkedTouch | null;
  /** True where it is to be joined to the next note of its voice: a slur without dots goes on over it. */
  readonly joined: boolean;
  /** Chords under the slur that ends with this note, this one counted in; 0 where no slur ends. */
  readonly slurEnds: number;
}

/** A slur over the notes of one voice. */
interface Slur {
  readonly fromTick: number;
  /** Onset of its last note. */
  readonly toTick: number;
  readonly lines: ReadonlySet<string>;
}

/** The touch that every written note is marked with. */
export function touchAsked(score: Score): readonly TouchAsked[] {
  const byLine = groupBy(score.notes.filter((note) => note.grace === null && !note.cue), lineOf);
  const slurs = slursOf(score);
  const asked = new Map<number, TouchAsked>();
  for (const [line, notes] of byLine) {
    const chords = [...groupBy(notes, ({ onsetTick }) => onsetTick)].sort((a, b) => a[0] - b[0]);
    const cover = covering(chords.map(([tick]) => tick), slurs.filter(({ lines }) => lines.has(line)));
    chords.forEach(([, chord], place) => {
      const touch = askedOf(chord, cover[place] ?? { over: false, ends: 0 }, chords[place - 1]?.[1] ?? []);
      for (const { index } of chord) asked.set(index, touch);
    });
  }
  return score.notes.map(({ index }) => asked.get(index) ?? { touch: null, joined: false, slurEnds: 0 });
}

/** Stave and voice: the line that a slur joins. */
export function lineOf({ staff, voice }: Pick<ScoreNote, 'staff' | 'voice'>): string {
  return `${staff} ${voice}`;
}

/** What slurs do at one chord. */
interface Cover {
  /** A slur goes on over it. */
  readonly over: boolean;
  /** Chords of a slur that ends here. */
  readonly ends: number;
}

/** What the slurs of a line do at each of its chords. */
function covering(ticks: readonly number[], slurs: readonly Slur[]): readonly Cover[] {
  const over = ticks.map(() => 0);
  const ends = ticks.map(() => 0);
  const placeOf = new Map(ticks.map((tick, place) => [tick, place]));
  for (const { fromTick, toTick } of slurs) {
    const to = placeOf.get(toTick) ?? ticks.findLastIndex((tick) => tick <= toTick);
    const from = placeOf.get(fromTick) ?? ticks.findIndex((tick) => tick >= fromTick);
    for (let place = Math.max(0, from); place < to; place += 1) over[place] = 1;
    if (placeOf.has(toTick)) ends[to] = Math.max(ends[to] ?? 0, to - from + 1);
  }
  return ticks.map((_, place) => ({ over: over[place] === 1, ends: ends[place] ?? 0 }));
}

/** The touch of one chord, with the chord before it in its voice. */
function askedOf(chord: readonly ScoreNote[], { over, ends }: Cover, before: readonly ScoreNote[]): TouchAsked {
  const marks = new Set(chord.flatMap(({ articulations }) => articulations));
  const has = (...some: readonly Articulation[]): boolean => some.some((mark) => marks.has(mark));
  const dotted = has('staccato');
  const lastOfDotted = ends > 0 && before.some(({ articulations }) => articulations.includes('staccato'));
  const portato = has('detachedLegato') || (dotted && (over || lastOfDotted || has('tenuto')));
  const short = has('staccatissimo', 'spiccato');
  const joined = over && !dotted && !short && !portato;
  return { touch: touchOf({ portato, short, dotted, joined, tenuto: has('tenuto') }), joined, slurEnds: ends };
}

/** The strongest of the marks. */
function touchOf(is: { readonly portato: boolean; readonly short: boolean; readonly dotted: boolean; readonly joined: boolean; readonly tenuto: boolean }): MarkedTouch | null {
  if (is.portato) return 'portato';
  if (is.short) return 'staccatissimo';
  if (is.dotted) return 'staccato';
  if (is.joined) return 'slurred';
  return is.tenuto ? 'tenuto' : null;
}

/** A slur that waits for its end. */
interface OpenSlur {
  readonly note: ScoreNote;
  readonly number: number;
}

/** Starts and stops paired, in the order of time. Where a number is used by two voices at once, the voice decides. */
function slursOf(score: Score): readonly Slur[] {
  const slurs: Slur[] = [];
  let open: OpenSlur[] = [];
  const marked = score.notes.filter((note) => note.slurs.length > 0 && !note.cue).toSorted((a, b) => a.onsetTick - b.onsetTick);
  for (const note of marked) {
    for (const { number } of note.slurs.filter(({ kind }) => kind === 'stop')) {
      const start = open.findLast((one) => one.number === number && lineOf(one.note) === lineOf(note)) ?? open.findLast((one) => one.number === number);
      if (start === undefined) continue;
      open = open.filter((one) => one !== start);
      slurs.push({ fromTick: start.note.onsetTick, toTick: note.onsetTick, lines: new Set([lineOf(start.note), lineOf(note)]) });
    }
    for (const { number } of note.slurs.filter(({ kind }) => kind === 'start')) open.push({ note, number });
  }
  return slurs;
}
