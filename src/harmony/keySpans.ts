/*
 * Question: where does each key begin and end, and how is it written?
 * Conventions: written ticks; whole bars.
 * Method: bars with one key are joined; confidence is how far the span's durations correlate better with this key than with
 *   the next best, both profiles of Krumhansl and Kessler 1982.
 * Source: our own rule.
 * What it does not tell: the beat on which a key turns.
 */
import type { Score } from '../score/index.js';
import { spelledKey, type SpelledKey } from './draft.js';
import { modalColour } from './modalColour.js';
import type { SoundingNote } from './notes.js';
import { fifthsName } from './pitchNames.js';
import { keyCorrelations, modeOf, tonicOf } from './profiles.js';
import type { KeySpan, Mode } from './types.js';

/** The spans of a key for every bar, and each span's key spelled as its notes are. */
export function keySpans(score: Score, barKeys: readonly number[], notes: readonly SoundingNote[]): readonly SpelledSpan[] {
  return score.bars
    .filter((bar) => bar.index === 0 || barKeys[bar.index] !== barKeys[bar.index - 1])
    .map((bar, i, starts) => {
      const last = score.bars[(starts[i + 1]?.index ?? score.bars.length) - 1] ?? bar;
      const key = barKeys[bar.index] ?? 0;
      const name = { tonic: tonicOf(key), mode: modeOf(key) };
      const range = { from: bar.startTick, to: last.startTick + last.lengthTicks };
      const durations = durationsOf(notes, range);
      const spelled = spelledKey(key, meanFifths(notes, range) ?? bar.key.fifths + MAJOR_MEAN);
      const fits = keyCorrelations(durations);
      const rival = Math.max(...fits.filter((_, other) => other !== key));
      const span = {
        fromTick: range.from,
        toTick: range.to,
        barIndex: bar.index,
        ...name,
        spelling: fifthsName(printable(name.mode, spelled.fifths)),
        confidence: Math.min(1, Math.max(0, 0.5 + (fits[key] ?? 0) - rival)),
        colour: modalColour(name, durations),
      };
      return { span, spelled, toBar: last.index };
    });
}

/** Signatures have at most so many signs; a key that would need more is named by its enharmonic. */
const MOST_SIGNS = 7;

/** The tonic's place on the line of fifths, moved where no signature could be printed. */
function printable(mode: Mode, fifths: number): number {
  const signs = mode === 'major' ? fifths : fifths - 3;
  if (signs > MOST_SIGNS) return fifths - 12;
  return signs < -MOST_SIGNS ? fifths + 12 : fifths;
}

/** A span with its key on the line of fifths. */
export interface SpelledSpan {
  readonly span: KeySpan;
  readonly spelled: SpelledKey;
  /** Its last bar. */
  readonly toBar: number;
}

/** Where the notes of a major key lie on average above its tonic, steps on the line of fifths. */
const MAJOR_MEAN = 2;

/** Mean place on the line of fifths of what sounds within a range, by length; null in silence. */
function meanFifths(notes: readonly SoundingNote[], { from, to }: { readonly from: number; readonly to: number }): number | null {
  let sum = 0;
  let total = 0;
  for (const note of notes) {
    const length = Math.min(note.end, to) - Math.max(note.onset, from);
    if (length <= 0) continue;
    sum += length * note.fifths;
    total += length;
  }
  return total === 0 ? null : sum / total;
}

/** Ticks that each pitch class sounds within a range, doublings counted. */
export function durationsOf(notes: readonly SoundingNote[], { from, to }: { readonly from: number; readonly to: number }): readonly number[] {
  const sums = new Array<number>(12).fill(0);
  for (const note of notes) {
    const length = Math.min(note.end, to) - Math.max(note.onset, from);
    if (length > 0) sums[note.pc] = (sums[note.pc] ?? 0) + length;
  }
  return sums;
}
