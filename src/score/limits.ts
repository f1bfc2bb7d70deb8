/**
 * Caps on what a score file may hold. Each is far above any real piano score and low enough that a hostile file
 * is refused before it costs much memory or time. All are inclusive: the value itself is still accepted.
 */

/** Largest file, packed or plain, in bytes (32 MiB); long piano scores reach about 15 MB. */
export const MAX_FILE_BYTES = 32 * 1024 * 1024;

/** Most that the entries read from a packed file may unpack to, in bytes. */
export const MAX_UNPACKED_BYTES = 32 * 1024 * 1024;

/** Most entries of a packed file; a score, its container and a few pictures need under twenty. */
export const MAX_PACKED_ENTRIES = 200;

/** Deepest nesting of tags; MusicXML itself needs about twelve. */
export const MAX_XML_DEPTH = 64;

/** Most elements of one file; the longest piano scores hold about 300,000. */
export const MAX_XML_ELEMENTS = 2_000_000;

/** Most characters of one element's own text that are kept; words over a stave take a few lines at the most. */
export const MAX_TEXT_CHARACTERS = 1000;

/** Largest `divisions` of a crotchet; 16383 is the most that MIDI files allow, some programs write more. */
export const MAX_DIVISIONS = 1_000_000;

/** Finest common grid, ticks to the crotchet; keeps every position of a long piece a safe whole number. */
export const MAX_TICKS_PER_QUARTER = 10_000_000;

/** Longest single duration in crotchets; the longest notated bar-long rests stay below 64. */
export const MAX_DURATION_QUARTERS = 1024;

/** Most staves of one part; piano music has two, three or rarely four. */
export const MAX_STAVES = 8;

/** Largest alteration either way in semitones: a triple sharp or flat. */
export const MAX_ALTER = 3;

/** Largest number of an ending and largest number of plays of a repeat. */
export const MAX_PLAYS = 64;

/** Most bars of a part. */
export const MAX_BARS = 20_000;

/** Most bars of the playing order, repeats written out. */
export const MAX_VISITS = 100_000;

/** Most sounding notes of the playing order, repeats written out. */
export const MAX_OCCURRENCES = 1_000_000;
