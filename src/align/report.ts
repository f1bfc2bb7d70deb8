import { fourDecimals } from '../base/index.js';
import type { Recording } from '../recording/index.js';
import type { Score } from '../score/index.js';
import type { Alignment } from './types.js';

/** The alignment in the form "barwise-align/1" that `barwise align --json` prints. */
export function alignmentReport(score: Score, recording: Recording, alignment: Alignment): object {
  const noteId = (occurrence: number): string => score.notes[score.occurrences[occurrence]?.noteIndex ?? -1]?.id ?? '';
  const pass = (occurrence: number): number => score.occurrences[occurrence]?.pass ?? 1;
  const onset = (note: number): number => fourDecimals(recording.notes[note]?.onsetS ?? 0);
  const pitch = (note: number): number => recording.notes[note]?.pitch ?? 0;
  const bar = (visit: number): string => score.bars[score.order[visit]?.barIndex ?? -1]?.number ?? '';
  return {
    format: 'barwise-align/1',
    pairs: alignment.pairs.map((p) => ({ note: noteId(p.occurrence), pass: pass(p.occurrence), attempt: p.attempt, onset: onset(p.note), pitch: pitch(p.note) })),
    missed: alignment.missed.map((m) => ({ note: noteId(m.occurrence), pass: pass(m.occurrence), attempt: m.attempt })),
    added: alignment.added.map((a) => ({ onset: onset(a.note), pitch: pitch(a.note), ...(a.near === null ? {} : { near: noteId(a.near) }) })),
    ornaments: alignment.ornaments.map((o) => ({ note: noteId(o.occurrence), onset: onset(o.note), pitch: pitch(o.note) })),
    route: alignment.route.map((s) => ({
      fromBar: bar(s.fromVisit), toBar: bar(s.toVisit), pass: score.order[s.fromVisit]?.pass ?? 1, attempt: s.attempt, hands: s.hands, start: fourDecimals(s.startS), end: fourDecimals(s.endS),
    })),
    hands: alignment.hands,
    transposition: alignment.transposition,
    matched: fourDecimals(alignment.matched),
  };
}
