/** The part of the analysis that goes out as JSON: printed bar numbers as text, offsets in crotchets. */
import { barAtTick, type Score } from '../score/index.js';
import type { CadenceKind, HarmonyAnalysis, Mode, Quality } from './types.js';

/** A place as files name it. */
export interface ReportPlace {
  /** Printed bar number. */
  readonly bar: string;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
}

/** What `analyse --json` says of harmony. */
export interface HarmonyReport {
  /** The first is the key of the whole. */
  readonly keys: readonly { readonly bar: string; readonly tonic: number; readonly mode: Mode; readonly name: string; readonly colour: string | null; readonly confidence: number }[];
  readonly harmonies: readonly (ReportPlace & {
    readonly root: number | null;
    readonly quality: Quality;
    readonly bass: number | null;
    readonly inversion: number | null;
    readonly degree: string;
    readonly name: string;
    readonly confidence: number;
  })[];
  readonly cadences: readonly (ReportPlace & { readonly kind: CadenceKind })[];
  readonly phrases: readonly { readonly from: ReportPlace; readonly to: ReportPlace }[];
}

/** Confidence is given to two places; more would be false. */
const CONFIDENCE_STEPS = 100;

/** The report of an analysis. */
export function harmonyReport(score: Score, analysis: HarmonyAnalysis): HarmonyReport {
  const place = (tick: number): ReportPlace => {
    const { barIndex, offsetTicks } = barAtTick(score, tick);
    return { bar: score.bars[barIndex]?.number ?? '', offset: offsetTicks / score.ticksPerQuarter };
  };
  return {
    keys: keysOf(score, analysis),
    harmonies: analysis.harmonies.map(({ fromTick, root, quality, bass, inversion, degree, name, confidence }) => ({
      ...place(fromTick), root, quality, bass, inversion, degree, name, confidence: rounded(confidence),
    })),
    cadences: analysis.cadences.map(({ tick, kind }) => ({ ...place(tick), kind })),
    phrases: analysis.phraseEnds.map(({ tick }, i, all) => {
      const before = analysis.harmonies.find((harmony) => harmony.fromTick === all[i - 1]?.tick);
      return { from: place(i === 0 ? (analysis.harmonies[0]?.fromTick ?? 0) : (before?.toTick ?? 0)), to: place(tick) };
    }),
  };
}

/** The key of the whole first, then the path (whose first span is left out where it says the same). */
function keysOf(score: Score, { globalKey, keys }: HarmonyAnalysis): HarmonyReport['keys'] {
  const first = keys[0];
  if (globalKey === null || first === undefined) return [];
  const path = first.tonic === globalKey.tonic && first.mode === globalKey.mode ? keys : [{ ...globalKey, barIndex: 0 }, ...keys];
  return path.map(({ barIndex, tonic, mode, spelling, colour, confidence }) => ({
    bar: score.bars[barIndex]?.number ?? '', tonic, mode, name: `${spelling} ${mode}`, colour, confidence: rounded(confidence),
  }));
}

/** Two places. */
function rounded(value: number): number {
  return Math.round(value * CONFIDENCE_STEPS) / CONFIDENCE_STEPS;
}
