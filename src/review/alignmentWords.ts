import { sentenceCase } from '../base/index.js';
import { barNames } from '../score/index.js';
import { differences, strandsOf, triesInWords, type Difference, type Material } from '../judge/index.js';
import { routeInWords } from './routeWords.js';
import { wrap } from './wrap.js';

function transpositionInWords(semitones: number): string {
  const size = Math.abs(semitones);
  return `The keyboard was set ${size} semitone${size === 1 ? '' : 's'} ${semitones > 0 ? 'higher' : 'lower'} than written; it is taken as written below.`;
}

function line(material: Material, difference: Difference): string {
  const all = material.measures.bars.filter((bar) => bar.barIndex === difference.barIndex);
  const tries = triesInWords(difference.visits, all);
  const place = sentenceCase(barNames(material.score).long(difference.barIndex));
  return wrap(`${place}, ${difference.hand} hand: ${difference.text}${tries === '' ? '' : ` (${tries})`}.`, '  ');
}

/**
 * The plain form of an alignment for a teacher: title, route, what the matching rests on, then
 * bar by bar what differs. Ends with a line break.
 */
export function alignmentInWords(material: Material): string {
  const { score, recording, alignment } = material;
  const strands = strandsOf(score, alignment, recording.notes.map((note) => note.onsetS));
  const found = differences(material);
  const parts = [
    score.title,
    wrap(routeInWords(score, strands), ''),
    ...(alignment.transposition === 0 ? [] : [transpositionInWords(alignment.transposition)]),
    '',
    ...(found.length ? found.map((difference) => line(material, difference)) : ['Every note as written.']),
    '',
    `${alignment.pairs.length + alignment.ornaments.length} of ${recording.notes.length} notes matched; ${alignment.missed.length} missed, ${alignment.added.length} wrong or added.`,
  ];
  return `${parts.join('\n').trim()}\n`;
}
