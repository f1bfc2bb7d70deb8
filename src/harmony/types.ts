/**
 * The records of a score's harmony. Places are written ticks along the printed bars, each bar once; ends are
 * exclusive. Pitch classes count semitones from C, 0-11; spelled names use "#" and "b" ("F#", "Bb").
 */

/** The two modes that the key path knows; colours such as Dorian stand beside them. */
export type Mode = 'major' | 'minor';

/** A key by pitch class and mode. */
export interface KeyName {
  /** Pitch class of the tonic, 0-11. */
  readonly tonic: number;
  readonly mode: Mode;
}

/** What the scale in use adds to the plain mode; told from the steps that the two differ in. */
export type ModalColour = 'natural minor' | 'Dorian' | 'Phrygian' | 'Mixolydian' | 'Lydian';

/** A stretch of the piece in one key. */
export interface KeySpan extends KeyName {
  readonly fromTick: number;
  readonly toTick: number;
  readonly barIndex: number;
  /** The tonic spelled: "F#", "Eb". */
  readonly spelling: string;
  /** 0-1: how far the notes fit this key better than the next best one. */
  readonly confidence: number;
  readonly colour: ModalColour | null;
}

/** The key of the whole piece. */
export interface GlobalKey extends KeyName {
  readonly spelling: string;
  readonly confidence: number;
  readonly colour: ModalColour | null;
  /** True where a piece in minor closes on its major tonic chord. */
  readonly picardyClose: boolean;
}

/** Chord qualities that the search looks for in the notes. */
export type SoughtQuality =
  | 'major' | 'minor' | 'diminished' | 'augmented'
  | 'dominantSeventh' | 'majorSeventh' | 'minorSeventh' | 'halfDiminishedSeventh' | 'diminishedSeventh' | 'frenchSixth'
  | 'cadentialSixFour' | 'cadentialSixFourMinor';

/** Qualities as named: those sought, and what they turn out to be where they stand. */
export type Quality =
  | Exclude<SoughtQuality, 'cadentialSixFourMinor'>
  | 'dominantNinth' | 'dominantMinorNinth' | 'italianSixth' | 'germanSixth' | 'openFifth' | 'none';

/** What a harmony does in its key. */
export type HarmonicFunction =
  | 'tonic' | 'predominant' | 'dominant' | 'appliedDominant' | 'tonicSubstitute' | 'chromatic' | 'none';

/** Place of a note in a chord. */
export type ChordMember = 'root' | 'third' | 'fifth' | 'seventh' | 'ninth';

/** Which members sound. A late one first sounds after the harmony's first beat. */
export interface Members {
  readonly sounding: readonly ChordMember[];
  readonly missing: readonly ChordMember[];
  readonly late: readonly ChordMember[];
}

/** Why a note that is foreign to its harmony is there. */
export type NonChordKind =
  | 'suspension' | 'appoggiatura' | 'passing' | 'neighbour' | 'anticipation' | 'escape' | 'pedal' | 'ornamental' | 'unexplained';

/** A note foreign to its harmony. */
export interface NonChordNote {
  /** Place in `Score.notes`. */
  readonly noteIndex: number;
  readonly kind: NonChordKind;
  /** For suspensions: the intervals over the bass, "4-3", "7-6", "9-8", "2-3" … ; otherwise null. */
  readonly figure: string | null;
}

/** One harmony; it lasts until the next. */
export interface Harmony {
  readonly fromTick: number;
  readonly toTick: number;
  readonly barIndex: number;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
  /** Pitch class of the root, or null where no single root can be told. */
  readonly root: number | null;
  /** The root spelled, "" without one. */
  readonly rootName: string;
  readonly quality: Quality;
  /** Pitch class of the lowest note, or null in silence. */
  readonly bass: number | null;
  readonly bassName: string;
  /** 0 root position, 1 third in the bass, 2 fifth, 3 seventh; null where the bass is foreign to the chord. */
  readonly inversion: number | null;
  /** Roman numeral in the local key: "V7", "ii65", "V7/V", "N6", "It6", "bVI"; "" without a root. */
  readonly degree: string;
  readonly function: HarmonicFunction;
  /** True for a chord that a major key takes from its parallel minor. */
  readonly borrowed: boolean;
  readonly members: Members;
  readonly nonChordNotes: readonly NonChordNote[];
  /** 0-1: share of the sounding time that the chord explains, less where members are missing. */
  readonly confidence: number;
  /** Chord name: "G7", "Bm/D", "F#dim7"; "" without a root. */
  readonly name: string;
}

/** Kinds of cadence, in the British sense: `imperfect` comes to rest on the dominant. */
export type CadenceKind = 'perfect' | 'imperfect' | 'interrupted' | 'plagal';

/** A cadence, at the place of its last chord. */
export interface Cadence {
  readonly tick: number;
  readonly barIndex: number;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
  readonly kind: CadenceKind;
}

/** Where a phrase ends: the onset of its last harmony. */
export interface PhraseEnd {
  readonly tick: number;
  readonly barIndex: number;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
  /** Onset of the tune's last note where a slur tells it, else the same as `tick`: the next phrase begins after it. */
  readonly lastNoteTick: number;
}

/** Everything that the notes tell of a piece's harmony. */
export interface HarmonyAnalysis {
  /** Null where the score holds no notes. */
  readonly globalKey: GlobalKey | null;
  readonly keys: readonly KeySpan[];
  readonly harmonies: readonly Harmony[];
  readonly cadences: readonly Cadence[];
  readonly phraseEnds: readonly PhraseEnd[];
}
