/**
 * Ids of notes. The engraved picture, the alignment and the teacher's comments all point at notes by id, so every note
 * has one, the same at every reading, and the copy that is engraved carries it.
 */
import type { WarningList } from './warnings.js';
import { childrenNamed, type XmlElement } from './xmlTree.js';

/** Ids for the notes of the parts that are read, by element, and which of them the file lacks. */
export interface NoteIds {
  readonly byElement: ReadonlyMap<XmlElement, string>;
  /** By place among all `note` elements of the file: the id to write there. */
  readonly toWrite: ReadonlyMap<number, string>;
}

/** What ids that are given here begin with. */
const GIVEN_PREFIX = 'note-';

/**
 * Gives every note of the parts that are read one id: its own, or, where it has none or shares it with an earlier
 * element, a new one told from its place in the file, so that the same file always gets the same ids.
 */
export function giveIds(root: XmlElement, parts: readonly XmlElement[], warnings: WarningList): NoteIds {
  const byElement = new Map<XmlElement, string>();
  const toWrite = new Map<number, string>();
  const used = new Set<string>();
  const { notes, ids } = collect(root);
  const barOf = new Map(
    parts
      .flatMap((part) => part.children)
      .flatMap((measure) => childrenNamed(measure, 'note').map((element) => [element, measure.attributes['number'] ?? null] as const)),
  );
  notes.forEach((element, ordinal) => {
    const bar = barOf.get(element);
    if (bar === undefined) return;
    const own = element.attributes['id'] ?? '';
    const id = own !== '' && !used.has(own) ? own : freshId(ordinal, ids);
    if (id !== own) toWrite.set(ordinal, id);
    if (id !== own && own !== '') warnings.add(bar, 'Two notes of the file have the same id; the later one is given a new id');
    used.add(id);
    byElement.set(element, id);
  });
  return { byElement, toWrite };
}

/** All `note` elements of a file in file order, and all ids, whatever they name. */
function collect(
  element: XmlElement,
  found: { readonly notes: XmlElement[]; readonly ids: Set<string> } = { notes: [], ids: new Set() },
): typeof found {
  const id = element.attributes['id'];
  if (id !== undefined) found.ids.add(id);
  if (element.name === 'note') found.notes.push(element);
  for (const inner of element.children) collect(inner, found);
  return found;
}

/** An id that nothing in the file has. */
function freshId(ordinal: number, all: Set<string>): string {
  let id = `${GIVEN_PREFIX}${ordinal + 1}`;
  while (all.has(id)) id += 'x';
  all.add(id);
  return id;
}

/** Comments, character data, instructions, or the opening tag of a note: whatever comes first is taken whole. */
const TAGS = /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>|<note(?=[\s/>])(?:"[^"]*"|'[^']*'|[^>"'])*>/g;

/**
 * The text with ids written at the given notes, everything else untouched. Tags such as `<note-size>`, comments and
 * character data are passed over.
 * @param text well-formed XML
 * @param toWrite ids by place among all `note` elements
 */
export function writeIds(text: string, toWrite: ReadonlyMap<number, string>): string {
  if (toWrite.size === 0) return text;
  let ordinal = -1;
  return text.replace(TAGS, (tag) => {
    if (!tag.startsWith('<note')) return tag;
    ordinal += 1;
    const id = toWrite.get(ordinal);
    if (id === undefined) return tag;
    return `<note id="${id}"${tag.slice('<note'.length).replace(/\sid\s*=\s*("[^"]*"|'[^']*')/, '')}`;
  });
}

/** The text with the encoding of its declaration set to UTF-8, as text inside the program has no other. */
export function declaredAsUtf8(text: string): string {
  return text.replace(/^(<\?xml[^>]*?\sencoding\s*=\s*)("[^"]*"|'[^']*')/, '$1"UTF-8"');
}
