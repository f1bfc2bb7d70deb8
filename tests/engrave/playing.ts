/** A small score and playings of it, written by hand, for marks and lanes. Places of notes come from the bar grid, which needs no engraver. */
import type { Alignment } from '../../src/align/index.js';
import { barGrid, type Engraving, type MarkMaterial } from '../../src/engrave/index.js';
import type { BarFacts, Measures } from '../../src/measure/index.js';
import type { RecordedNote, Recording } from '../../src/recording/index.js';
import type { Score } from '../../src/score/index.js';
import { smallScore } from './fixture.js';
import { NO_MEASURES } from '../measure/nothing.js';

export const score: Score = smallScore();
export const engraving: Engraving = barGrid(score, { widthPx: 656, reason: 'test' });

/** Place in `Score.occurrences` of a note by id. */
export function occurrence(id: string): number {
  return score.occurrences.findIndex(({ noteIndex }) => score.notes[noteIndex]!.id === id);
}

/** Where a note's head stands. */
export function headAt(id: string): { readonly x: number; readonly y: number } {
  return engraving.systems[0]!.notes.find((note) => note.id === id)!;
}

/** A pressed key, half a second long. */
export function pressed(index: number, onsetS: number, pitch: number): RecordedNote {
  return { index, onsetS, releaseS: onsetS + 0.5, pitch, velocity: 64, releaseVelocity: null, hanging: false };
}

/** What one visit to each of the two bars came to; `attempt` counts on where the bars were played again. */
export function visit(visitIndex: number, attempt = 1, stretch = 0): BarFacts {
  const nothing = { measured: false, reason: 'not asked for' } as const;
  return {
    visitIndex, barIndex: visitIndex, number: String(visitIndex + 1), pass: 1, attempt, stretch, startS: 0, endS: 1, played: 0, wrong: 0, missed: 0, added: 0, tempo: nothing, right: nothing, left: nothing,
  };
}

/** Material from its differing parts. */
export function material(parts: { readonly notes?: readonly RecordedNote[]; readonly alignment?: Partial<Alignment>; readonly measures?: Partial<Measures> }): MarkMaterial {
  const recording: Recording = { notes: parts.notes ?? [], sustain: [], sostenuto: [], soft: [], durationS: 10, limits: [] };
  const alignment: Alignment = { pairs: [], missed: [], added: [], ornaments: [], route: [], hands: 'both', transposition: 0, matched: 1, ...parts.alignment };
  return { score, recording, alignment, measures: { ...NO_MEASURES, bars: [visit(0), visit(1)], ...parts.measures } };
}
