/** Title and composer, wherever the file keeps them. */
import { child, childText, childrenNamed, type XmlElement } from './xmlTree.js';

/** Title and composer of a score, each '' where the file does not say. */
export interface Titles {
  readonly title: string;
  readonly composer: string;
}

/**
 * Reads the titles: of the work, else of the movement, else the credit printed as title; with both, work and movement.
 * The composer is the creator of that type, else the credit printed as composer.
 */
export function readTitles(root: XmlElement): Titles {
  const work = child(root, 'work');
  const workTitle = work === undefined ? '' : (childText(work, 'work-title') ?? '');
  const movement = childText(root, 'movement-title') ?? '';
  const names = workTitle === movement ? [workTitle] : [workTitle, movement];
  const creators = childrenNamed(child(root, 'identification') ?? root, 'creator');
  return {
    title: names.filter((name) => name !== '').join(', ') || creditOf(root, 'title'),
    composer: creators.find((creator) => creator.attributes['type'] === 'composer')?.text.trim() ?? creditOf(root, 'composer'),
  };
}

/** Words of the first printed credit of that type. */
function creditOf(root: XmlElement, type: string): string {
  const credit = childrenNamed(root, 'credit').find((candidate) => childText(candidate, 'credit-type') === type);
  return (credit && childText(credit, 'credit-words')) ?? '';
}
