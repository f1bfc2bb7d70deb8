/*
 * Dots and wedges: are they short?
 *
 * What is a fault: dots that last as long as portato would. Half the written value is a staccato, three quarters a portato (manuals,
 * common practice); a slow one is under 0.2 s, so very long notes are measured against less than their value. A hand that plays all of
 * its dots nearer to portato than to staccato is told sooner than a single passage. Under the pedal the ear cannot tell, only the keys can:
 * there a dot is long only where its key outlasts the written note. One key of a chord that stays down is heard.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { HANDS, type BarFacts, type Hand } from '../measure/index.js';
import { heldFinding, percent, type HeldGround, type HeldNote } from './heldNotes.js';
import { lapses, type LapseRule } from './lapses.js';
import type { Finding } from './types.js';

/** Share of the written value that a dot lasts: half (manuals, common practice). */
export const DOT_SHARE = 0.5;

/** From this share (>=) of the written value on a dot is too long: that of portato (manuals, common practice). */
export const DOT_LONG_SHARE = 0.75;

/** Of a slow note no more than this counts as its value, seconds: three quarters of it are three times what a slow staccato lasts (0.2 s, common practice). */
export const DOT_SLOW_S = 0.8;

/** Shorter (<) than this a key press is short whatever the value, seconds: about the shortest that a finger makes on purpose without effort. Our own rule. */
export const DOT_ALWAYS_SHORT_S = 0.1;

/** A hand whose dots last at least this share (>=) in the middle has it for a habit: half-way from staccato to portato. */
export const DOT_HABIT_SHARE = 0.625;

/** Fewest dots (>=) that have a middle. Our own rule. */
const HABIT_LEAST = 4;

/** From this share (>=) on a dot under the pedal is long: its key outlasts the note. */
const PEDALLED_LONG_SHARE = 1;

/** How sure the program is of dots that it knows by the keys alone. Our own rule. */
const PEDALLED_CONFIDENCE = 0.7;

/** So many long dots of so many are heard as one thing. Our own rule. */
const RULE: LapseRule = { least: 3, share: 0.5 };

/** One chord with dots. */
export interface Dot {
  readonly bar: BarFacts;
  readonly hand: Hand;
  /** Share of the written value that its longest key was down. */
  readonly share: number;
  /** True where the pedal kept its sound. */
  readonly pedalled: boolean;
  readonly bad: boolean;
  readonly notes: readonly HeldNote[];
}

/** Every chord with dots, too long or not by the habit of its hand. */
export function dotsOf(ground: HeldGround): readonly Dot[] {
  const marked = ground.notes.filter(({ asked }) => asked.touch === 'staccato' || asked.touch === 'staccatissimo');
  const dots = [...groupBy(marked, ({ chord }) => chord).values()].flatMap(dotOf);
  return HANDS.flatMap((hand) => {
    const own = dots.filter((dot) => dot.hand === hand);
    const habit = own.length >= HABIT_LEAST && median(own.map(({ share }) => share)) >= DOT_HABIT_SHARE;
    return own.map((dot) => ({ ...dot, bad: dot.long && dot.share >= (dot.pedalled ? PEDALLED_LONG_SHARE : habit ? DOT_HABIT_SHARE : DOT_LONG_SHARE) }));
  });
}

/** A chord; nothing where no length could be measured. `long` where its longest key is no short press. */
function dotOf(notes: readonly HeldNote[]): readonly (Omit<Dot, 'bad'> & { readonly long: boolean })[] {
  const [first] = notes;
  const lengths = notes.flatMap(({ holding: { length } }) => (length.measured ? [length.value] : []));
  if (first === undefined || lengths.length === 0) return [];
  const share = Math.max(...lengths.map(({ keyS, writtenS }) => keyS / Math.min(writtenS, DOT_SLOW_S)));
  const long = Math.max(...lengths.map(({ keyS }) => keyS)) >= DOT_ALWAYS_SHORT_S;
  return [{ bar: first.bar, hand: first.hand, share, long, pedalled: lengths.some(({ soundS, keyS }) => soundS > keyS), notes }];
}

/** Bars in which the dots are too long, each hand by itself. */
export function dotFindings(ground: HeldGround, dots: readonly Dot[]): readonly Finding[] {
  return HANDS.flatMap((hand) => lapses(dotTrials(dots, hand), RULE).map(({ bar, bad }) => {
    const share = median(bad.map((dot) => Math.min(dot.share, 1)));
    return heldFinding(ground, {
      aspect: 'touch', kind: 'staccatoLong', hand, bar, notes: bad.flatMap(({ notes }) => notes), value: percent(share), unit: '%', threshold: percent(DOT_LONG_SHARE),
      ratio: Math.max(1, (share - DOT_SHARE) / (DOT_LONG_SHARE - DOT_SHARE)), confidence: bad.every(({ pedalled }) => pedalled) ? PEDALLED_CONFIDENCE : 1,
    });
  }));
}

/** The dots of a hand that tell something: those that the pedal covers only where the keys show them to be long. */
export function dotTrials(dots: readonly Dot[], hand: Hand): readonly Dot[] {
  return dots.filter((dot) => dot.hand === hand && (dot.bad || !dot.pedalled));
}
