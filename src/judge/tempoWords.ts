/** Sentences on the tempo. */
import { sentenceCase, word } from '../base/index.js';
import type { TempoBend, TempoSpan } from '../measure/index.js';
import { printedTempos, type PrintedTempo } from '../score/index.js';
import type { Untold } from './merge.js';
import { placesInWords } from './placeWords.js';
import type { FoundPlace, JudgeInput, Observation, Told } from './types.js';
import { againstMarks, CHARACTER_CHANGES } from './tempoMarks.js';

/** The sentences of one observation. */
export function tellTempo(input: JudgeInput, untold: Untold): Told {
  const where = placesInWords(input, untold.places);
  const mark = printedTempos(input.score).find(({ tick }) => String(tick) === untold.topic);
  const words = mark === undefined || mark.words === '' ? 'the change' : `“${mark.words}”`;
  switch (untold.kind) {
    case 'slow': case 'fast': case 'slowPractice': return tellAgainst(input, untold);
    case 'noClosingRitardando': return { text: `${sentenceCase(where)}: the ${words} at the end is hardly made.`, advice: 'Let each of the last beats be a little longer than the one before.' };
    case 'noRitardando': return { text: `${sentenceCase(where)}: the ${words} is hardly made.`, advice: 'Let each beat be a little longer than the one before.' };
    case 'noAccelerando': return { text: `${sentenceCase(where)}: the ${words} is hardly made.`, advice: 'Let each beat be a little shorter than the one before.' };
    case 'notQuicker': return { text: `${sentenceCase(where)}: ${words} asks for a quicker tempo, and it stays the same.`, advice: 'Hear the new tempo inwardly before you play it.' };
    default: return { text: `${sentenceCase(where)}: ${words} asks for a slower tempo, and it stays the same.`, advice: 'Hear the new tempo inwardly before you play it.' };
  }
}

/** "About crotchet = 80, marked 104: slower than marked." */
function tellAgainst(input: JudgeInput, { kind, topic, measured }: Untold): Told {
  const against = againstMarks(input.measures.pulse.spans).find(({ mark }) => String(mark.tick) === topic);
  const beside = against === undefined ? '' : besideMark(input, against.span, against.mark);
  if (kind === 'slowPractice') return { text: `Slow practice: ${beside}.`, advice: 'After three clean times, take it 4 to 8 beats a minute quicker.' };
  if (kind === 'fast') return { text: `Faster than marked: ${beside}.`, advice: 'Begin with the quickest notes of the piece in mind, and take the tempo from them.' };
  const changes = measured.value < 100 * CHARACTER_CHANGES ? ', and the character changes' : '';
  return { text: `Slower than marked: ${beside}${changes}.`, advice: changes === '' ? '' : 'Bring it up by 4 to 8 beats a minute at a time, as long as it stays clean.' };
}

/** "about crotchet = 80, marked 104", with the bars where the piece has several marks. */
function besideMark(input: JudgeInput, span: TempoSpan, mark: PrintedTempo): string {
  const { unit, crotchetsAMinute, words, barIndex } = mark;
  const played = span.played.measured ? `about ${word(unit.name, input.language)} = ${Math.round(span.played.value / unit.crotchets)}` : '';
  const asked = crotchetsAMinute === null ? `marked ${words}` : `marked ${Math.round(crotchetsAMinute / unit.crotchets)}`;
  return barIndex === 0 ? `${played}, ${asked}` : `${played} from ${placesInWords(input, [{ fromBar: barIndex, toBar: barIndex, pass: 1, attempt: 1, notes: [], startS: 0 }])} on, ${asked}`;
}

/** "Bars 23–24: you slowed evenly into the close." */
export function tellMadeBend(input: JudgeInput, place: FoundPlace, { mark }: TempoBend): string {
  return `${sentenceCase(placesInWords(input, [place]))}: you ${mark.change === 'quickening' ? 'pressed on' : 'slowed'} evenly into the close.`;
}

/** One plain sentence. */
export function summaryOf({ measures }: JudgeInput, [first]: readonly Observation[]): string {
  if (first !== undefined) return first.text;
  return againstMarks(measures.pulse.spans).length > 0 ? 'The tempo is as marked.' : 'No tempo is marked.';
}
