/**
 * Mordents and trills as fingers play them, from the main note and on the beat: the sign's own note is struck first, the
 * key beside it and the same key again follow. Common practice since about 1830 begins both so; how many strokes
 * there is time for is our own choice.
 */
import type { Random } from '../base/index.js';
import type { Player } from './plan.js';
import type { TakeNote } from './take.js';

/** Time from stroke to stroke at the marked tempo, seconds: about eight strokes a second, easy for a trained hand. */
const STROKE_S = 0.12;
/** How much of the note a trill fills, share of its length; the rest is the last stroke, held. */
const FILLED = 0.8;
/** Scatter of the strokes, share of the time between two. */
const STROKE_SCATTER = 0.06;
/** Later strokes are softer than the first, velocity units. */
const SOFTER = 8;

/** The notes with the strokes that ornament signs add; each added one has the status `ornament`. */
export function withOrnaments(notes: readonly TakeNote[], player: Player, normal: Random): readonly TakeNote[] {
  return notes.flatMap((note) => (note.written?.ornament ? strokes(note, note.written.ornament.beside, { player, normal }) : [note]));
}

/** The main note cut to its first stroke, then key beside and main key in turn, ending on the main key. */
function strokes(note: TakeNote, beside: number, { player, normal }: { player: Player; normal: Random }): readonly TakeNote[] {
  const stepS = STROKE_S / Math.max(player.tempo, 0.5);
  const room = Math.floor((FILLED * (note.releaseS - note.onsetS)) / stepS);
  const count = note.written?.ornament?.kind === 'mordent' ? 2 : Math.max(2, room - (room % 2));
  const times = Array.from({ length: count }, (_, i) => note.onsetS + stepS * (i + 1 + STROKE_SCATTER * normal()));
  const presses = times.map((onsetS, i): TakeNote => ({
    ...note, status: 'ornament', pitch: i % 2 === 0 ? beside : note.pitch, velocity: Math.max(8, note.velocity - SOFTER), onsetS,
    releaseS: times[i + 1] ?? note.releaseS,
  }));
  return [{ ...note, releaseS: times[0] ?? note.releaseS }, ...presses];
}
