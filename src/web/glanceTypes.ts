import type { Reading } from '../pipeline/index.js';
import type { FiledRecording } from '../store/index.js';
import type { Glance } from './glance.js';

/** The glances of a room. */
export interface Glances {
  /** What is kept, at once; null where nothing is yet. What is out of date is queued to be made anew. */
  at(recording: FiledRecording): Glance | null;
  /** Makes a glance from a reading that is at hand, and keeps it. */
  keep(recording: FiledRecording, reading: Reading): Glance;
  /** How many are still to be made. */
  waiting(): number;
  /** Settles when none is. */
  idle(): Promise<void>;
}
