/** The records of a recording. Times are seconds from the start of the file, pitches MIDI numbers. */

/** One key pressed and let go. */
export interface RecordedNote {
  /** Place in `Recording.notes`, which is ordered by onset, then pitch. */
  readonly index: number;
  readonly onsetS: number;
  /** When the key came up; for a note that was never released, the end of the file. */
  readonly releaseS: number;
  /** 0-127. */
  readonly pitch: number;
  /** 1-127. */
  readonly velocity: number;
  /** 0-127, or null where the file gives none (note-on with velocity 0). */
  readonly releaseVelocity: number | null;
  /** True where the file holds no release of this key. */
  readonly hanging: boolean;
}

/** A controller's value from this moment on. */
export interface ControlPoint {
  readonly timeS: number;
  /** 0-127. */
  readonly value: number;
}

/** Something this recording cannot tell, and what follows. */
export interface RecordingLimit {
  readonly kind: 'no-touch' | 'no-pedal' | 'switch-pedal' | 'inverted-pedal' | 'guessed-pedal' | 'no-release-velocity' | 'cut-file' | 'accompaniment' | 'drums' | 'doubled-notes' | 'hanging-notes' | 'long-silence';
  /** One sentence for the teacher. */
  readonly text: string;
}

/** A recording as read. */
export interface Recording {
  readonly notes: readonly RecordedNote[];
  /** CC64, continuous; turned round where the pedal is wired the wrong way. */
  readonly sustain: readonly ControlPoint[];
  /** CC66. */
  readonly sostenuto: readonly ControlPoint[];
  /** CC67. */
  readonly soft: readonly ControlPoint[];
  /** End of the last event. */
  readonly durationS: number;
  readonly limits: readonly RecordingLimit[];
}
