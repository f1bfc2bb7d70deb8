/** Faults of every size for the judges of time and touch: the pieces they are planted in, and the fault with its size. All invented. */
import type { Occurrence, Score } from '../../src/score/index.js';
import type { Held } from '../measure/holdingPiece.js';
import { left, right, run, scoreOf, TICKS, type Clock, type Written } from '../measure/piece.js';
import { tune } from './heldPlayers.js';
import { barsClock } from './timePiece.js';

/** Notes of these lengths over bars of four crotchets, with a left hand in crotchets below. */
export function over(pattern: readonly number[], bars: number, withLeft = true): Written[] {
  const out: Written[] = [];
  let at = 0;
  for (let i = 0; at < 4 * bars - 1e-9; i += 1) {
    const length = pattern[i % pattern.length]!;
    const bar = Math.floor(at / 4 + 1e-9);
    out.push(right(1 + bar, 1 + at - 4 * bar, 60 + (i % 7), length));
    at += length;
  }
  return withLeft ? [...out, ...run(left, 4 * bars).map((one) => ({ ...one, pitch: one.pitch - 24 }))] : out;
}

/** Triplets in crotchets are no exact numbers; ticks are. */
export function exact(score: Score): Score {
  return { ...score, occurrences: score.occurrences.map((one) => ({ ...one, onsetTick: Math.round(one.onsetTick), endTick: Math.round(one.endTick) })) };
}

/** Where a note stands, in crotchets. */
export const crotchets = ({ onsetTick }: Occurrence): number => onsetTick / TICKS;

/** Two bars of crotchets, then four of dotted pairs. */
export const DOTTED_PAIRS: Score = scoreOf([...run(right, 8), ...over([0.75, 0.25], 4).map((one) => ({ ...one, bar: one.bar + 2 })), ...run(left, 8)]);

/** The short notes of the dotted pairs that much early: of 600 ms they are due at 450, even at 300. */
export const shortNotesEarly = (ms: number) => (one: Occurrence): number => (crotchets(one) >= 8 && crotchets(one) % 1 === 0.75 ? -ms : 0);

/** Sixteen bars of crotchets in both hands. */
export const HANDS_TOGETHER: Score = scoreOf([...run(right, 64), ...run(left, 64).map((one) => ({ ...one, pitch: one.pitch - 24 }))]);

/** The left hand that much behind in bars 5 to 8. */
export const leftBehind = (ms: number) => ({ staff, onsetTick }: Occurrence): number => (staff === 2 && onsetTick >= 16 * TICKS && onsetTick < 32 * TICKS ? ms : 0);

/** Crotchets of 0.6 s, and a wait (beats) before the third beat of bar 7. */
export const waiting = (beats: number): Clock => (c) => 0.6 * c + (c >= 26 ? 0.6 * beats : 0);

/** Crotchets of 0.6 s, and bars 6 to 9 quicker and quicker, the last by this share. */
export const running = (by: number): Clock => barsClock((bar) => (bar >= 5 && bar <= 8 ? 0.6 / (1 + (by * (bar - 4)) / 4) : 0.6));

/** Eight bars: a semibreve in the right hand, held as told by bar; crotchets in the left. */
export const long = (share: (bar: number) => number, more: Partial<Held> = {}): readonly Held[] => Array.from({ length: 8 }, (_, i) => i + 1)
  .flatMap((bar) => [{ ...right(bar, 1, 66 + (bar % 3), 4), share: share(bar), ...more }, ...[1, 2, 3, 4].map((beat) => ({ ...left(bar, beat, 45 + beat), share: 0.9 }))]);

/** Eight bars: a minim and a minim's rest in the right hand. */
export const resting = (share: (bar: number) => number): readonly Held[] => long(() => 1).map((note) => (note.staff === 1 ? { ...note, length: 2, share: share(note.bar) } : note));

/** One share in bar 5, another elsewhere. */
export const inBar5 = (usual: number, other: number) => (bar: number): number => (bar === 5 ? other : usual);

/** One share in bars 5 and 6, another elsewhere. */
export const inBars5And6 = (usual: number, other: number) => (bar: number): number => (bar === 5 || bar === 6 ? other : usual);

/** Eight bars of crotchets with dots. */
export const dotted = (share: (bar: number) => number): readonly Held[] => tune((bar) => ({ marks: ['staccato'], share: share(bar) }));

/** The same under a slur a bar. */
export const slurred = (share: (bar: number) => number): readonly Held[] => tune((bar, beat) => ({ slur: slurAt(beat), share: share(bar) }));

/** Dots under a slur: portato. It lasts three quarters, a staccato half, a tenuto all of the value (manuals, common practice). */
export const portato = (share: (bar: number) => number): readonly Held[] => tune((bar, beat) => ({ marks: ['staccato'], slur: slurAt(beat), share: share(bar) }));

/** Lines on the first and third crotchet. */
export const lined = (share: (bar: number) => number): readonly Held[] => tune((bar, beat) => ({ marks: beat === 1 || beat === 3 ? ['tenuto'] : [], share: share(bar) }));

/** A slur over a bar of four. */
function slurAt(beat: number): Held['slur'] {
  if (beat === 1) return 'start';
  return beat === 4 ? 'stop' : undefined;
}
