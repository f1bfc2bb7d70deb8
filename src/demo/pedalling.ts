/**
 * The right pedal of a recording, from the marks of the score and the notes as they were played.
 *
 * Legato pedalling: the foot comes up as the new bass sounds and goes down again when it is clear (teaching
 * literature, common practice). How long after the chord that is differs with tempo and player (Repp 1997, "The effect
 * of tempo on pedal timing in piano performance"); the times below are our own choice inside a beat of these pieces.
 */
import { gaussian, type Random } from '../base/index.js';
import { isIn } from './faultPlace.js';
import { faultsOf, type Fault, type Instrument } from './plan.js';
import type { Mark, Piece } from './piece.js';
import type { PedalPoint, TakeNote } from './take.js';

/** When the foot starts up, and starts down again, after the bass: seconds, mean and standard deviation. */
const LIFT_S = { mean: 0.02, deviation: 0.012 } as const;
const PRESS_S = { mean: 0.17, deviation: 0.025 } as const;
/** The same where the bass is lost: the foot comes down too late. */
const LATE_PRESS_S = 0.34;
/** Time of one pedal movement, seconds. */
const TRAVEL_S = 0.07;
/** Positions sent on the way of a continuous pedal. */
const STEPS = 6;
/** How far a continuous pedal goes down, 0-127: mean and deviation. */
const DEPTH = { mean: 118, deviation: 5 } as const;

/** A pedal mark. */
type PedalMark = Extract<Mark, { kind: 'pedal' }>;
/** The change that nobody asked for, on the first beat. */
const LIFT: PedalMark = { kind: 'pedal', at: 0, type: 'change' };

/** One movement of the foot. */
interface Movement {
  readonly timeS: number;
  readonly down: boolean;
}

/** The pedal of a whole recording; empty for an instrument without one. */
export function pedalOf(piece: Piece, notes: readonly TakeNote[], options: { faults: readonly Fault[]; instrument: Instrument; random: Random }): readonly PedalPoint[] {
  if (options.instrument.pedal === 'none') return [];
  const normal = gaussian(options.random);
  const legs = [...new Set(notes.filter((note) => note.leg >= 0).map((note) => note.leg))];
  const movements = legs.flatMap((leg) => legMovements(piece, notes.filter((note) => note.leg === leg), { faults: options.faults, normal }));
  return curve(movements, options.instrument.pedal, normal);
}

/** The foot through one leg: every mark that no planned blur leaves out, and up when the leg ends. */
function legMovements(piece: Piece, notes: readonly TakeNote[], { faults, normal }: { faults: readonly Fault[]; normal: Random }): readonly Movement[] {
  const moves: Movement[] = [];
  for (const visit of [...new Set(notes.map((note) => note.visit))].sort((a, b) => a - b)) {
    const inVisit = notes.filter((note) => note.visit === visit);
    const marks = footMarks(piece.bars[inVisit[0]?.barIndex ?? 0]?.marks ?? []);
    const lifts = moves.length > 0 && touches(faultsOf(faults, 'lifted'), inVisit) && !marks.some((mark) => mark.at === 0);
    for (const mark of lifts ? [LIFT, ...marks] : marks) {
      const here = inVisit.filter((note) => note.at === mark.at);
      if (mark.type === 'stop') moves.push({ timeS: Math.max(...inVisit.map((note) => note.releaseS)), down: false });
      else if (here.length && !touches(faultsOf(faults, 'blurred'), here)) {
        moves.push(...change(here, { late: touches(faultsOf(faults, 'bassNotCaught'), here), first: moves.length === 0, normal }));
      }
    }
  }
  const end = Math.max(...notes.map((note) => note.releaseS));
  return moves.at(-1)?.down === true ? [...moves, { timeS: end, down: false }] : moves;
}

/** The pedal marks that move the foot. */
function footMarks(marks: readonly Mark[]): readonly PedalMark[] {
  return marks.flatMap((mark) => (mark.kind === 'pedal' && mark.only !== 'page' ? [mark] : []));
}

/** Whether a fault lies at this chord, whichever hand it names. */
function touches(faults: readonly Fault[], chord: readonly TakeNote[]): boolean {
  return faults.some((fault) => chord.some((note) => isIn({ ...fault, hand: 'both' }, note)));
}

/** Up and down again around a bass; only down where the pedal was not down yet. */
function change(chord: readonly TakeNote[], { late, first, normal }: { late: boolean; first: boolean; normal: Random }): readonly Movement[] {
  const bassS = Math.min(...chord.filter((note) => note.hand === 'left').map((note) => note.onsetS), Math.max(...chord.map((note) => note.onsetS)));
  const up = bassS + LIFT_S.mean + LIFT_S.deviation * normal();
  const down = bassS + (late ? LATE_PRESS_S : PRESS_S.mean) + PRESS_S.deviation * normal();
  return first ? [{ timeS: down, down: true }] : [{ timeS: up, down: false }, { timeS: down, down: true }];
}

/** Movements as positions: one step for a switch, a short slope for a continuous pedal. */
function curve(movements: readonly Movement[], pedal: 'continuous' | 'switch', normal: Random): readonly PedalPoint[] {
  let depth = 0;
  return movements.flatMap(({ timeS, down }) => {
    const from = depth;
    const full = Math.min(127, Math.max(90, Math.round(DEPTH.mean + DEPTH.deviation * normal())));
    depth = down ? (pedal === 'switch' ? 127 : full) : 0;
    if (pedal === 'switch') return [{ timeS, value: depth }];
    return Array.from({ length: STEPS }, (_, i) => ({ timeS: timeS + (TRAVEL_S * i) / STEPS, value: Math.round(from + ((depth - from) * (i + 1)) / STEPS) }));
  });
}
