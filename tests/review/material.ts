import type { Added, Alignment, Missed, Pair, Stretch } from '../../src/align/index.js';
import type { BarFacts } from '../../src/measure/index.js';
import type { Recording } from '../../src/recording/index.js';
import type { Material } from '../../src/judge/index.js';
import type { Score } from '../../src/score/index.js';
import { readScore } from '../../src/score/index.js';

/** Four bars of 4/4 in G major, one crotchet F sharp 4 (66) a beat in the right hand, G 2 (43) a bar in the left; bars 1-2 repeated. */
export function smallScore(): Score {
  const note = (step: string, octave: number, type: string, more: string): string =>
    `<note><pitch><step>${step}</step>${step === 'F' ? '<alter>1</alter>' : ''}<octave>${octave}</octave></pitch><duration>${type === 'whole' ? 4 : 1}</duration><type>${type}</type>${more}</note>`;
  const bar = (number: number): string => {
    const head = number === 1 ? '<attributes><divisions>1</divisions><key><fifths>1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves></attributes>' : '';
    const upper = note('F', 4, 'quarter', '<staff>1</staff>').repeat(4);
    const lower = note('G', 2, 'whole', '<staff>2</staff>');
    const repeat = number === 2 ? '<barline location="right"><repeat direction="backward"/></barline>' : '';
    return `<measure number="${number}">${head}${upper}<backup><duration>4</duration></backup>${lower}${repeat}</measure>`;
  };
  const xml = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${[1, 2, 3, 4].map(bar).join('')}</part></score-partwise>`;
  return readScore(new TextEncoder().encode(xml), { fileName: 'small.musicxml' });
}

/** A stretch of the route; visits count from 0: 0-1 first time, 2-3 second time, 4-5 bars 3-4. */
export function stretch(index: number, fromVisit: number, toVisit: number, more: Partial<Stretch> = {}): Stretch {
  return { index, fromVisit, toVisit, startS: index * 10, endS: index * 10 + 8, attempt: 1, hands: 'both', ...more };
}

/** Material with these records and keys pressed; note n sounds at second n. */
export function material(parts: { route: readonly Stretch[]; bars?: readonly Partial<BarFacts>[]; keys?: readonly number[]; pairs?: readonly Pair[]; missed?: readonly Missed[]; added?: readonly Added[] }): Material & { alignment: Alignment } {
  const keys = parts.keys ?? [];
  const notes = keys.map((pitch, index) => ({ index, onsetS: index, releaseS: index + 0.5, pitch, velocity: 64, releaseVelocity: null, hanging: false }));
  const recording: Recording = { notes, sustain: [], sostenuto: [], soft: [], durationS: keys.length, limits: [] };
  const alignment: Alignment = { pairs: parts.pairs ?? [], missed: parts.missed ?? [], added: parts.added ?? [], ornaments: [], route: parts.route, hands: 'both', transposition: 0, matched: 1 };
  return { score: smallScore(), recording, alignment, measures: { bars: (parts.bars ?? []).map(facts) } };
}

/** Facts of a visit: bar 2 the first time unless said otherwise. */
export function facts(more: Partial<BarFacts>): BarFacts {
  const none = { measured: false, reason: 'not needed here' } as const;
  return { visitIndex: 1, barIndex: 1, number: '2', pass: 1, attempt: 1, stretch: 0, startS: 0, endS: 1, played: 5, wrong: 0, missed: 0, added: 0, tempo: none, right: none, left: none, ...more };
}
