/**
 * The right pedal of a recording, from the marks of the score and the notes as they were played.
 *
 * Legato pedalling: the foot comes up as the new bass sounds and goes down again when it is clear, and the key of the bass
 * stays down until then (teaching literature, common practice). How long after the chord that is differs with tempo and
 * player, less than in proportion (Repp 1997, "The effect of tempo on pedal timing in piano performance"): pianists on a
 * computer-monitored grand (Goebl 1999, Vienna 4x22 corpus) keep the foot up for 0.2 to 0.4 s in slow pieces.
 */
import { gaussian, type Random } from '../base/index.js';
import { isIn } from './faultPlace.js';
import { faultsOf, type Fault, type Instrument } from './plan.js';
import { beatLength, crotchetsPerMinute, type Mark, type Piece } from './piece.js';
import type { PedalPoint, TakeNote } from './take.js';

/** When the foot starts up after the bass: seconds, mean and standard deviation. */
const LIFT_S = { mean: 0.03, deviation: 0.015 } as const;
/** How long the foot stays up: so many seconds, and this share of a beat; standard deviation in seconds. */
const UP = { leastS: 0.14, ofBeat: 0.13, deviationS: 0.035 } as const;
/** The foot is down so long before the finger leaves the bass, seconds. */
const CAUGHT_BEFORE_S = 0.06;
/** How much later the foot comes down where the bass is lost, seconds. */
const LATE_S = 0.15;
/** How long the foot stays up where it catches the old sound, seconds. */
const CAUGHT_UP_S = 0.05;
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

/** The foot of one player: what goes wrong, chance, and how long it stays up as a rule. */
interface Foot {
  readonly faults: readonly Fault[];
  readonly normal: Random;
  /** Seconds. */
  readonly upS: number;
}

/** The pedal of a whole recording; empty for an instrument without one. `tempo` is the player's, 1 as marked. */
export function pedalOf(piece: Piece, notes: readonly TakeNote[], options: { faults: readonly Fault[]; instrument: Instrument; tempo: number; random: Random }): readonly PedalPoint[] {
  if (options.instrument.pedal === 'none') return [];
  const normal = gaussian(options.random);
  const legs = [...new Set(notes.filter((note) => note.leg >= 0).map((note) => note.leg))];
  const beatS = (beatLength(piece) * 60) / (4 * crotchetsPerMinute(piece) * options.tempo);
  const foot = { faults: options.faults, normal, upS: UP.leastS + UP.ofBeat * beatS };
  const movements = legs.flatMap((leg) => legMovements(piece, notes.filter((note) => note.leg === leg), foot));
  return curve(movements, options.instrument.pedal, normal);
}

/** The foot through one leg: every mark that no planned fault leaves out, and up when the leg ends. */
function legMovements(piece: Piece, notes: readonly TakeNote[], foot: Foot): readonly Movement[] {
  const moves: Movement[] = [];
  for (const visit of [...new Set(notes.map((note) => note.visit))].sort((a, b) => a - b)) {
    const inVisit = notes.filter((note) => note.visit === visit);
    const isDown = moves.at(-1)?.down === true;
    for (const mark of marksPlayed(piece.bars[inVisit[0]?.barIndex ?? 0]?.marks ?? [], inVisit, { foot, begun: moves.length > 0 })) {
      const here = inVisit.filter((note) => note.at === mark.at);
      if (mark.type === 'stop') moves.push({ timeS: Math.max(...inVisit.map((note) => note.releaseS)), down: false });
      else if (here.length && touches(faultsOf(foot.faults, 'notUsed'), here)) moves.push(...(isDown ? [{ timeS: bassOf(here).onsetS, down: false }] : []));
      else if (here.length && !touches(faultsOf(foot.faults, 'blurred'), here)) moves.push(...change(here, foot, moves.at(-1)?.down !== true));
    }
  }
  const end = Math.max(...notes.map((note) => note.releaseS));
  return moves.at(-1)?.down === true ? [...moves, { timeS: end, down: false }] : moves;
}

/** The marks of a bar that the foot follows, and the change at its bar line that nobody asked for, where that is planned. */
function marksPlayed(marks: readonly Mark[], inVisit: readonly TakeNote[], { foot, begun }: { readonly foot: Foot; readonly begun: boolean }): readonly PedalMark[] {
  const asked = footMarks(marks);
  const lifts = begun && touches(faultsOf(foot.faults, 'lifted'), inVisit) && !asked.some((mark) => mark.at === 0);
  return lifts ? [LIFT, ...asked] : asked;
}

/** The pedal marks that move the foot. */
function footMarks(marks: readonly Mark[]): readonly PedalMark[] {
  return marks.flatMap((mark) => (mark.kind === 'pedal' && mark.only !== 'page' ? [mark] : []));
}

/** Whether a fault lies at this chord, whichever hand it names. */
function touches(faults: readonly Fault[], chord: readonly TakeNote[]): boolean {
  return faults.some((fault) => chord.some((note) => isIn({ ...fault, hand: 'both' }, note)));
}

/** Up and down again around a bass; only down where the pedal is up. */
function change(chord: readonly TakeNote[], { faults, normal, upS }: Foot, isUp: boolean): readonly Movement[] {
  const bass = bassOf(chord);
  const up = bass.onsetS + LIFT_S.mean + LIFT_S.deviation * normal();
  const clear = up + upS + UP.deviationS * normal();
  const down = { timeS: pressOf(faults, chord, { soonest: up + CAUGHT_UP_S, clear, keyUp: bass.releaseS }), down: true };
  return isUp ? [down] : [{ timeS: up, down: false }, down];
}

/** When the foot goes down again: once the old sound is clear, and while the bass is still held by its key. */
function pressOf(faults: readonly Fault[], chord: readonly TakeNote[], { soonest, clear, keyUp }: { readonly soonest: number; readonly clear: number; readonly keyUp: number }): number {
  if (touches(faultsOf(faults, 'caught'), chord)) return soonest;
  if (touches(faultsOf(faults, 'bassNotCaught'), chord)) return clear + LATE_S;
  return Math.max(soonest, Math.min(clear, keyUp - CAUGHT_BEFORE_S));
}

/** The lowest note of the left hand in a chord; of the chord where that hand is silent. */
function bassOf(chord: readonly TakeNote[]): TakeNote {
  const left = chord.filter((note) => note.hand === 'left' && note.status !== 'missed');
  const bass = [...(left.length ? left : chord)].sort((a, b) => a.pitch - b.pitch)[0];
  if (!bass) throw new RangeError('a pedal mark needs a chord');
  return bass;
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
