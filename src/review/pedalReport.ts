/** The pedal as it goes out as JSON: printed bar numbers as text, seconds to four decimals. */
import { chordOverBass } from '../analysis/index.js';
import { pedalFindings, type JudgeInput } from '../judge/index.js';
import type { CarriedNote, PedalChange, PedalHabits } from '../measure/index.js';
import { ticksToCrotchets } from '../score/index.js';

/** A carried note as files name it. */
interface ReportedCarried {
  /** Id in the score file, or null. */
  readonly note: string | null;
  readonly pitch: number;
  readonly againstNewDb: number;
  readonly lastsS: number;
  readonly clash: number;
}

/** A change as files name it; times of the foot count from the new sound. */
interface ReportedChange {
  readonly bar: string;
  readonly pass: number;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
  /** "" where no chord could be named. */
  readonly chord: string;
  readonly certainty: number;
  readonly sound: number;
  readonly foot: PedalChange['foot'];
  readonly lift: number | null;
  readonly press: number | null;
  readonly carried: readonly ReportedCarried[];
  readonly overlap: number;
  readonly blur: number;
  readonly roughness: PedalChange['roughness'];
  readonly gap: number;
  /** Kinds of what is said of it; mostly none. */
  readonly findings: readonly string[];
}

/** What `pedal --json` says. */
export interface PedalReport {
  readonly format: 'barwise-pedal/1';
  readonly limits: readonly string[];
  readonly habits: PedalHabits;
  readonly changes: readonly ReportedChange[];
}

/** The report of the pedal. */
export function pedalReport(input: JudgeInput): PedalReport {
  const { recording, measures: { pedal } } = input;
  const findings = pedalFindings(input);
  return {
    format: 'barwise-pedal/1',
    limits: recording.limits.filter(({ kind }) => kind.endsWith('pedal')).map(({ text }) => text),
    habits: pedal.habits,
    changes: pedal.changes.map((change) => changeOf(input, change, findings.filter(({ place }) => place.startS === change.soundS).map(({ kind }) => kind))),
  };
}

/** One change. */
function changeOf(input: JudgeInput, change: PedalChange, findings: readonly string[]): ReportedChange {
  const { score, analysis } = input;
  const visit = score.order[change.visitIndex];
  const harmony = analysis.harmonies[change.harmony ?? -1];
  return {
    bar: score.bars[visit?.barIndex ?? -1]?.number ?? '', pass: visit?.pass ?? 1, offset: rounded(ticksToCrotchets(score, change.tick - (visit?.startTick ?? 0))),
    chord: harmony === undefined ? '' : chordOverBass(harmony), certainty: rounded(change.certainty), sound: rounded(change.soundS), foot: change.foot,
    lift: roundedOrNull(change.liftS), press: roundedOrNull(change.pressS), carried: change.carried.map((one) => carriedOf(input, one)),
    overlap: rounded(change.overlapS), blur: rounded(change.blur), gap: rounded(change.gapS), findings,
    roughness: change.roughness === null ? null : { played: rounded(change.roughness.played), clean: rounded(change.roughness.clean) },
  };
}

/** One carried note. */
function carriedOf({ score }: JudgeInput, { noteIndex, pitch, againstNewDb, lastsS, clash }: CarriedNote): ReportedCarried {
  return { note: score.notes[noteIndex ?? -1]?.id ?? null, pitch, againstNewDb: rounded(againstNewDb), lastsS: rounded(lastsS), clash: rounded(clash) };
}

/** Four decimals. */
function rounded(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}

function roundedOrNull(value: number | null): number | null {
  return value === null ? null : rounded(value);
}
