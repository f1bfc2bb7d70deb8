/*
 * Notes that players lean on: a little time before them is expression.
 *
 * What they are: appoggiaturas and suspensions, the high point of a phrase, and where a hand lands after a leap. Common practice.
 */
import type { Analysis, Phrase } from '../analysis/index.js';
import type { Score, ScoreNote } from '../score/index.js';

/** From so many semitones (>=) on a step of the outer voice is a leap that takes time: an octave. */
const LEAP_SEMITONES = 12;

/** Places in `Score.notes`. */
export function leanedOn(score: Score, analysis: Analysis): ReadonlySet<number> {
  const foreign = analysis.harmonies.flatMap(({ nonChordNotes }) => nonChordNotes.filter(({ kind }) => kind === 'appoggiatura' || kind === 'suspension').map(({ noteIndex }) => noteIndex));
  const right = outerVoice(score.notes.filter(({ staff }) => staff === 1), 1);
  const left = outerVoice(score.notes.filter(({ staff }) => staff > 1), -1);
  return new Set([...foreign, ...landings(right), ...landings(left), ...highPoints(right, analysis.phrases)]);
}

/** The highest (1) or lowest (-1) note of each moment, in order of ticks. */
function outerVoice(notes: readonly ScoreNote[], sign: 1 | -1): readonly ScoreNote[] {
  const outer = new Map<number, ScoreNote>();
  for (const note of notes) {
    const known = outer.get(note.onsetTick);
    if (note.grace === null && !note.cue && !note.tieStop && (known === undefined || sign * note.pitch.midi > sign * known.pitch.midi)) outer.set(note.onsetTick, note);
  }
  return [...outer.values()].sort((a, b) => a.onsetTick - b.onsetTick);
}

/** Notes that a leap lands on. */
function landings(line: readonly ScoreNote[]): readonly number[] {
  return line.filter((note, i) => Math.abs(note.pitch.midi - (line[i - 1]?.pitch.midi ?? note.pitch.midi)) >= LEAP_SEMITONES).map(({ index }) => index);
}

/** The first highest note of every phrase. */
function highPoints(line: readonly ScoreNote[], phrases: readonly Phrase[]): readonly number[] {
  let next = 0;
  return phrases.flatMap(({ from, untilTick }) => {
    while ((line[next]?.onsetTick ?? Infinity) < from.tick) next += 1;
    let highest: ScoreNote | undefined;
    for (let note = line[next]; note !== undefined && note.onsetTick < untilTick; note = line[next]) {
      if (highest === undefined || note.pitch.midi > highest.pitch.midi) highest = note;
      next += 1;
    }
    return highest === undefined ? [] : [highest.index];
  });
}
