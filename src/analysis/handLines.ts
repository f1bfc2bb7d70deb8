/**
 * The question: what does each hand strike, moment by moment?
 * Conventions: written ticks, each bar once; ties merged, so a held note may end bars later; grace notes and cue notes
 * are left out (they have no moment of their own), hidden notes too (nobody can misread them). Stave 1 is the right hand, every lower one the left.
 * Method: the first pass of every bar, in written order. `broken` marks where two neighbours in print are never played one after
 * the other (a first ending before a second).
 * It does not tell which hand a pupil will really use for an inner note.
 */
import type { Score, ScoreNote } from '../score/index.js';

/** A hand, by its stave. */
export type OneHand = 'right' | 'left';

/** Both hands, right first. */
export const BOTH_HANDS: readonly OneHand[] = ['right', 'left'];

/** A sounding note of a hand. */
export interface HandNote {
  readonly note: ScoreNote;
  readonly onsetTick: number;
  /** Written onset plus its sounding length along the playing order, ties merged. */
  readonly endTick: number;
  readonly midi: number;
  /** Later written notes of its tie chain. */
  readonly tied: readonly ScoreNote[];
}

/** Everything that a hand strikes at one moment. */
export interface HandEvent {
  readonly hand: OneHand;
  readonly onsetTick: number;
  /** When the last of its notes ends. */
  readonly endTick: number;
  readonly barIndex: number;
  /** Lowest first, at least one. */
  readonly notes: readonly HandNote[];
  readonly low: number;
  readonly high: number;
  /** True where the event before it in print is not the one played before it. */
  readonly broken: boolean;
}

/** What each hand strikes, in order of time. */
export type HandLines = Readonly<Record<OneHand, readonly HandEvent[]>>;

/** The hand of a stave. */
export function handOfStaff(staff: number): OneHand {
  return staff <= 1 ? 'right' : 'left';
}

/** The struck moments of both hands. Linear in the number of notes but for one sort. */
export function handLines(score: Score): HandLines {
  const breaks = breaksBefore(score);
  const notes = soundingOnce(score);
  const line = (hand: OneHand): readonly HandEvent[] =>
    events(notes.filter((one) => handOfStaff(one.note.staff) === hand), hand, breaks);
  return { right: line('right'), left: line('left') };
}

/** First-pass notes that have a length, by written onset, then pitch. */
function soundingOnce(score: Score): readonly HandNote[] {
  return score.occurrences
    .flatMap((sound) => {
      const [first, ...tied] = sound.tied.flatMap((index) => score.notes[index] ?? []);
      if (sound.pass !== 1 || first === undefined || first.grace !== null || first.hidden) return [];
      const endTick = first.onsetTick + sound.endTick - sound.onsetTick;
      return [{ note: first, onsetTick: first.onsetTick, endTick, midi: sound.midi, tied }];
    })
    .sort((a, b) => a.onsetTick - b.onsetTick || a.midi - b.midi);
}

/** How many breaks of the playing order lie before each bar: two bars with equal counts follow one another as printed. */
function breaksBefore(score: Score): readonly number[] {
  const follows = new Set<number>();
  score.order.forEach((visit, i) => {
    if (score.order[i - 1]?.barIndex === visit.barIndex - 1) follows.add(visit.barIndex);
  });
  let count = 0;
  return score.bars.map((bar) => (count += bar.index > 0 && !follows.has(bar.index) ? 1 : 0));
}

/** Groups notes by onset. */
function events(notes: readonly HandNote[], hand: OneHand, breaks: readonly number[]): readonly HandEvent[] {
  const groups: HandNote[][] = [];
  for (const one of notes) {
    const last = groups[groups.length - 1];
    if (last?.[0]?.onsetTick === one.onsetTick) last.push(one);
    else groups.push([one]);
  }
  let before = 0;
  return groups.flatMap((group) => {
    const first = group[0];
    if (first === undefined) return [];
    const breakCount = breaks[first.note.barIndex] ?? 0;
    const broken = breakCount !== before;
    before = breakCount;
    return [eventOf(group, first, { hand, broken })];
  });
}

/** The record of one group. */
function eventOf(group: readonly HandNote[], first: HandNote, { hand, broken }: Pick<HandEvent, 'hand' | 'broken'>): HandEvent {
  return {
    hand,
    broken,
    onsetTick: first.onsetTick,
    endTick: group.reduce((end, one) => Math.max(end, one.endTick), 0),
    barIndex: first.note.barIndex,
    notes: group,
    low: first.midi,
    high: group[group.length - 1]?.midi ?? first.midi,
  };
}
