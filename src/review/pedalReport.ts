/** The pedal as it goes out as JSON: printed bar numbers as text, seconds to four decimals. */
import { fourDecimals } from '../base/index.js';
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
    bar: score.bars[visit?.barIndex ?? -1]?.number ?? '', pass: visit?.pass ?? 1, offset: fourDecimals(ticksToCrotchets(score, change.tick - (visit?.startTick ?? 0))),
    chord: harmony === undefined ? '' : chordOverBass(harmony), certainty: fourDecimals(change.certainty), sound: fourDecimals(change.soundS), foot: change.foot,
    lift: roundedOrNull(change.liftS), press: roundedOrNull(change.pressS), carried: change.carried.map((one) => carriedOf(input, one)),
    overlap: fourDecimals(change.overlapS), blur: fourDecimals(change.blur), gap: fourDecimals(change.gapS), findings,
    roughness: change.roughness === null ? null : { played: fourDecimals(change.roughness.played), clean: fourDecimals(change.roughness.clean) },
  };
}

/** One carried note. */
function carriedOf({ score }: JudgeInput, { noteIndex, pitch, againstNewDb, lastsS, clash }: CarriedNote): ReportedCarried {
  return { note: score.notes[noteIndex ?? -1]?.id ?? null, pitch, againstNewDb: fourDecimals(againstNewDb), lastsS: fourDecimals(lastsS), clash: fourDecimals(clash) };
}

function roundedOrNull(value: number | null): number | null {
  return value === null ? null : fourDecimals(value);
}
