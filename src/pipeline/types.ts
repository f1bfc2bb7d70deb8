import type { Alignment } from '../align/index.js';
import type { Analysis, TeachersPlan } from '../analysis/index.js';
import type { Engraving } from '../engrave/index.js';
import type { Measures } from '../measure/index.js';
import type { Recording } from '../recording/index.js';
import type { Score } from '../score/index.js';

/** A file as it came: its bytes and its name (no folder). */
export interface SourceFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Of a score: id or name of the part to read; the piano is found by itself where left out. */
  readonly part?: string | undefined;
  /** Of a score: the teacher's own pedal plan, in the place of the program's. */
  readonly plan?: TeachersPlan | undefined;
}

/** First and last bar, places in `Score.bars`. */
export type BarRange = readonly [first: number, last: number];

/** Everything found out about one recording against one score. */
export interface Reading extends AnalysedScore {
  readonly recording: Recording;
  readonly alignment: Alignment;
  readonly measures: Measures;
}

/** A score and everything known of it. */
export interface AnalysedScore {
  readonly score: Score;
  readonly analysis: Analysis;
}

/** The single way from files to results. Work runs in a recycled worker pool and is cached by content. */
export interface Pipeline {
  /** @throws InputError */
  score(file: SourceFile): Promise<Score>;
  /** What the score alone tells: form, harmony, pedal plan, teaching notes. @throws InputError */
  analysis(file: SourceFile): Promise<Analysis>;
  /** @throws InputError, code `wrong-piece` where the recording is not of this score */
  reading(score: SourceFile, recording: SourceFile): Promise<Reading>;
  /** Never fails for a readable score: falls back to a bar grid, of all bars. @param only the bars to engrave; all where left out */
  engraving(score: SourceFile, widthPx: number, only?: BarRange): Promise<Engraving>;
  /** Throws away everything that was found out from some files, by their SHA-256. */
  forget(files: readonly string[]): Promise<void>;
  close(): Promise<void>;
}
