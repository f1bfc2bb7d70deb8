/**
 * What directions say: loudness, hairpins, tempo, words, rehearsal marks, signs, octave lines. Source: MusicXML 4.0
 * (W3C) unless a comment says otherwise. Signs that mean nothing to a listener (ornamental lines, images) are left out.
 */
import { pedalMarks } from './pedalMarks.js';
import type { Mark } from './spans.js';
import { areTempoWords, readMetronome, soundTempo } from './tempo.js';
import { plainNumber } from './values.js';
import { childrenNamed, type XmlElement } from './xmlTree.js';

/** Percent of a `sound`'s dynamics that is MIDI velocity 1 (MusicXML 4.0, W3C: percent of velocity 90). */
const VELOCITY_PER_PERCENT = 0.9;

/** Reads what a `direction`, a lone `sound`, or the `dynamics` of a note say, in file order. */
export function readMarks(element: XmlElement): readonly Mark[] {
  const sound = element.name === 'sound' ? element : childrenNamed(element, 'sound')[0];
  if (element.name === 'dynamics') return [dynamicsMark(element, undefined)];
  const signs = childrenNamed(element, 'direction-type').flatMap((type) => type.children);
  return [
    ...signs.filter((sign) => sign.name === 'dynamics').map((sign) => dynamicsMark(sign, sound)),
    ...signs.flatMap((sign) => simpleMarks(sign)),
    ...worded(signs, sound),
    ...pedalMarks(signs, sound),
  ];
}

/** One stave-wide sign whose meaning hangs on nothing else. */
function simpleMarks(sign: XmlElement): readonly Mark[] {
  if (sign.name === 'wedge') return wedgeMarks(sign);
  if (sign.name === 'octave-shift') return octaveMarks(sign);
  if (sign.name === 'rehearsal') return [plainMark('rehearsal', sign.text.trim())];
  if (sign.name === 'segno' || sign.name === 'coda') return [plainMark(sign.name, '')];
  if (sign.name === 'dashes' && sign.attributes['type'] === 'stop') return [endOf('crescendo', spanGroup('dashes', sign))];
  return [];
}

/** A mark of one moment, without a stretch. */
function plainMark(kind: Mark['kind'], text: string, value: number | null = null): Mark {
  return { kind, text, value, span: null, shown: true };
}

/** The invisible end of a stretch. */
function endOf(kind: Mark['kind'], group: string): Mark {
  return { kind, text: '', value: null, span: { edge: 'stop', group }, shown: false };
}

/** Stretches of one kind are told apart by their number, 1 where the file gives none. */
function spanGroup(name: string, sign: XmlElement): string {
  return `${name} ${sign.attributes['number'] ?? '1'}`;
}

/** "mf", "sfz", or the file's own other dynamics; the value is the velocity that the file's sound asks for. */
function dynamicsMark(sign: XmlElement, sound: XmlElement | undefined): Mark {
  const text = sign.children.map((entry) => (entry.name === 'other-dynamics' ? entry.text.trim() : entry.name)).join('');
  const percent = plainNumber(sound?.attributes['dynamics']);
  return plainMark('dynamics', text, percent === null ? null : percent * VELOCITY_PER_PERCENT);
}

/** A hairpin's start, or its invisible end, which closes whichever kind is open under that number. */
function wedgeMarks(sign: XmlElement): readonly Mark[] {
  const group = spanGroup('wedge', sign);
  const type = sign.attributes['type'];
  if (type === 'stop') return [endOf('crescendo', group)];
  if (type !== 'crescendo' && type !== 'diminuendo') return [];
  return [{ kind: type, text: type === 'crescendo' ? '<' : '>', value: null, span: { edge: 'start', group }, shown: true }];
}

/** MusicXML 4.0: pitches already sound; type "down" means that notes are written lower than they sound, printed 8va. */
function octaveMarks(sign: XmlElement): readonly Mark[] {
  const group = spanGroup('octave-shift', sign);
  const type = sign.attributes['type'];
  if (type === 'stop') return [endOf('octaveShift', group)];
  if (type !== 'up' && type !== 'down') return [];
  const size = sign.attributes['size'] ?? '8';
  const suffix = size === '8' ? { down: 'va', up: 'vb' }[type] : { down: 'ma', up: 'mb' }[type];
  return [{ kind: 'octaveShift', text: `${size}${suffix}`, value: null, span: { edge: 'start', group }, shown: true }];
}

/** Words, metronome and sounding tempo of one direction: one tempo mark, or words, or a gradual change of loudness. */
function worded(signs: readonly XmlElement[], sound: XmlElement | undefined): readonly Mark[] {
  const words = signs
    .filter((sign) => sign.name === 'words')
    .map((sign) => sign.text.trim())
    .filter((text) => text !== '')
    .join(' ');
  const metronome = signs
    .filter((sign) => sign.name === 'metronome')
    .map(readMetronome)
    .find((mark) => mark !== null);
  const tempo = metronome?.crotchetsPerMinute ?? soundTempo(sound);
  if (metronome !== undefined || tempo !== null || areTempoWords(words)) {
    return [plainMark('tempo', [words, metronome?.text ?? ''].filter((text) => text !== '').join(' '), tempo)];
  }
  if (words === '') return [];
  return [/^(poco |molto |sempre )*(cresc|decresc|dim)/i.test(words) ? graduallyWorded(words, signs) : plainMark('words', words)];
}

/** "cresc." or "dim.", lasting as long as the dashes that the same direction starts. */
function graduallyWorded(words: string, signs: readonly XmlElement[]): Mark {
  const dashes = signs.find((sign) => sign.name === 'dashes' && sign.attributes['type'] === 'start');
  return {
    kind: /(decresc|dim)/i.test(words) ? 'diminuendo' : 'crescendo',
    text: words,
    value: null,
    span: dashes === undefined ? null : { edge: 'start', group: spanGroup('dashes', dashes) },
    shown: true,
  };
}
