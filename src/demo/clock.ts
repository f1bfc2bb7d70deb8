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
  const ritardandoFrom = options.ritardando ? ritardandoBar(piece) : null;
  const tables = new Map<number, readonly number[]>();
  let now = 0;
  for (const visit of leg.visits) {
    const times: number[] = [];
    const length = filled(parseHand(visit.bar.right));
    let drift = 0;
    for (let division = 0; division < length; division += 1) {
      if (division % 4 === 0) drift = wander();
      const place = visit.barIndex + division / length;
      const shape = (1 + arcAt(piece, place, options.player.arc)) * ritardandoAt(piece, place, ritardandoFrom) * (1 + drift);
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

/** Bar index of the printed rit., or null. */
function ritardandoBar(piece: Piece): number | null {
  const bar = piece.bars.findIndex((each) => each.marks.some((mark) => mark.kind === 'words' && mark.text === 'rit.'));
  return bar < 0 ? null : bar;
}

/** Share of the tempo at a place, in bars; 1 before the ritardando. */
function ritardandoAt(piece: Piece, place: number, from: number | null): number {
  if (from === null || place < from) return 1;
  // the last bar is one held chord: the slowing is over when it comes
  const x = Math.min(1, (place - from) / (piece.bars.length - 1 - from));
  return ritardandoTempo(x, RITARDANDO_END, RITARDANDO_Q);
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
