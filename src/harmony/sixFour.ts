/*
 * Question: does a tonic chord turn into a cadential six-four before it reaches its dominant?
 * Conventions: segments of cells; the six-four belongs to the dominant, whose root it takes.
 * Method: where a tonic triad goes to its dominant in root position, its last beats are split off from the first beat on which the dominant's
 *   note is the lowest and stays so, if that beat is at least as strong as the dominant's. Where the sixth is missing there, the dominant itself begins so early.
 * Source: textbook definition (accented, over the dominant's bass, resolving down).
 * What it does not tell: six-fours that pass or are arpeggiated; their bass moves on.
 */
import type { Evidence } from './evidence.js';
import { isSixFour } from './expectations.js';
import { mod } from './pitchNames.js';
import type { Segment } from './segment.js';
import { CHORDS, TEMPLATES } from './templates.js';

/** Segments with cadential six-fours split off their tonics. */
export function splitSixFours(segments: readonly Segment[], evidence: Evidence): readonly Segment[] {
  const result: Segment[] = [];
  segments.forEach((segment, i) => {
    const before = result.at(-1);
    const fromCell = before === undefined ? segment.fromCell : before.toCell;
    const next = segments[i + 1];
    const split = next === undefined ? null : splitCell(segment, next, evidence);
    result.push({ ...segment, fromCell, toCell: split ?? segment.toCell });
    if (split !== null && hasSixth(segment, split, evidence)) result.push({ fromCell: split, toCell: segment.toCell, chord: sixFourOf(segment.chord) });
  });
  return result;
}

/** Whether the third of the tonic, the sixth over the dominant, sounds from a cell on; without it the fourth is a suspension in the dominant itself. */
function hasSixth({ chord, toCell }: Segment, split: number, { within }: Evidence): boolean {
  const third = mod((chord % 12) + (CHORDS[chord]?.template.intervals[1] ?? 0), 12);
  return (within[toCell * 12 + third] ?? 0) - (within[split * 12 + third] ?? 0) > 1e-9;
}

/** Where the six-four begins, or null. */
function splitCell(segment: Segment, next: Segment, { cells, lowest }: Evidence): number | null {
  const tonic = CHORDS[segment.chord];
  const dominant = CHORDS[next.chord];
  if (tonic === undefined || dominant === undefined || isSixFour(dominant.template.quality)) return null;
  const triad = tonic.template.quality === 'major' || tonic.template.quality === 'minor';
  const leads = dominant.template.quality === 'major' || dominant.template.quality === 'dominantSeventh';
  if (!triad || !leads || mod(dominant.root - tonic.root, 12) !== 7 || mod(lowest[next.fromCell] ?? 0, 12) !== dominant.root) return null;
  let found: number | null = null;
  let beatLowest = 128;
  for (let cell = segment.toCell - 1; cell > segment.fromCell; cell -= 1) {
    beatLowest = Math.min(beatLowest, lowest[cell] ?? 128);
    if ((cells[cell]?.level ?? 3) > 2) continue;
    if (mod(beatLowest, 12) !== dominant.root) break;
    if ((cells[cell]?.level ?? 3) <= (cells[next.fromCell]?.level ?? 0)) found = cell;
    beatLowest = 128;
  }
  return found;
}

/** Number of the six-four that delays the dominant of a tonic triad. */
function sixFourOf(chord: number): number {
  const minor = CHORDS[chord]?.template.quality === 'minor';
  const place = TEMPLATES.findIndex((template) => template.quality === (minor ? 'cadentialSixFourMinor' : 'cadentialSixFour'));
  return place * 12 + mod((chord % 12) + 7, 12);
}
