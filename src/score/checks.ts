/**
 * What is odd in a score but does not keep it from being used. Each check says one sentence; the list of warnings
 * gathers the bars. Faults that make a score unusable are refused where they are met, as typed errors.
 */
import { placeOf } from './grid.js';
import type { PartContents } from './placing.js';
import type { Bar, BarVisit, PartInfo, ScoreNote } from './types.js';
import type { WarningList } from './warnings.js';
import { child, childrenNamed, type XmlElement } from './xmlTree.js';

/** Warns of slurs that start and never end. Slurs pair by number, the end going to the oldest open slur of its voice, else to the oldest. */
export function checkSlurs(notes: readonly ScoreNote[], bars: readonly Bar[], warnings: WarningList): void {
  const open = new Map<number, ScoreNote[]>();
  const inTime = notes.toSorted((a, b) => a.onsetTick - b.onsetTick || a.index - b.index);
  for (const note of inTime) {
    for (const slur of note.slurs.toSorted((a, b) => (a.kind === b.kind ? 0 : a.kind === 'stop' ? -1 : 1))) {
      const waiting = open.get(slur.number) ?? [];
      if (slur.kind === 'start') open.set(slur.number, [...waiting, note]);
      else {
        const partner = waiting.find((start) => start.voice === note.voice) ?? waiting[0];
        open.set(
          slur.number,
          waiting.filter((start) => start !== partner),
        );
      }
    }
  }
  for (const note of [...open.values()].flat().toSorted((a, b) => a.index - b.index)) {
    warnings.add(bars[note.barIndex]?.number ?? null, 'A slur is never closed; where it ends is not known');
  }
}

/** Warns of bars that the playing order never reaches. */
export function checkReached(bars: readonly Bar[], order: readonly BarVisit[], warnings: WarningList): void {
  const reached = new Set(order.map((visit) => visit.barIndex));
  for (const bar of bars) {
    if (!reached.has(bar.index))
      warnings.add(bar.number, 'The repeats and jumps of this score never lead to a bar; its notes are not expected to be played');
  }
}

/** Warns of repeat signs inside a bar that the file does not split in two, as the standard asks. */
export function checkMiddleRepeats(bars: readonly Bar[], warnings: WarningList): void {
  for (const bar of bars) {
    if (bar.barlines.some((line) => line.location === 'middle' && line.repeat !== null)) {
      warnings.add(bar.number, 'A repeat sign stands in the middle of a bar that is not split in two; the whole bar is repeated');
    }
  }
}

/** Warns of a score that nobody could play a note of. */
export function checkSounds(notes: readonly ScoreNote[], warnings: WarningList): void {
  if (!notes.some((note) => !note.cue)) warnings.add(null, 'This score holds rests alone; there is nothing to play');
}

/** Warns where staves are used that the part never declares, or where it never says how long a crotchet is. */
export function checkDeclarations(parts: readonly XmlElement[], contents: PartContents, warnings: WarningList): void {
  parts.forEach((part, i) => {
    const bars = contents[i] ?? [];
    const undeclared = bars.find((content) => content.notes.some((note) => note.staff - i > content.declaredStaves));
    if (undeclared !== undefined) {
      warnings.add(
        placeOf(undeclared.measure).bar,
        'The part uses more staves than it declares; the notes are taken to stand where they say',
      );
    }
    const says = childrenNamed(part, 'measure').some((measure) =>
      childrenNamed(measure, 'attributes').some((attributes) => child(attributes, 'divisions') !== undefined),
    );
    if (!says) warnings.add(null, 'The part never says how many divisions a crotchet has; one is taken');
  });
}

/** Warns of parts that the list of parts does not know, and of parts of unequal length that are read together. */
export function checkParts(root: XmlElement, parts: readonly PartInfo[], contents: PartContents, warnings: WarningList): void {
  const list = child(root, 'part-list');
  const listed = new Set((list === undefined ? [] : childrenNamed(list, 'score-part')).map((entry) => entry.attributes['id']));
  for (const part of parts) {
    if (!listed.has(part.id))
      warnings.add(null, 'A part is missing from the list of parts at the head of the file; it is read without a name');
  }
  if (new Set(contents.map((content) => content.length)).size > 1)
    warnings.add(null, 'The two hands have different numbers of bars; bars beyond those of the right hand are left out');
}
