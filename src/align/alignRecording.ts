import { InputError } from '../base/index.js';
import type { Recording } from '../recording/index.js';
import type { Score } from '../score/index.js';
import { assemble } from './assemble.js';
import { undoDetours } from './detours.js';
import { joinFalseLandings } from './falseLandings.js';
import { follow, playingOrder } from './follow.js';
import type { Path } from './front.js';
import { indexTriples } from './landings.js';
import { pairNotes } from './pairNotes.js';
import type { Press } from './press.js';
import { layOutSlots } from './slots.js';
import { cutAtJumps, cutAtLeftOutBars } from './stretches.js';
import { likelyShift } from './transposition.js';
import type { Alignment } from './types.js';
import { visitRuns } from './visits.js';
import { refuseWrongPiece } from './wrongPiece.js';

function pressesOf(recording: Recording, shift: number): Press[] {
  return recording.notes.map((note) => ({ onsetS: note.onsetS, key: note.pitch - shift }));
}

/**
 * Matches every key press of a recording with the score, along the way that the player took.
 * Deterministic; time grows about linearly with the number of notes.
 * @throws InputError `no-notes` for a score of rests alone, `wrong-piece` where the recording is not of this score
 */
export function alignRecording(score: Score, recording: Recording): Alignment {
  if (!score.occurrences.length) throw new InputError('no-notes', 'The score holds rests alone, so nothing can be matched with it.');
  const slots = layOutSlots(score);
  const index = indexTriples(slots);
  const order = playingOrder(score);
  const way = (shift: number): { shift: number; path: Path; presses: Press[] } => {
    const presses = pressesOf(recording, shift);
    return { shift, presses, path: follow(slots, index, order, presses) };
  };
  const shift = likelyShift(index, recording.notes.map((note) => note.pitch));
  let best = way(0);
  if (shift !== 0) {
    const shifted = way(shift);
    if (shifted.path.worth > best.path.worth) best = shifted;
  }
  const straight = undoDetours(slots, best.presses, cutAtJumps(best.path), score.ticksPerQuarter);
  const landed = joinFalseLandings(slots, best.presses, straight, score.ticksPerQuarter);
  const cut = cutAtLeftOutBars(slots, best.presses, landed);
  const runs = pairNotes(score, slots, best.presses, cut).filter((run) => run.pairs.length > 0);
  const alignment = assemble({ score, slots, presses: best.presses, runs: visitRuns(score, runs), transposition: best.shift });
  refuseWrongPiece(alignment, best.path.worth, best.presses.length);
  return alignment;
}
