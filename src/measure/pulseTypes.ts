/** The records of pulse and tempo. Ticks are unfolded; visits are places in `Score.order`. */
import type { Measured } from '../base/index.js';
import type { PrintedTempo } from '../score/index.js';

/** Why the time may bend at a place, the freest first. */
export type BendReason =
  /** Ad libitum, cadenza, rubato; a double bar line at which a new tempo begins. */
  | 'free'
  | 'fermata'
  /** A breath mark or caesura. */
  | 'breath'
  /** The last bar of the piece. */
  | 'close'
  /** A word that changes the tempo by and by, as long as it holds: ritardando. */
  | 'bendWord'
  /** A mark that sets a tempo begins here: a tempo, Allegro. */
  | 'tempoWord'
  /** A section begins, or a double bar line or repeat sign stands here. */
  | 'sectionStart'
  /** Grace notes, an ornament or a rolled chord take time. */
  | 'ornament'
  | 'phraseEnd';

/** A place where the pulse waited: everything from `tick` on comes later than the tempo around would bring it. */
export interface Wait {
  readonly stretch: number;
  /** The visit that the late moment stands in. */
  readonly visitIndex: number;
  /** The moment before, and the one that came late. */
  readonly fromTick: number;
  readonly tick: number;
  /** When the late moment sounded, seconds. */
  readonly onsetS: number;
  readonly waitS: number;
  /** The same by the length of a beat there, as it is felt. */
  readonly beats: number;
  /** Time between the two moments by what the tempo around gives it, 1 upwards. */
  readonly times: number;
  /** How much slower the crotchet before already was than the tempo before it; 1 for not at all. */
  readonly prepared: number;
  /** Why the time may bend here; null where nothing is written that lets it. */
  readonly bend: BendReason | null;
  /** True where wrong, missed or added notes stand in the bar or just before it. */
  readonly slip: boolean;
  /** The waits at the same written place in other passes and tries, beats; 0 for one played straight on. */
  readonly elsewhere: readonly number[];
}

/** One beat as it went by. */
export interface BeatMoment {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly tick: number;
  /** By the local pulse, seconds: a single late note does not move it. */
  readonly onsetS: number;
}

/** Pulse in one visit to a bar. */
export interface BarPulse {
  /** Tempo without the waits, crotchets a minute. */
  readonly tempo: Measured<number>;
  /** That by the middle tempo of the bars around it: 1.1 for a tenth quicker. */
  readonly againstAround: Measured<number>;
  /** How far its tempo is from the mean of the bars before and after it, 0.1 for a tenth: 0 for any smooth change over three bars. */
  readonly offNeighbours: Measured<number>;
  /** Tempo of its last beat by that of its first, 1.1 for a tenth quicker. */
  readonly drift: Measured<number>;
  /** How far its beats differ from their neighbours beyond a smooth change of tempo: middle distance, as a share of a beat. */
  readonly unevenness: Measured<number>;
  /** All waits in it, beats. */
  readonly waitBeats: number;
  /** Why its time may bend. */
  readonly bends: readonly BendReason[];
}

/** One stretch of the piece under one written tempo, as it was played. */
export interface TempoSpan {
  /** Null before the first mark and where none is printed. */
  readonly mark: PrintedTempo | null;
  readonly stretch: number;
  readonly fromVisit: number;
  /** Inclusive. */
  readonly toVisit: number;
  /** Middle tempo of its bars without waits, crotchets a minute. */
  readonly played: Measured<number>;
}

/** A printed change of tempo that goes on by and by, as it was played. */
export interface TempoBend {
  readonly mark: PrintedTempo;
  readonly stretch: number;
  readonly fromVisit: number;
  /** The last visit that it takes in, inclusive. */
  readonly toVisit: number;
  /** True for the one that closes the piece. */
  readonly closing: boolean;
  /** Tempo at its end by the tempo before it, 0.8 for a fifth slower. */
  readonly endTempo: Measured<number>;
  /** Largest distance of its tempo from the curve that pleased listeners best, as a share of the tempo before it. */
  readonly offCurve: Measured<number>;
}

/** All that was measured of pulse and tempo. */
export interface PulseFacts {
  /** One entry a visit to a bar, as `Measures.bars`. */
  readonly bars: readonly BarPulse[];
  readonly waits: readonly Wait[];
  readonly beats: readonly BeatMoment[];
  readonly spans: readonly TempoSpan[];
  readonly bends: readonly TempoBend[];
}
