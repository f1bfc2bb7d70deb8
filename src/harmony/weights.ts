/**
 * The weights of the search for harmonies. Evidence is counted in crotchets of one sounding pitch class; every charge
 * here is in the same unit, so "0.5" is what half a crotchet of one fitting note makes good. They were set by hand while
 * watching textbook progressions and four open sonata movements, and are round on purpose; other music may do worse.
 */
import type { Level } from './grid.js';

/** How much a crotchet of a fitting note counts. */
export const EVIDENCE_SCALE = 2;

/** Length of a cell counts to this power: a long cell tells less than twice as much as one of half its length. */
export const LENGTH_POWER = 0.8;

/** A full texture sounds three pitch classes at once; thinner and broken ones are raised towards it. */
export const FULL_TEXTURE = 3;

/** How many times at most a thin texture is raised: a tune alone must not shout. */
export const MOST_RAISED = 1.2;

/** What a crotchet of a note foreign to the chord costs, by how well its own movement explains it. */
export const FOREIGN = {
  /** Reached by step or held over, and left by step: suspensions, passing and neighbour notes. */
  explained: 0.4,
  /** Left by step only: appoggiaturas. */
  resolved: 0.55,
  /** Reached by step only: anticipations, escape notes. */
  reached: 0.85,
  /** Held in from before, over more than a bar: a pedal point. */
  pedal: 0.4,
  /** Leapt to and from: almost always a chord note. */
  unexplained: 1.2,
} as const;

/** What it costs to change harmony at a place in the bar, by level: harmony changes at strong places (Temperley 2001). */
export const CHANGE: Readonly<Record<Level, number>> = { 0: 0.1, 1: 0.2, 2: 0.4, 3: 1.1 };

/** What it costs besides where one note alone begins or goes on: a tune without a chord under it rarely turns the harmony. */
export const CHANGE_UNACCOMPANIED = 1.2;

/** What it costs besides between a bass and the figure above it that belongs to it. */
export const CHANGE_OVER_LEFT_BASS = 1.2;

/** What a fitting note counts in a chord of four against one of three: a chord that holds more explains each note less. */
export const FOUR_NOTE_SHARE = 0.9;

/** What it costs to claim a chord whose member never sounds, in the order root, third, fifth, seventh. */
export const ABSENT = [1.6, 0.8, 0.25, 4] as const;

/** What a crotchet costs in which a claimed member is not heard within a beat, in the same order: a chord must last as long as it is claimed. */
export const AWAY = [1, 0.6, 0.2, 1.2] as const;

/** What an absent fifth costs where the fifth makes the chord (diminished, augmented, half-diminished). */
export const ABSENT_MARKED_FIFTH = 1.6;

/** What an absent fourth or sixth costs a six-four: with one of them alone it is a suspension over the dominant. */
export const ABSENT_SIX_FOUR = 2.5;

/** What a bass costs by the member it is: root, third, fifth, seventh. The six-four is rare unless it passes. */
export const BASS = [0, 0.4, 1.2, 0.8] as const;

/** What a bass foreign to the chord costs: a pedal point, or a wrong chord. */
export const BASS_FOREIGN = 1.5;

/** Share of these charges that stands where the bass is held in from before: over a pedal point harmony moves freely. */
export const HELD_BASS_SHARE = 0.4;

/** What a six-four costs whose bass is not the dominant. */
export const SIX_FOUR_BASS = 6;

/** How far the key's expectation of a chord counts. */
export const KEY_WEIGHT = 2;

/** How far the expectation of a root's movement counts. */
export const MOTION_WEIGHT = 1;

/** Longest stretch searched as one harmony, in cells; longer ones are joined afterwards, since staying costs nothing. A bar of quavers in 4/4. */
export const LONGEST_CELLS = 8;
