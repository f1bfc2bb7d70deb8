/** The notes of the page as sounds: ties merged, cue notes left out; shared by the questions asked of hands and pedal. */
import { firstIndex } from '../base/index.js';
import type { Score, ScoreNote } from '../score/index.js';

/** One sound along the printed bars. */
export interface Sound {
  /** Written ticks; `toTick` exclusive. */
  readonly fromTick: number;
  readonly toTick: number;
  readonly midi: number;
  readonly left: boolean;
  readonly staccato: boolean;
  readonly letRing: boolean;
  readonly barIndex: number;
  /** The first written note. */
  readonly note: ScoreNote;
}

/** All sounds by onset, then pitch; grace notes left out, since they take no time of their own. */
export function soundsOf(score: Score): readonly Sound[] {
  const notes = score.notes.filter((note) => !note.cue && note.grace === null).toSorted((a, b) => a.onsetTick - b.onsetTick);
  const open = new Map<string, number>();
  const sounds: Sound[] = [];
  for (const note of notes) {
    const line = `${note.staff} ${note.pitch.midi}`;
    const at = note.tieStop ? open.get(line) : undefined;
    const held = at === undefined ? undefined : sounds[at];
    if (at !== undefined && held !== undefined) sounds[at] = { ...held, toTick: Math.max(held.toTick, note.onsetTick + note.lengthTicks), letRing: held.letRing || note.letRing };
    else sounds.push(asSound(note));
    if (note.tieStart) open.set(line, at ?? sounds.length - 1);
    else open.delete(line);
  }
  return sounds.sort((a, b) => a.fromTick - b.fromTick || a.midi - b.midi);
}

/** The sound that begins with a written note. */
function asSound(note: ScoreNote): Sound {
  return {
    fromTick: note.onsetTick,
    toTick: note.onsetTick + note.lengthTicks,
    midi: note.pitch.midi,
    left: note.staff !== 1,
    staccato: note.articulations.some((sign) => sign === 'staccato' || sign === 'staccatissimo' || sign === 'spiccato'),
    letRing: note.letRing,
    barIndex: note.barIndex,
    note,
  };
}

/** The sounds that begin in [fromTick, toTick). Binary search; the sounds are in order of onset. */
export function beginningIn(sounds: readonly Sound[], fromTick: number, toTick: number): readonly Sound[] {
  return sounds.slice(firstFrom(sounds, fromTick), firstFrom(sounds, toTick));
}

/** Place of the first sound that begins at or after a tick. */
export function firstFrom(sounds: readonly Sound[], tick: number): number {
  return firstIndex(sounds.length, (i) => (sounds[i]?.fromTick ?? 0) >= tick);
}
