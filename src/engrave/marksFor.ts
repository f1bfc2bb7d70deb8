/**
 * Pencil marks for what differs from the score, in the shown visit of every bar: a ring where another note was played
 * than the written one (or the same one in another octave), a caret under what is missing, a crossed head for what was
 * added. One list a system.
 */
import type { Slip } from '../judge/index.js';
import { barNames } from '../score/index.js';
import { addedMarks } from './addedMark.js';
import type { Mark } from './compose.js';
import { headedNotes, headsOf, noteIdOf, notesById, shownBars, visitData, type MarkMaterial, type ShownBar, type SystemMaterial } from './markMaterial.js';
import { missingMarks, type MissingNote } from './missingMarks.js';
import type { MarkLabels } from './pencil.js';
import { ringMarks, type RingedNote } from './ringMarks.js';
import { timeToX } from './timeToX.js';
import type { Engraving } from './types.js';

/** Marks of every system of an engraving, in the system's coordinates. */
export function marksFor(engraving: Engraving, material: MarkMaterial): readonly (readonly Mark[])[] {
  const shown = shownBars(material);
  const names = material.names ?? barNames(material.score);
  const byId = notesById(material.score);
  return engraving.systems.map((system) => {
    const parts = { material, system, heads: headsOf(system), headed: headedNotes(system, byId), names, staveSpacePx: engraving.staveSpacePx };
    return marksOfSystem(parts, system.bars.flatMap(({ barIndex }) => shown.get(barIndex) ?? []));
  });
}

/** Rings, carets and crossed heads, in this order. */
function marksOfSystem(parts: SystemMaterial, bars: readonly ShownBar[]): readonly Mark[] {
  const rings = bars.flatMap((bar) => ringMarks(bar.slips.filter(({ kind }) => kind === 'wrong' || kind === 'octave').flatMap((slip) => ringedNote(parts, bar, slip))));
  const carets = bars.flatMap((bar) => missingMarks(parts, bar.slips.filter(({ kind }) => kind === 'missed').flatMap((slip) => missingNote(parts, bar, slip))));
  const xAt = timeToX(parts, bars);
  const crossed = addedMarks(parts, bars.flatMap((bar) => bar.slips.filter(({ kind }) => kind === 'added').map((slip) => ({ slip, labels: labelsOf(parts, bar, slip) }))), xAt);
  return [...rings, ...carets, ...crossed];
}

/** A written head to be ringed; nothing where that head is not in the picture. */
function ringedNote(parts: SystemMaterial, bar: ShownBar, slip: Slip): readonly RingedNote[] {
  const id = noteIdOf(parts.material, slip.occurrence);
  const head = parts.heads.get(id);
  return head ? [{ id, head, labels: labelsOf(parts, bar, slip) }] : [];
}

/** A missing note with its head and stave; carets are drawn a bar at a time, so that chords can share one. */
function missingNote(parts: SystemMaterial, bar: ShownBar, slip: Slip): readonly MissingNote[] {
  const id = noteIdOf(parts.material, slip.occurrence);
  const head = parts.heads.get(id);
  const staff = slip.occurrence === null ? undefined : parts.material.score.occurrences[slip.occurrence]?.staff;
  return head && staff !== undefined ? [{ id, head, staff, labels: labelsOf(parts, bar, slip) }] : [];
}

/** Title in words and links; the seed is the written note's place, so that a mark keeps its shape. */
function labelsOf(parts: SystemMaterial, { visit }: ShownBar, slip: Slip): MarkLabels {
  const where = parts.names.long(visit.barIndex);
  const played = slip.note === null ? {} : { played: slip.note };
  return {
    title: `${where.charAt(0).toUpperCase()}${where.slice(1)}: ${slip.text}`,
    data: { ...visitData(visit), note: noteIdOf(parts.material, slip.occurrence), ...played },
    seed: 7919 * (slip.occurrence ?? 0) + (slip.note ?? 0),
  };
}
