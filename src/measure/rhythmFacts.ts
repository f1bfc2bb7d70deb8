/*
 * The teacher's question: is the rhythm right?
 *
 * Conventions: everything by stretch of the route, so that each pass and try has its own facts; `bars` runs along `Measures.bars`.
 * Method: each part in its own file; notes after grace notes are taken out of the hands' onsets beforehand.
 * Source: our own rule.
 * What it does not tell: what of it is a fault, and what expression.
 */
import { groupBy } from '../base/index.js';
import { beatSteps, stepsOff } from './beatSteps.js';
import { beatTimings } from './beatTiming.js';
import { chordSpreads } from './chordSpread.js';
import { crossRhythms } from './crossRhythms.js';
import { evenRuns } from './evenRuns.js';
import { graceGroups } from './graceTiming.js';
import { handsApart, handsMoments } from './handsTogether.js';
import { longDistances } from './longDistances.js';
import { ornamentStrokes } from './ornamentStrokes.js';
import type { Piece } from './piece.js';
import { bothHands, pulseLines, type PulseLines } from './pulsePoints.js';
import { figuresOf } from './rhythmFigures.js';
import type { RhythmFacts, VoiceLine } from './rhythmTypes.js';
import { tempoTeller } from './tempoAround.js';
import type { BarFacts, OnsetDeviation } from './types.js';
import { gracedTicks, voiceLines, type GracedTicks } from './voiceLines.js';

/** What was measured before. */
interface MeasuredBefore {
  readonly onsets: readonly OnsetDeviation[];
  readonly bars: readonly BarFacts[];
}

/** All that is measured of rhythm. */
export function rhythmFacts(piece: Piece, { onsets, bars }: MeasuredBefore): RhythmFacts {
  const voices = groupBy(voiceLines(piece), ({ stretch }) => stretch);
  const graced = gracedTicks(piece.score);
  const allLines = pulseLines(piece);
  const stretches = allLines.map((lines, stretch) => inStretch(piece, { lines: ungraced(lines, graced), voices: voices.get(stretch) ?? [], stretch }));
  const hands = stretches.flatMap((one) => one.hands);
  const steps = stretches.flatMap((one) => one.steps);
  const visitOf = ({ stretch, visitIndex }: { readonly stretch: number; readonly visitIndex: number }): string => `${stretch} ${visitIndex}`;
  const [handsByVisit, stepsByVisit] = [groupBy(hands, visitOf), groupBy(steps, visitOf)];
  const timings = beatTimings(piece, onsets);
  return {
    bars: bars.map((bar) => ({
      apart: handsApart(handsByVisit.get(visitOf(bar)) ?? []),
      steps: stepsOff(stepsByVisit.get(visitOf(bar)) ?? []),
      right: timings(bar.stretch, bar.visitIndex, 'right'), left: timings(bar.stretch, bar.visitIndex, 'left'),
    })),
    figures: stretches.flatMap((one) => one.figures),
    hands,
    chords: stretches.flatMap((one) => one.chords),
    runs: stretches.flatMap((one) => one.runs),
    distances: stretches.flatMap((one) => one.distances),
    steps,
    graces: graceGroups(piece, allLines),
    ornaments: ornamentStrokes(piece),
    crossings: stretches.flatMap((one) => one.crossings),
  };
}

/** A stretch of the route as it was played and as it is written. */
interface StretchLines {
  readonly stretch: number;
  readonly lines: PulseLines;
  readonly voices: readonly VoiceLine[];
}

/** Without what stands after grace notes: that comes when they are done. */
function ungraced(lines: PulseLines, graced: GracedTicks): PulseLines {
  return { right: lines.right.filter(({ tick }) => !graced.right.has(tick)), left: lines.left.filter(({ tick }) => !graced.left.has(tick)) };
}

/** What is measured of one stretch. */
function inStretch(piece: Piece, { stretch, lines, voices }: StretchLines): Omit<RhythmFacts, 'bars' | 'graces' | 'ornaments'> {
  const { score } = piece;
  const tempo = tempoTeller(bothHands(lines), score.ticksPerQuarter);
  const written = voices.flatMap((line) => line.moments.map(({ tick, pairs }) => ({ tick, pairs, line }))).sort((a, b) => a.tick - b.tick);
  return {
    figures: voices.flatMap((line) => figuresOf(line, { score, lines, tempo, written })),
    hands: handsMoments(score, lines, stretch),
    chords: chordSpreads(piece, voices),
    runs: voices.flatMap((line) => evenRuns(line, score)),
    distances: longDistances({ score, lines, tempo, voices }),
    crossings: crossRhythms({ score, lines, voices, stretch }),
    steps: beatSteps({ score, lines, stretch, written }),
  };
}
