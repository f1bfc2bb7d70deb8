/** Voices for the picture of a MIDI score. Only the picture needs them: what sounds is told by the notes themselves. */
import type { Bar, ScoreNote } from './types.js';

/** Notes that begin and end together in one voice of one stave. */
export interface VoiceChord {
  readonly onsetTick: number;
  readonly endTick: number;
  readonly notes: readonly ScoreNote[];
}

/** A chord, or the part of it that one bar holds. */
export interface ChordPiece extends VoiceChord {
  readonly tiedIn: boolean;
  readonly tiedOut: boolean;
}

/** Most voices a stave is drawn with; what does not fit shortens the note before it, in the picture only. */
const MOST_VOICES = 4;

/** A chord that a later one may still shorten. */
interface OpenChord {
  readonly onsetTick: number;
  endTick: number;
  readonly notes: ScoreNote[];
}

/**
 * Spreads the notes of one stave over voices so that no voice sounds two things at once: a note joins the chord it
 * begins and ends with, else takes the first voice that is free, else the last voice.
 * @param notes in order of onset
 */
export function spreadVoices(notes: readonly ScoreNote[]): readonly (readonly VoiceChord[])[] {
  const voices: OpenChord[][] = [];
  for (const note of notes) {
    const chord = { onsetTick: note.onsetTick, endTick: note.onsetTick + note.lengthTicks, notes: [note] };
    const fellow = voices
      .map((voice) => voice.at(-1))
      .find((last) => last?.onsetTick === chord.onsetTick && last.endTick === chord.endTick);
    const free = voices.find((voice) => (voice.at(-1)?.endTick ?? 0) <= chord.onsetTick);
    if (fellow !== undefined) fellow.notes.push(note);
    else if (free !== undefined) free.push(chord);
    else if (voices.length < MOST_VOICES) voices.push([chord]);
    else squeezeIn(voices.at(-1) ?? [], chord);
  }
  return voices;
}

/** Puts a chord into a voice that is still sounding: into its chord where both begin together, else by cutting it. */
function squeezeIn(voice: OpenChord[], chord: OpenChord): void {
  const last = voice.at(-1);
  if (last !== undefined && last.onsetTick === chord.onsetTick) last.notes.push(...chord.notes);
  else {
    if (last !== undefined) last.endTick = chord.onsetTick;
    voice.push(chord);
  }
}

/** What one bar holds of a voice, chords over its bar lines cut and tied. */
export function piecesInBar(voice: readonly VoiceChord[], bar: Bar): readonly ChordPiece[] {
  const end = bar.startTick + bar.lengthTicks;
  return voice
    .filter((chord) => chord.onsetTick < end && chord.endTick > bar.startTick)
    .map((chord) => ({
      notes: chord.notes,
      onsetTick: Math.max(chord.onsetTick, bar.startTick),
      endTick: Math.min(chord.endTick, end),
      tiedIn: chord.onsetTick < bar.startTick,
      tiedOut: chord.endTick > end,
    }));
}
