/** Faults of time: everything after them moves along. */
import { isIn, type FaultOf } from './faultPlace.js';
import type { TakeNote } from './take.js';

/** Half of a dotted pair as played even, share of the pair. */
const EVEN = 0.5;
/** How near before the first note of a place another note still belongs to the same moment, seconds. */
const TOGETHER_S = 0.08;

/** A wait before the first bar named: that moment and all after it come later; keys that are down stay down. */
export function hesitate(notes: readonly TakeNote[], fault: FaultOf<'hesitation'>): readonly TakeNote[] {
  return firstMoments(notes, fault).reduce((all, { from }) => remap(all, (timeS) => (timeS < from ? timeS : timeS + fault.pauseS)), notes);
}

/** The bars named take `factor` of their time; all after them comes sooner. */
export function rush(notes: readonly TakeNote[], fault: FaultOf<'rushed'>): readonly TakeNote[] {
  const [stretch] = firstMoments(notes, fault);
  if (!stretch) return notes;
  const { from, to } = stretch;
  const saved = (to - from) * (1 - fault.factor);
  return remap(notes, (timeS) => (timeS < from ? timeS : timeS > to ? timeS - saved : from + (timeS - from) * fault.factor));
}

/** The short note of each dotted pair comes in the middle of the pair; the long one is let go with it. */
export function evenDots(notes: readonly TakeNote[], fault: FaultOf<'evenDots'>): readonly TakeNote[] {
  const moves = new Map<TakeNote, number>();
  for (const short of notes.filter((note) => note.written?.shortOfPair === true && isIn(fault, note))) {
    const long = notes.find((note) => note.hand === short.hand && note.leg === short.leg && note.visit === short.visit && note.at === short.at - 3);
    if (long) moves.set(short, (short.onsetS - long.onsetS) * (1 - EVEN / 0.75));
  }
  return notes.map((note) => {
    const own = moves.get(note) ?? 0;
    const next = [...moves].find(([short]) => short.hand === note.hand && short.leg === note.leg && short.visit === note.visit && short.at === note.at + 3);
    return { ...note, onsetS: note.onsetS - own, releaseS: note.releaseS - (next ? next[1] : 0) };
  });
}

/** Every second semiquaver of a run later; the one before it is held until then. */
export function unevenRuns(notes: readonly TakeNote[], fault: FaultOf<'unevenRuns'>): readonly TakeNote[] {
  const delays = new Map<TakeNote, number>();
  const waits = new Map<TakeNote, number>();
  for (const note of notes.filter((each) => each.written?.length === 1 && each.at % 2 === 1 && isIn(fault, each))) {
    const before = notes.find((each) => each.hand === note.hand && each.leg === note.leg && each.visit === note.visit && each.at === note.at - 1);
    if (!before) continue;
    delays.set(note, fault.share * (note.onsetS - before.onsetS));
    waits.set(before, fault.share * (note.onsetS - before.onsetS));
  }
  return notes.map((note) => ({ ...note, onsetS: note.onsetS + (delays.get(note) ?? 0), releaseS: note.releaseS + (waits.get(note) ?? 0) }));
}

/** Seconds at which each visit to the bars named begins, and at which what follows it in the same leg begins. */
function firstMoments(notes: readonly TakeNote[], fault: FaultOf<'hesitation' | 'rushed'>): readonly { from: number; to: number }[] {
  const legs = [...new Set(notes.filter((note) => isIn(fault, note)).map((note) => note.leg))];
  return legs.reverse().map((leg) => {
    const inside = notes.filter((note) => note.leg === leg && isIn({ ...fault, hand: 'both' }, note));
    const from = Math.min(...inside.map((note) => note.onsetS));
    const last = Math.max(...inside.map((note) => note.visit));
    const after = notes.filter((note) => note.leg === leg && note.visit > last).map((note) => note.onsetS);
    const end = Math.max(...inside.map((note) => note.releaseS));
    return { from: from - TOGETHER_S / 2, to: (after.length ? Math.min(...after) : end) - TOGETHER_S / 2 };
  });
}

/** Moves every press and release along a new time; nothing becomes shorter than 20 ms. */
function remap(notes: readonly TakeNote[], time: (timeS: number) => number): readonly TakeNote[] {
  return notes.map((note) => ({ ...note, onsetS: time(note.onsetS), releaseS: Math.max(time(note.onsetS) + 0.02, time(note.releaseS)) }));
}
