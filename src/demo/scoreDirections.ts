/** Marks of a demo piece as MusicXML directions. */
import type { Mark } from './piece.js';
import { element, leaf } from './xml.js';

/** The opening tempo: word and metronome mark over the upper stave; `sound` counts crotchets a minute. */
export function tempoDirection(word: string, metronome: string, tempo: number): string {
  return element('direction', { placement: 'above' }, [
    element('direction-type', {}, [element('words', { 'font-weight': 'bold' }, `${word} `)]),
    element('direction-type', {}, [metronome]),
    leaf('staff', 1),
    element('sound', { tempo }),
  ]);
}

/** A mark `offset` divisions after the place in the file where it stands. Dynamics go between the staves, pedal below both. */
export function directionElements(mark: Mark, offset: number, staff: 1 | 2): readonly string[] {
  return typeElements(mark).map((type) =>
    element('direction', { placement: mark.kind === 'words' && mark.place !== 'below' ? 'above' : 'below' }, [
      element('direction-type', {}, [type]),
      ...(offset === 0 ? [] : [leaf('offset', offset)]),
      leaf('staff', staff),
    ]),
  );
}

/** What kind of direction a mark is; a change of pedal makes two. */
function typeElements(mark: Mark): readonly string[] {
  switch (mark.kind) {
    case 'dynamics':
      return [element('dynamics', {}, [element(mark.text, {})])];
    case 'hairpin':
      return [element('wedge', { type: mark.type })];
    case 'pedal':
      return pedalTypes(mark.type).map((type) => element('pedal', { type, line: 'yes', sign: 'no' }));
    case 'words':
      return [element('words', { 'font-style': 'italic' }, mark.text)];
  }
}

/** A change is written as the end of one line and the start of the next: MusicXML's own `change` is drawn by few engravers. */
function pedalTypes(type: 'start' | 'change' | 'stop'): readonly string[] {
  return type === 'change' ? ['stop', 'start'] : [type];
}
