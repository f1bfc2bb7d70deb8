/** Marks that hold for the whole score but are printed over one part only, as in songs with piano. */
import { staffOfMarks } from './directionPlace.js';
import { readMarks } from './directions.js';
import type { Bar, Direction } from './types.js';
import { childrenNamed, type XmlElement } from './xmlTree.js';

/**
 * Tempo and rehearsal marks that only parts not read here carry, at the starts of bars: in scores of several parts
 * they often stand over the top stave alone.
 */
export function marksOfOtherParts(
  root: XmlElement,
  chosen: readonly XmlElement[],
  own: { readonly bars: readonly Bar[]; readonly directions: readonly Direction[] },
): readonly Direction[] {
  const found = new Map<string, Direction>();
  const known = new Set(own.directions.map((direction) => `${direction.kind} ${direction.onsetTick}`));
  for (const part of childrenNamed(root, 'part')) {
    if (chosen.includes(part)) continue;
    const measures = childrenNamed(part, 'measure');
    for (const bar of own.bars) {
      for (const direction of marksAtStart(measures[bar.index], bar)) {
        const key = `${direction.kind} ${direction.onsetTick}`;
        if (!known.has(key) && !found.has(key)) found.set(key, direction);
      }
    }
  }
  return [...found.values()];
}

/** Tempo and rehearsal marks before the first note of a bar. */
function marksAtStart(measure: XmlElement | undefined, bar: Bar): readonly Direction[] {
  if (measure === undefined) return [];
  const firstNote = measure.children.findIndex((element) => element.name === 'note' || element.name === 'forward');
  const before = measure.children.slice(0, firstNote < 0 ? undefined : firstNote);
  return before
    .filter((element) => element.name === 'direction' || element.name === 'sound')
    .flatMap((element) => readMarks(element).map((mark) => ({ element, mark })))
    .filter(({ mark }) => mark.kind === 'tempo' || mark.kind === 'rehearsal')
    .map(({ element, mark: { kind, text, value } }) => ({
      kind,
      text,
      value,
      barIndex: bar.index,
      onsetTick: bar.startTick,
      untilTick: null,
      staff: staffOfMarks(element),
    }));
}
