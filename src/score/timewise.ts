/** Timewise scores hold parts inside bars. They are rare; turning them round once keeps everything else simple. */
import { newElement } from './writeXml.js';
import { childrenNamed, type XmlElement } from './xmlTree.js';

/**
 * A timewise score (bars outside, parts inside) turned partwise, the form that everything else reads and engraves.
 * Every part keeps the attributes of the bars; a part that lacks a bar gets an empty one, so that bars stay level.
 */
export function toPartwise(root: XmlElement): XmlElement {
  const measures = childrenNamed(root, 'measure');
  const head = root.children.filter((element) => element.name !== 'measure');
  const ids = [...new Set(measures.flatMap((measure) => childrenNamed(measure, 'part').map(idOf)))];
  const parts = ids.map((id) =>
    newElement(
      'part',
      measures.map((measure) => barOfPart(measure, id)),
      { id },
    ),
  );
  return { ...root, name: 'score-partwise', children: [...head, ...parts] };
}

/** The bar with its own attributes and the music of one part. */
function barOfPart(measure: XmlElement, id: string): XmlElement {
  const part = childrenNamed(measure, 'part').find((candidate) => idOf(candidate) === id);
  return { ...measure, children: part?.children ?? [] };
}

/** A part without an id is a part all the same. */
function idOf(part: XmlElement): string {
  return part.attributes['id'] ?? '';
}
