/**
 * How likely each kind of pitfall trips a pupil, and how much it matters when it does, both 0-1. Our own rule, held against what
 * teachers remark on most: rhythm, notes, touch, dynamics, steadiness, balance, tempo (in that order), then pedal; wrong
 * notes that a pupil practises in, and lost beats, cost the most lessons.
 */
import type { PitfallDraft, PitfallKind } from './pitfallTypes.js';

/** The two sides of a weight, and the kinds that speak of one and the same trouble. */
interface KindWeight {
  readonly likely: number;
  readonly matters: number;
  /** Of one family at one place the heaviest speaks for all. */
  readonly family: 'beat' | 'rhythm' | 'reach' | 'travel' | 'fingers' | 'signs' | 'memory' | 'touch' | 'tempo' | 'pedal' | 'meeting' | 'ornament' | 'voices';
}

/** Weights by kind, each with its reason. */
export const KIND_WEIGHTS: Readonly<Record<PitfallKind, KindWeight>> = {
  // a hand goes with the other unless it is taught not to; the bar is then wrong for good
  entryAfterRest: { likely: 0.6, matters: 0.6, family: 'beat' },
  // easy to begin, hard to keep steady
  afterBeats: { likely: 0.5, matters: 0.5, family: 'beat' },
  // nothing to hold on to: the bar comes early
  emptyFirstBeat: { likely: 0.6, matters: 0.6, family: 'beat' },
  // the commonest wrong strike of good players, too
  tieAcross: { likely: 0.7, matters: 0.55, family: 'beat' },
  // the rhythm most often straightened
  syncopation: { likely: 0.75, matters: 0.75, family: 'beat' },
  // seldom, but the whole bar goes wrong
  metreChange: { likely: 0.7, matters: 0.7, family: 'beat' },
  // no pupil gets it without work, and nobody misses it when it fails
  crossRhythm: { likely: 0.9, matters: 0.8, family: 'beat' },
  // a matter of style: worth a decision, no disaster
  dotsAgainstTriplets: { likely: 0.7, matters: 0.5, family: 'rhythm' },
  // the count is lost rather than the notes
  hemiola: { likely: 0.7, matters: 0.65, family: 'beat' },
  // both hands know where they are again when the tune returns
  longRest: { likely: 0.3, matters: 0.4, family: 'beat' },
  // what teachers remark on most: uneven dots and triplets
  divisionChange: { likely: 0.7, matters: 0.65, family: 'rhythm' },
  // dots soften in nearly every first reading
  dottedPairs: { likely: 0.7, matters: 0.65, family: 'rhythm' },
  // a hand that does not reach will miss a note every time
  stretch: { likely: 0.75, matters: 0.55, family: 'reach' },
  // small hands only
  smallHandStretch: { likely: 0.3, matters: 0.35, family: 'reach' },
  // cannot be played as printed: needs a plan before the first reading
  wideChord: { likely: 0.85, matters: 0.6, family: 'reach' },
  // tires rather than fails
  octaves: { likely: 0.5, matters: 0.5, family: 'reach' },
  // stops the piece in front of it
  jump: { likely: 0.8, matters: 0.75, family: 'travel' },
  // looks harder than it is
  crossing: { likely: 0.55, matters: 0.5, family: 'meeting' },
  // a note is missing, now and then
  sharedKey: { likely: 0.55, matters: 0.4, family: 'meeting' },
  // some notes do not speak
  repeatedNotes: { likely: 0.55, matters: 0.5, family: 'fingers' },
  // holds up the beat
  ornament: { likely: 0.7, matters: 0.5, family: 'ornament' },
  // uneven or hurried, and sets the tempo of all
  fastRun: { likely: 0.75, matters: 0.65, family: 'fingers' },
  // a matter of fingering
  positionChange: { likely: 0.45, matters: 0.4, family: 'travel' },
  // a misread accidental is practised in
  accidentalHolds: { likely: 0.6, matters: 0.65, family: 'signs' },
  accidentalLapses: { likely: 0.55, matters: 0.6, family: 'signs' },
  // every pupil reads on in the old key
  signatureChange: { likely: 0.75, matters: 0.7, family: 'signs' },
  // caught by ear, mostly
  signatureSlip: { likely: 0.4, matters: 0.5, family: 'signs' },
  // the slip of memory: harmless at first reading, fatal from memory
  changedReturn: { likely: 0.65, matters: 0.65, family: 'memory' },
  // held notes are let go in nearly every first reading, and the harmony or the tune goes with them
  heldVoice: { likely: 0.75, matters: 0.6, family: 'voices' },
  // what such pieces are given for
  twoTouches: { likely: 0.85, matters: 0.7, family: 'touch' },
  // a slow tempo stays slow
  backInTime: { likely: 0.65, matters: 0.5, family: 'tempo' },
  closingRitardando: { likely: 0.6, matters: 0.5, family: 'tempo' },
  // the commonest fault of the pedal with pupils
  bassToCatch: { likely: 0.85, matters: 0.75, family: 'pedal' },
};

/** Each further place adds so much, up to MOST_PLACES: what comes again is met again. */
const PLACE_BONUS = 0.015;
const MOST_PLACES = 6;

/** Weight of a draft, 0-1: how likely, how much it matters, how bad of its kind, and in how many places. */
export function draftWeight({ kind, severity }: PitfallDraft, places: number): number {
  const { likely, matters } = KIND_WEIGHTS[kind];
  const base = Math.sqrt(likely * matters) * (0.5 + 0.5 * severity);
  return Math.min(1, base + PLACE_BONUS * Math.min(MOST_PLACES, places - 1));
}
