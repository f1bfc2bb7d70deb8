import { sentenceCase, type Language } from '../base/index.js';
import type { Reading } from '../pipeline/index.js';
import { strandsOf } from '../judge/index.js';
import { paceInWords, routeInBrief, tempoOf } from '../review/index.js';
import { lengthInWords } from './moments.js';

/** A recording in one line for the desk: its way through the piece; its pace; how long it is. */
export function deskLine(reading: Reading, language: Language): string {
  const { score, alignment, measures, recording } = reading;
  const strands = strandsOf(score, alignment, recording.notes.map((note) => note.onsetS));
  const parts = [...routeInBrief(score, strands, language), paceInWords(tempoOf(score, measures)), lengthInWords(recording.durationS)];
  return sentenceCase(parts.filter((part) => part !== '').join('; '));
}
