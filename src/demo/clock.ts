/**
 * When each division of a leg falls: the player's tempo with phrase arcs, slow wandering and the closing ritardando.
 *
 * Sources. Final ritardando: v(x) = [1 + (v_end^q - 1) x]^(1/q) with q = 3 (Friberg & Sundberg 1999, "Does music
 * performance allude to locomotion?"; the formula recalled, not seen). The arc over a phrase (slower at its ends)
 * and the wandering (a first-order autoregression a crotchet) are our own simple models of what is common practice.
 */
import { gaussian, type Random } from '../base/index.js';
import { filled, parseHand } from './notation.js';
import type { Leg } from './legs.js';
import { crotchetsPerMinute, type Piece } from './piece.js';
import type { Player } from './plan.js';

/** Tempo at the end of a ritardando, share of the tempo before it; inside the range that listeners in that study liked. */
const RITARDANDO_END = 0.55;
/** The same where an a tempo follows: less, since the piece goes on; our own choice. */
const PASSING_END = 0.72;
/** Curvature of the ritardando, Friberg & Sundberg's q. */
const RITARDANDO_Q = 3;
/** How much of the wandering stays from one crotchet to the next, 0-1; our own choice. */
const WANDER_MEMORY = 0.7;
/** Mean of sin over half a turn: taken off so that an arc leaves the mean tempo alone. */
const ARC_MEAN = 2 / Math.PI;

/** Seconds from the start of a leg at which a division of one of its visits falls. */
export type Clock = (visitIndex: number, division: number) => number;

/** What shapes the time of a leg. */
export interface ClockOptions {
  readonly player: Player;
  readonly ritardando: boolean;
  readonly random: Random;
}

/** Makes the clock of one leg. Divisions past the end of a visit go on at its last tempo. */
export function legClock(piece: Piece, leg: Leg, options: ClockOptions): Clock {
  const wander = wandering(options);
  const base = crotchetsPerMinute(piece) * options.player.tempo * leg.tempo;
  const slowings = options.ritardando ? slowingsOf(piece) : [];
  const tables = new Map<number, readonly number[]>();
  let now = 0;
  for (const visit of leg.visits) {
    const times: number[] = [];
    const length = filled(parseHand(visit.bar.right));
    let drift = 0;
    for (let division = 0; division < length; division += 1) {
      if (division % 4 === 0) drift = wander();
      const place = visit.barIndex + division / length;
      const shape = (1 + arcAt(piece, place, options.player.arc)) * ritardandoAt(slowings, place) * (1 + drift);
      times.push(now);
      now += 60 / (base * shape) / 4;
    }
    tables.set(visit.index, [...times, now]);
  }
  return (visitIndex, division) => readTable(tables.get(visitIndex), division);
}

/** The next deviation from the tempo, as a share of it; its standard deviation is the player's `wander`. */
function wandering({ player, random }: ClockOptions): () => number {
  const normal = gaussian(random);
  let drift = 0;
  return () => {
    drift = WANDER_MEMORY * drift + player.wander * Math.sqrt(1 - WANDER_MEMORY ** 2) * normal();
    return drift;
  };
}

/** Place in a phrase, 0-1; a place outside every phrase counts as the middle of one. */
export function phrasePlace(piece: Piece, place: number): number {
  const phrase = piece.phrases.find(([first, last]) => place >= first && place < last + 1);
  return phrase ? (place - phrase[0]) / (phrase[1] + 1 - phrase[0]) : 0.5;
}

/** Faster in the middle of a phrase, slower at both ends, as a share of the tempo. */
function arcAt(piece: Piece, place: number, depth: number): number {
  return depth * (Math.sin(Math.PI * phrasePlace(piece, place)) - ARC_MEAN);
}

/** A ritardando: bar index at which it begins, at which it is over, and the share of the tempo reached. */
interface Slowing {
  readonly from: number;
  readonly to: number;
  readonly end: number;
}

/** The printed ritardandi: each leads to the next a tempo, the last one to the end. */
function slowingsOf(piece: Piece): readonly Slowing[] {
  const barsWith = (text: string): readonly number[] =>
    piece.bars.flatMap((bar, i) => (bar.marks.some((mark) => mark.kind === 'words' && mark.text === text) ? [i] : []));
  return barsWith('rit.').map((from) => {
    const back = barsWith('a tempo').find((bar) => bar > from);
    // the last bar is one held chord: the slowing is over when it comes
    return back === undefined ? { from, to: piece.bars.length - 1, end: RITARDANDO_END } : { from, to: back, end: PASSING_END };
  });
}

/** Share of the tempo at a place, in bars; 1 outside every ritardando. */
function ritardandoAt(slowings: readonly Slowing[], place: number): number {
  const slowing = slowings.findLast(({ from }) => place >= from);
  if (!slowing || (place >= slowing.to && slowing.end === PASSING_END)) return 1;
  const x = Math.min(1, (place - slowing.from) / (slowing.to - slowing.from));
  return ritardandoTempo(x, slowing.end, RITARDANDO_Q);
}

/** Tempo in a closing ritardando against the tempo before it: `x` 0-1 along its written length, `end` the share reached, `q` the curvature. */
export function ritardandoTempo(x: number, end: number, q: number): number {
  return (1 + (end ** q - 1) * x) ** (1 / q);
}

/** Time of a division, whole or not, from the times of whole divisions. */
function readTable(times: readonly number[] | undefined, division: number): number {
  if (!times) throw new RangeError('this leg does not visit the bar');
  const last = times.length - 1;
  if (division >= last) {
    const end = times[last] ?? 0;
    return end + (division - last) * (end - (times[last - 1] ?? 0));
  }
  const low = Math.floor(division);
  const before = times[low] ?? 0;
  return before + (division - low) * ((times[low + 1] ?? before) - before);
}
