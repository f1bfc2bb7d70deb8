/**
 * Pedal marks. They matter more here than in most readers of scores: whether a pedal was held too long depends on
 * where the score asks for it. Source: MusicXML 4.0 (W3C).
 */
import type { Mark } from './spans.js';
import { plainNumber } from './values.js';
import type { XmlElement } from './xmlTree.js';

/**
 * Pedal types of MusicXML 4.0 and what they do to a stretch of pressed pedal. "change" lifts and retakes;
 * "continue", "discontinue" and "resume" only draw the line and neither lift nor press.
 */
const EDGES: ReadonlyMap<string, 'start' | 'stop' | 'change' | null> = new Map([
  ['start', 'start'],
  ['sostenuto', 'start'],
  ['stop', 'stop'],
  ['change', 'change'],
  ['continue', null],
  ['discontinue', null],
  ['resume', null],
]);

/** Pedal marks of one direction, with the depth that its `sound` asks for; a `sound` alone counts as a mark too. */
export function pedalMarks(signs: readonly XmlElement[], sound: XmlElement | undefined): readonly Mark[] {
  const printed = signs.filter((sign) => sign.name === 'pedal').flatMap((sign) => printedMark(sign, sound));
  const damper = depth(sound?.attributes['damper-pedal']);
  const sostenuto = depth(sound?.attributes['sostenuto-pedal']);
  const soft = depth(sound?.attributes['soft-pedal']);
  return [
    ...printed,
    ...(damper === null || printed.length > 0 ? [] : [soundMark(damper > 0 ? 'start' : 'stop', damper, 'sounding damper')]),
    ...(sostenuto === null || printed.length > 0 ? [] : [soundMark(sostenuto > 0 ? 'sostenuto' : 'stop', sostenuto, 'sounding sostenuto')]),
    ...(soft === null ? [] : [soundMark('soft', soft, 'sounding soft')]),
  ];
}

/** A printed pedal sign; its depth comes from the attribute of the pedal that it names. */
function printedMark(sign: XmlElement, sound: XmlElement | undefined): readonly Mark[] {
  const type = sign.attributes['type'] ?? '';
  const edge = EDGES.get(type);
  if (edge === undefined) return [];
  const value = depth(sound?.attributes[type === 'sostenuto' ? 'sostenuto-pedal' : 'damper-pedal']);
  return [
    {
      kind: 'pedal',
      text: type,
      value,
      span: edge === null ? null : { edge, group: `pedal ${sign.attributes['number'] ?? '1'}` },
      shown: true,
    },
  ];
}

/** A pedal that only sounds: down from a depth above 0, up at 0. */
function soundMark(text: string, value: number, group: string): Mark {
  return { kind: 'pedal', text, value, span: { edge: value > 0 ? 'start' : 'stop', group }, shown: true };
}

/** How far the pedal is down, 0-100: yes is 100, no is 0, a number is percent (half pedal). */
function depth(text: string | undefined): number | null {
  if (text === 'yes') return 100;
  if (text === 'no') return 0;
  const percent = plainNumber(text);
  return percent === null || percent < 0 || percent > 100 ? null : percent;
}
