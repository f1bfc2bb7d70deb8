/**
 * The records of a score. All positions are exact: whole ticks of one grid a score (`ticksPerQuarter` ticks to the
 * crotchet). "Written" ticks count along the written bars from 0; "unfolded" ticks count along the playing order,
 * repeats written out. Ends are exclusive.
 */

/** Diatonic step name. */
export type Step = 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | 'G';

/** A spelled, sounding pitch. */
export interface Pitch {
  readonly step: Step;
  /** Semitones up (+) or down (-); 0 natural. */
  readonly alter: number;
  /** Octave 4 starts at middle C. */
  readonly octave: number;
  /** MIDI number, 60 = middle C. */
  readonly midi: number;
}

/** Articulation marks; `detachedLegato` is portato (line and dot). */
export type Articulation =
  | 'staccato' | 'staccatissimo' | 'spiccato' | 'tenuto' | 'detachedLegato' | 'accent' | 'strongAccent' | 'stress' | 'unstress' | 'breathMark' | 'caesura';

/** Ornament signs over a note. A tremolo of one note or between two notes counts here too. */
export type Ornament =
  | 'trill' | 'mordent' | 'invertedMordent' | 'turn' | 'invertedTurn' | 'delayedTurn' | 'shake' | 'schleifer' | 'wavyLine' | 'tremolo' | 'tremoloPair' | 'otherOrnament';

/** A grace note's place before (or after) its main note. */
export interface Grace {
  readonly slash: boolean;
  /** How many grace notes of this voice still come before the main note, this one counted: 1 = directly before it. */
  readonly before: number;
  /** True where no main note follows in the bar (after-notes of a trill and the like). */
  readonly after: boolean;
}

/** A slur's or tie's end at a note. */
export interface SlurEnd {
  readonly kind: 'start' | 'stop';
  readonly number: number;
}

/** One written note-head. Rests are `Rest`s. */
export interface ScoreNote {
  /** Place in `Score.notes`. */
  readonly index: number;
  /** The id in the file, or the stable one given here and written into the engraved copy. */
  readonly id: string;
  /** Place in `Score.bars`. */
  readonly barIndex: number;
  /** Written ticks from the start of the piece. Grace notes stand at their main note's onset. */
  readonly onsetTick: number;
  /** Written length in ticks, 0 for grace notes. */
  readonly lengthTicks: number;
  readonly pitch: Pitch;
  /** 1 = upper stave (right hand), 2 = lower (left hand); more for scores on three staves. */
  readonly staff: number;
  readonly voice: string;
  /** True for every note of a chord but the first in the file. */
  readonly inChord: boolean;
  readonly grace: Grace | null;
  /** Small silent note: never played, never missed. */
  readonly cue: boolean;
  readonly tieStart: boolean;
  readonly tieStop: boolean;
  readonly letRing: boolean;
  readonly slurs: readonly SlurEnd[];
  readonly articulations: readonly Articulation[];
  readonly ornaments: readonly Ornament[];
  readonly arpeggio: 'up' | 'down' | null;
  readonly fermata: boolean;
  /** Printed value: "quarter", "eighth" …, or null where the file does not say. */
  readonly type: string | null;
  readonly dots: number;
  /** [actual, normal], e.g. [3, 2] for a triplet; null without. */
  readonly tuplet: readonly [number, number] | null;
  readonly fingering: readonly string[];
  /** Loudness asked for this note alone, as MIDI velocity (references: MusicXML note `dynamics`), or null. */
  readonly velocity: number | null;
  readonly hidden: boolean;
}

/** A written rest. */
export interface Rest {
  readonly barIndex: number;
  readonly onsetTick: number;
  readonly lengthTicks: number;
  readonly staff: number;
  readonly voice: string;
  readonly wholeBar: boolean;
  readonly fermata: boolean;
}

/** Metre in force. */
export interface TimeSignature {
  readonly beats: number;
  readonly beatType: number;
  readonly symbol: string | null;
}

/** Key signature in force. */
export interface KeySignature {
  /** -7 (flats) to +7 (sharps). */
  readonly fifths: number;
  readonly mode: string | null;
}

/** How a bar line looks and what it asks. */
export interface Barline {
  readonly location: 'left' | 'right' | 'middle';
  readonly style: string | null;
  readonly repeat: 'forward' | 'backward' | null;
  readonly fermata: boolean;
}

/** A printed bar. */
export interface Bar {
  readonly index: number;
  /** The file's number attribute as it stands: "1", "0", "12a", "X1". Not unique. */
  readonly number: string;
  /** Not counted (upbeat, second half of a split bar). */
  readonly implicit: boolean;
  readonly startTick: number;
  /** What the bar really holds. */
  readonly lengthTicks: number;
  /** What its time signature says. */
  readonly nominalTicks: number;
  readonly time: TimeSignature;
  readonly key: KeySignature;
  readonly barlines: readonly Barline[];
  /** Numbers of the ending that covers this bar; empty outside endings. */
  readonly endings: readonly number[];
}

/** Something written over or under the staves at one moment. `untilTick` where it has an end of its own (hairpins, pedal lines). */
export interface Direction {
  readonly kind: 'dynamics' | 'crescendo' | 'diminuendo' | 'pedal' | 'tempo' | 'words' | 'rehearsal' | 'octaveShift' | 'segno' | 'coda';
  readonly barIndex: number;
  readonly onsetTick: number;
  readonly untilTick: number | null;
  readonly staff: number | null;
  /** The mark as printed: "mf", "Andantino", "start" for a pedal, "rit." */
  readonly text: string;
  /** Tempo in crotchets a minute (kind tempo), pedal depth 0-100 (kind pedal), MIDI velocity that the file's sound asks for (kind dynamics), each where given, else null. */
  readonly value: number | null;
}

/** One bar in the playing order. */
export interface BarVisit {
  /** Place in `Score.order`. */
  readonly index: number;
  readonly barIndex: number;
  /** Which time through this written bar, from 1. */
  readonly pass: number;
  /** Unfolded ticks. */
  readonly startTick: number;
}

/**
 * A sounding written note in one pass of the playing order: what can be played, missed, held. Ties are merged.
 * Cue notes have none.
 */
export interface Occurrence {
  /** Place in `Score.occurrences`, which is ordered by onset, then grace order, then pitch. */
  readonly index: number;
  /** First written note of the tie chain: place in `Score.notes`. */
  readonly noteIndex: number;
  /** All written notes of the tie chain, the first included. */
  readonly tied: readonly number[];
  readonly visitIndex: number;
  readonly pass: number;
  readonly barIndex: number;
  /** Unfolded ticks. */
  readonly onsetTick: number;
  /** Unfolded ticks, exclusive; equals the onset for grace notes. */
  readonly endTick: number;
  /** Sounding MIDI number. */
  readonly midi: number;
  readonly staff: number;
}

/** Something odd but usable in the file, in words. */
export interface ScoreWarning {
  readonly bar: string | null;
  readonly text: string;
}

/** A part of the file and whether it is the one read. */
export interface PartInfo {
  readonly id: string;
  readonly name: string;
  readonly notes: number;
  readonly chosen: boolean;
}

/** A score as read: written records, playing order, and what sounds. */
export interface Score {
  readonly source: 'musicxml' | 'midi';
  readonly title: string;
  readonly composer: string;
  readonly ticksPerQuarter: number;
  readonly parts: readonly PartInfo[];
  readonly staves: number;
  readonly bars: readonly Bar[];
  readonly notes: readonly ScoreNote[];
  readonly rests: readonly Rest[];
  readonly directions: readonly Direction[];
  readonly order: readonly BarVisit[];
  readonly occurrences: readonly Occurrence[];
  readonly warnings: readonly ScoreWarning[];
  /** MusicXML text with an id on every note of the chosen part and other parts left as they are; what the engraver gets. For a MIDI file a score on two staves made from it; null where none could be made. */
  readonly xml: string | null;
}
