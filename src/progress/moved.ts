/*
 * Did what a fault was made of really change from one recording to the other?
 *
 * A judgement has an edge: what lies just on this side of it is said, what lies just on the other is not. So where a fault is
 * in one recording only, the measured values at its place are compared, and only where they differ beyond scatter and
 * hearing (scatter.ts) has something changed. Wrong notes: the keys pressed in those bars. Going back, waits and stops are
 * events and come of no scatter.
 */
import type { Aspect, FoundPlace } from '../judge/index.js';
import { footMoved } from './footMoved.js';
import { keysPressed } from './keysPressed.js';
import { markMoved } from './markMoved.js';
import { differs, differsInShape, LEVEL_UNITS, type Values } from './scatter.js';
import { keyOf, type Side, type Spot } from './sides.js';
import { footShares, keyShares, onsetValues, overValues, soundShares, tempoValues, tuneOverValues } from './values.js';

/** Onsets, ms: less (<) is no change in music. A displaced tone is heard from 6 ms or 2.5 % on (Friberg and Sundberg 1995), in even tones and by trained listeners. */
const ONSET_MS = 20;

/** Share of the written length: less (<) is a matter of chance. Common practice, no source. */
const LENGTH_SHARE = 0.12;

/** Share of the tempo: less (<) is not noticed (Drake and Botte 1993: 6 % in a single interval, 3 % over six). */
const TEMPO_SHARE = 0.06;

/** The same between the quickest and the slowest of several bars, where chance adds up. */
const TEMPO_BEND = 0.1;

/** Share of a bar that the foot is down: less (<) is another way to play the same. Our own rule. */
const FOOT_SHARE = 0.1;

/** Kinds that are events, beside the aspects `notes` and `route`. */
const EVENT_KINDS: ReadonlySet<string> = new Set(['hesitation', 'stop']);

/** Kinds of other aspects that are a matter of which keys went down. */
const KEY_KINDS: ReadonlySet<string> = new Set(['tieStruckAgain', 'didNotSpeak', 'splitNote']);

/** How each aspect's values are compared. */
const COMPARED: Readonly<Record<Aspect, (spot: Spot) => boolean>> = {
  notes: keysPressed,
  route: () => true,
  rhythm: (spot) => differs(...spot.values(onsetValues), { places: notesOf(spot), floor: ONSET_MS }),
  pulse: (spot) => EVENT_KINDS.has(spot.observation.kind) || tempoBends(spot),
  tempo: (spot) => inBars(spot, tempoValues, TEMPO_SHARE),
  lengths: lengthsDiffer,
  touch: lengthsDiffer,
  pedal: (spot) => footMoved(spot) || inBars(spot, footShares, FOOT_SHARE),
  dynamics: (spot) => markMoved(spot) ?? differs(...spot.values(overValues), { places: notesOf(spot), floor: LEVEL_UNITS }),
  balance: (spot) => inBars(spot, tuneOverValues, LEVEL_UNITS),
};

/** True where the measured values at a place differ beyond scatter and hearing. */
export function hasMoved(spot: Spot): boolean {
  const { aspect, kind } = spot.observation;
  return KEY_KINDS.has(kind) ? keysPressed(spot) : COMPARED[aspect](spot);
}

/** True where the tempo goes another way from the bar before to the bar after. */
function tempoBends({ values, place }: Spot): boolean {
  const around = { ...place, fromBar: place.fromBar - 1, toBar: place.toBar + 1 };
  return differsInShape(...values(tempoValues), { places: barsOf(around), floor: TEMPO_BEND });
}

/** True where bars differ. */
function inBars({ values, place }: Spot, read: (side: Side) => Values, floor: number): boolean {
  return differs(...values(read), { places: barsOf(place), floor });
}

/** The bars of a place, as keys. */
function barsOf({ fromBar, toBar, pass }: FoundPlace): readonly string[] {
  return Array.from({ length: toBar - fromBar + 1 }, (_, i) => keyOf({ barIndex: fromBar + i, pass }));
}

/** True where notes were let go earlier or later, by the finger or by the ear. */
function lengthsDiffer(spot: Spot): boolean {
  return [keyShares, soundShares].some((read) => differs(...spot.values(read), { places: notesOf(spot), floor: LENGTH_SHARE }));
}

/** Occurrences of the notes that a fault is seen at; where it names none, all of its hand in its bars. */
function notesOf({ clear: { input, pairs }, observation, place }: Spot): readonly number[] {
  const named = new Set(place.notes);
  const staff = observation.hand === null ? null : observation.hand === 'right' ? 1 : 2;
  return [...pairs.keys()].filter((occurrence) => {
    const written = input.score.occurrences[occurrence];
    if (written === undefined || written.pass !== place.pass || written.barIndex < place.fromBar || written.barIndex > place.toBar) return false;
    return named.size > 0 ? named.has(written.noteIndex) : staff === null || written.staff === staff;
  });
}
