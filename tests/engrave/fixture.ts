/** A small two-stave piece for engraving tests, invented for them; the heights of its notes are known from the clefs. */
import type { Score } from '../../src/score/index.js';
import { backup, bars, direction, head, note, partwise } from '../score/build.js';
import { readText } from '../score/read.js';

const CLEFS = '<staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef>';

/** Bar 1: the right hand touches the treble stave's outer lines and middle C; the left hand the bass stave's. */
export const BAR_ONE = [
  head('4/4', CLEFS),
  note('F5', 2, { id: 'top-line', staff: 1 }), note('E4', 2, { id: 'bottom-line', staff: 1 }),
  note('C4', 2, { id: 'middle-c', staff: 1 }), note('B4', 2, { id: 'middle-line', staff: 1 }),
  backup(8),
  note('A3', 4, { id: 'bass-top', staff: 2, voice: '5' }), note('G2', 4, { id: 'bass-bottom', staff: 2, voice: '5' }),
].join('');

/** Bar 2: a chord in the right hand over a semibreve. */
export const BAR_TWO = [
  note('C5', 4, { id: 'chord-low', staff: 1 }), note('E5', 4, { id: 'chord-mid', staff: 1, chord: true }), note('G5', 4, { id: 'chord-high', staff: 1, chord: true }),
  note('D5', 4, { id: 'last', staff: 1 }),
  backup(8), note('C3', 8, { id: 'bass-long', staff: 2, voice: '5' }),
].join('');

/** The two bars as MusicXML text, `times` over. */
export function smallXml(times = 1): string {
  const more = Array.from({ length: times - 1 }, (_, i) => [BAR_ONE, BAR_TWO].map((bar) => bar.replace(/<attributes>.*?<\/attributes>/, '').replaceAll('id="', `id="r${i + 2}-`)));
  return partwise(bars([BAR_ONE, BAR_TWO, ...more.flat()]));
}

/** The same, read. */
export function smallScore(times = 1): Score {
  return readText(smallXml(times));
}

/** A pedal far under the staves and a hairpin, for extents. */
export const PEDALLED = [direction('<pedal type="start" sign="yes"/>', '<staff>2</staff>'), direction('<pedal type="stop" sign="yes"/>', '<staff>2</staff>')] as const;

/** The XML that a score was read into. */
export function xmlOf(score: Score): string {
  if (score.xml === null) throw new TypeError('this fixture is MusicXML');
  return score.xml;
}
