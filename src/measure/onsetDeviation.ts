/*
 * The teacher's question: is this note early or late, given how the piece was flowing just here?
 *
 * Conventions: milliseconds, late positive, one entry a pair in the order of `Alignment.pairs`. The local pulse is that of
 *   the same stretch of the route, of both hands; all notes at the written moment itself are left out of it, so that a
 *   single late note keeps its whole deviation and a late chord too. Nothing reaches across a stop.
 * Method: see localPulse.ts; where the playing waits, the clock waits with it (pulseAcrossWaits.ts), so that a hesitation leaves
 *   the notes before and after it where they are. A steady change of tempo is followed; so is rubato that lasts longer than the six onsets
 *   around a note.
 * Source: our own rule. The median of lines is after Theil (1950) and Sen (1968). That one displaced tone of 40 ms at an
 *   interval of 500 ms must stay visible follows from Friberg and Sundberg (1995): 2.5 % of the interval is just heard.
 * What it does not tell: whether a deviation is a fault. First and last notes of a run have no pulse on both sides and
 *   are not measured; nor are grace notes, ornaments and rolled chords. Where the hands are apart all along, the
 *   pulse lies between them and each hand stands off by half.
 */
import { measured, notMeasured, type Measured } from '../base/index.js';
import { freeOnset } from './hands.js';
import type { Pulse } from './localPulse.js';
import { playedOf, writtenOf, type Piece } from './piece.js';
import { pulseRuns, type PulseRun } from './pulseAcrossWaits.js';
import { pulseLines } from './pulsePoints.js';
import type { OnsetDeviation } from './types.js';

const ALONE = 'too little is played just before and after it to tell the pulse';

/**
 * How far every paired note stands from the local pulse, ms, late positive.
 * @param runs what `pulseRuns` gave for the same piece
 * @returns one entry a pair, in the order of the pairs
 */
export function onsetDeviations(piece: Piece, runs = pulseRuns(pulseLines(piece), piece.score.ticksPerQuarter)): readonly OnsetDeviation[] {
  const { score, recording, alignment } = piece;
  const pulses = runs.map(pulsesByTick);
  return alignment.pairs.map((pair, index) => {
    const { occurrence, note } = writtenOf(score, pair.occurrence);
    const free = freeOnset(note);
    const expectedS = pulses[pair.stretch]?.get(occurrence.onsetTick)?.(occurrence.onsetTick) ?? null;
    return { pair: index, deviationMs: free === null ? deviation(playedOf(recording, pair.note).onsetS, expectedS) : notMeasured(free) };
  });
}

/** Played minus expected, in ms. */
function deviation(onsetS: number, expectedS: number | null): Measured<number> {
  return expectedS === null ? notMeasured(ALONE) : measured((onsetS - expectedS) * 1000);
}

/** For every tick that was played, the pulse of the run it belongs to. */
function pulsesByTick(runs: readonly PulseRun[]): ReadonlyMap<number, Pulse> {
  return new Map(runs.flatMap(({ lines, pulse }) => [...lines.right, ...lines.left].map(({ tick }) => [tick, pulse] as const)));
}
