/** Signs at a single note: slurs, articulations, ornaments, arpeggio, fermata, fingering. Source: MusicXML 4.0 (W3C). */
import { ARTICULATIONS, ORNAMENTS } from './markNames.js';
import type { Ornament, ScoreNote, SlurEnd } from './types.js';
import { childrenNamed, type XmlElement } from './xmlTree.js';

/** What the `notations` of a note say. */
export type NoteSigns = Pick<ScoreNote, 'letRing' | 'slurs' | 'articulations' | 'ornaments' | 'arpeggio' | 'fermata' | 'fingering'>;

/** A note without any signs. */
const NO_SIGNS: NoteSigns = { letRing: false, slurs: [], articulations: [], ornaments: [], arpeggio: null, fermata: false, fingering: [] };

/** Reads all `notations` of a note. Signs that are not known are passed over. */
export function readSigns(note: XmlElement): NoteSigns {
  const blocks = childrenNamed(note, 'notations');
  if (blocks.length === 0) return NO_SIGNS;
  const signs = blocks.flatMap((block) => block.children);
  const within = (name: string): readonly XmlElement[] => signs.filter((sign) => sign.name === name).flatMap((sign) => sign.children);
  const arpeggiate = signs.find((sign) => sign.name === 'arpeggiate');
  return {
    letRing: signs.some((sign) => sign.name === 'tied' && sign.attributes['type'] === 'let-ring'),
    slurs: signs.filter((sign) => sign.name === 'slur').flatMap(slurEnd),
    articulations: unique(within('articulations').flatMap((sign) => ARTICULATIONS.get(sign.name) ?? [])),
    ornaments: unique(within('ornaments').flatMap(ornament)),
    // MusicXML 4.0: from the lowest note up unless a direction is given
    arpeggio: arpeggiate === undefined ? null : arpeggiate.attributes['direction'] === 'down' ? 'down' : 'up',
    fermata: signs.some((sign) => sign.name === 'fermata'),
    fingering: within('technical')
      .filter((sign) => sign.name === 'fingering')
      .map((sign) => sign.text.trim()),
  };
}

/** A slur's end; "continue" is none. */
function slurEnd(sign: XmlElement): readonly SlurEnd[] {
  const kind = sign.attributes['type'];
  if (kind !== 'start' && kind !== 'stop') return [];
  return [{ kind, number: Number(sign.attributes['number'] ?? '1') || 1 }];
}

/** An ornament sign. The end of a wavy line belongs to the note before it; a paired tremolo says start or stop. */
function ornament(sign: XmlElement): readonly Ornament[] {
  const type = sign.attributes['type'];
  if (sign.name === 'wavy-line') return type === 'stop' ? [] : ['wavyLine'];
  if (sign.name === 'tremolo') return [type === 'start' || type === 'stop' ? 'tremoloPair' : 'tremolo'];
  return ORNAMENTS.get(sign.name) ?? [];
}

/** Each sign once, in the order of the file. */
function unique<T>(values: readonly T[]): readonly T[] {
  return [...new Set(values)];
}
