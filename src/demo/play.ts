/**
 * Plays the legs of a piece as a person would who makes no mistake: clock, scatter, spread chords, a leading tune,
 * levels and touch. Faults come after (`faults.ts`).
 *
 * Sources. Staccato holds the key for about 40 % of the time to the next onset, repeated notes 60 % (Bresin & Battel
 * 2000, "Articulation strategies in expressive piano performance"). The tune leads by some 20-30 ms (Goebl 2001,
 * "Melody lead in piano performance"). Legato overlap grows with the time between onsets (Repp 1995); its share is a
 * figure from memory. Tune 10-20 velocity units above its accompaniment, metrical accents: common practice, no source.
 */
import { gaussian, type Random } from '../base/index.js';
import { legClock, phrasePlace, type Clock } from './clock.js';
import { attemptAt, type Leg } from './legs.js';
import { levelsOf, type Levels } from './levels.js';
import { filled, parseHand } from './notation.js';
import { beatLength, type Piece } from './piece.js';
import { withOrnaments } from './ornaments.js';
import type { Player } from './plan.js';
import { soundings, type Sounding } from './sounding.js';
import type { TakeNote } from './take.js';
import { withReleases } from './touch.js';
import type { Visit } from './visits.js';

/** Velocity units on top of the level: bar's first beat, other beats, an accent sign. */
const METRE = { bar: 4, beat: 2, accent: 14 } as const;
/** Rise of the level in the middle of a phrase, velocity units. */
const PHRASE_RISE = 5;
/** Time from note to note of a broken chord, ms; our own choice: heard one after another, still one chord. */
const BROKEN_STEP_MS = 65;
/** How much longer a note under a fermata lasts than written. */
export const FERMATA = 1.8;

/** What one rendering needs. */
export interface Performance {
  readonly piece: Piece;
  readonly legs: readonly Leg[];
  readonly player: Player;
  readonly ritardando: boolean;
  /** Whether hairpins and phrases are shaped. */
  readonly hairpins: boolean;
  readonly random: Random;
}

/** All notes of all legs, faultless, in time order; the first begins `startS` after the start of the file. */
export function play(performance: Performance, startS: number): readonly TakeNote[] {
  const tools = { normal: gaussian(performance.random), levels: levelsOf(performance.piece, performance.hairpins), bars: soundings(performance.piece) };
  const notes: TakeNote[] = [];
  let last = { barLineS: startS, silentS: startS };
  performance.legs.forEach((leg, legIndex) => {
    const clock = legClock(performance.piece, leg, performance);
    const now = leg.pauseS === null ? last.barLineS : last.silentS + leg.pauseS;
    const played = leg.visits.flatMap((visit) => playVisit(performance, { leg, legIndex, visit, clock, now }, tools));
    const released = withReleases(played, performance.player, tools.normal);
    notes.push(...withOrnaments(released, performance.player, tools.normal));
    last = { barLineS: now + legLength(leg, clock), silentS: Math.max(now, ...played.map((note) => note.releaseS)) };
  });
  return notes.sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
}

/** Seconds from the start of a leg to the bar line after its last bar. */
function legLength(leg: Leg, clock: Clock): number {
  const visit = leg.visits.at(-1);
  return visit ? clock(visit.index, filled(parseHand(visit.bar.right))) : 0;
}

/** Where a visit lies in the route, and the time at which its leg starts. */
interface Place {
  readonly leg: Leg;
  readonly legIndex: number;
  readonly visit: Visit;
  readonly clock: Clock;
  readonly now: number;
}

/** What all visits share. */
interface Tools {
  readonly normal: Random;
  readonly levels: Levels;
  readonly bars: readonly (readonly Sounding[])[];
}

/** One bar of one leg, by the hands that play it, up to where it breaks off. */
function playVisit(performance: Performance, place: Place, tools: Tools): readonly TakeNote[] {
  const { leg, legIndex, visit } = place;
  const lastVisit = leg.visits.at(-1)?.index === visit.index;
  const attempt = attemptAt(performance.legs, legIndex, visit.index);
  const notes = (tools.bars[visit.barIndex] ?? []).filter(
    (note) => (leg.hands === 'both' || leg.hands === note.hand) && !(lastVisit && note.at >= leg.breakAt),
  );
  return notes.map((written) => ({
    status: 'matched' as const,
    written,
    hand: written.hand,
    leg: legIndex,
    visit: visit.index,
    barIndex: visit.barIndex,
    at: written.at,
    pass: visit.pass,
    attempt,
    onsetS: place.now + place.clock(visit.index, written.at) + scatter(performance.player, written, leg, tools.normal),
    releaseS: place.now + place.clock(visit.index, written.at + written.length * (written.fermata ? FERMATA : 1)),
    pitch: written.midi,
    velocity: velocityOf(performance, written, tools),
    releaseVelocity: clamp(64 + 10 * tools.normal() + (written.touch === 'staccato' ? 16 : 0), 20, 110),
  }));
}

/** Seconds by which an onset leaves the clock: chance, the tune ahead of the left hand, chords from below upwards. */
function scatter(player: Player, written: Sounding, leg: Leg, normal: Random): number {
  const lead = written.hand === 'left' && leg.hands === 'both' ? player.leadMs : 0;
  const spread = written.chordSize > 1 ? (written.inChord / (written.chordSize - 1) - 0.5) * player.spreadMs * normal() : 0;
  const broken = written.broken === true ? written.inChord * BROKEN_STEP_MS : 0;
  return (lead + spread + broken + player.timingMs * normal()) / 1000;
}

/** Key velocity: the level asked for, the metre, the phrase, the voice, chance. */
function velocityOf({ piece, player, hairpins }: Performance, written: Sounding, { levels, normal }: Tools): number {
  const metre = written.at === 0 ? METRE.bar : written.at % beatLength(piece) === 0 ? METRE.beat : 0;
  const rise = (hairpins ? PHRASE_RISE : 0) * Math.sin(Math.PI * phrasePlace(piece, written.barIndex + 0.5));
  const top = written.inChord === written.chordSize - 1;
  const voice = written.hand === 'right' ? (top ? player.voicing / 2 : 0) : -player.voicing / 2;
  const accent = written.accent ? METRE.accent : 0;
  return clamp(levels(written.barIndex, written.at) + metre + rise + voice + accent + player.velocitySd * normal(), 8, 124);
}

/** Whole and within bounds. */
function clamp(value: number, low: number, high: number): number {
  return Math.round(Math.min(high, Math.max(low, value)));
}
