/**
 * Where a direction stands: its stave and its moment. Kept apart from what it says, since the moment depends on the
 * divisions in force, which only the reader of the bar knows.
 */
import { ticksOf, type Grid } from './grid.js';
import { plainNumber } from './values.js';
import { child, childText, childrenNamed, type XmlElement } from './xmlTree.js';

/** Stave a direction belongs to; stave 1 where it does not say (recalled from the standard). A lone `sound` has none. */
export function staffOfMarks(element: XmlElement): number | null {
  if (element.name === 'sound') return null;
  return plainNumber(childText(element, 'staff')) ?? 1;
}

/**
 * Ticks by which a direction sounds away from where it stands in the file. MusicXML 4.0: the `offset` of a direction
 * moves only its picture unless it says sound="yes"; the `offset` of its `sound` always counts and goes first.
 */
export function soundingOffset(element: XmlElement, divisions: number, grid: Grid): number {
  const sound = element.name === 'sound' ? element : child(element, 'sound');
  const ofSound = sound && child(sound, 'offset');
  const ofDirection = child(element, 'offset');
  const offset = ofSound ?? (ofDirection?.attributes['sound'] === 'yes' ? ofDirection : undefined);
  const value = plainNumber(offset?.text.trim());
  return value === null ? 0 : Math.round(ticksOf(value, divisions, grid));
}

/** Dynamics that stand in the notations of a note. */
export function dynamicsOfNote(note: XmlElement): readonly XmlElement[] {
  const blocks = childrenNamed(note, 'notations');
  return blocks.length === 0 ? blocks : blocks.flatMap((block) => childrenNamed(block, 'dynamics'));
}
