/** Which keys were pressed in a bar: wrong notes have changed only where these have. */
import type { RecordedNote } from '../recording/index.js';
import { keyOf, type Side, type Spot } from './sides.js';

/** A press between two bars may have been taken for either: so many bars on both sides must differ as well. */
const NEAR_BARS = 1;

/** True where the keys pressed in the fault's bars, each as often as it was, differ between the recordings. */
export function keysPressed({ clear, other, place }: Spot): boolean {
  const around = { ...place, fromBar: place.fromBar - NEAR_BARS, toBar: place.toBar + NEAR_BARS };
  return [place, around].every((bars) => listOf(clear, bars) !== listOf(other, bars));
}

/** The keys of the last tries at these bars, in order of pitch, as one text. */
function listOf({ input: { score, recording, alignment }, tries }: Side, { fromBar, toBar, pass }: Spot['place']): string {
  const counts = (occurrence: number | null, attempt: number | null): boolean => {
    const written = score.occurrences[occurrence ?? -1];
    return written !== undefined && written.pass === pass && written.barIndex >= fromBar && written.barIndex <= toBar && (attempt === null || tries.get(keyOf(written)) === attempt);
  };
  const pressed = [
    ...alignment.pairs.filter(({ occurrence, attempt }) => counts(occurrence, attempt)),
    ...alignment.added.filter(({ near }) => counts(near, null)),
    ...alignment.ornaments.filter(({ occurrence }) => counts(occurrence, null)),
  ];
  return pressed.flatMap(({ note }) => pitchOf(recording.notes[note])).sort((a, b) => a - b).join(' ');
}

/** MIDI number of a press. */
function pitchOf(note: RecordedNote | undefined): readonly number[] {
  return note === undefined ? [] : [note.pitch];
}
