/** The teaching notes as plain text for a terminal. */
import { sentenceCase, type Language } from '../base/index.js';
import type { Score } from '../score/index.js';
import { inLanguage } from './analyse.js';
import { barsInWords } from './teachingNotesBars.js';
import type { Analysis, Remark, Section } from './types.js';

/** Narrow enough for any terminal. */
const LINE_WIDTH = 96;

/** Up to so many sections are listed in the sentence on form; more make a list of their own. */
const MOST_IN_SENTENCE = 9;

/** The printed form; ends with a line break. */
export function analysisInWords(score: Score, analysis: Analysis, language: Language = 'british'): string {
  const { notes } = language === 'british' ? analysis : inLanguage(score, analysis, language);
  const blocks = [
    titleOf(score),
    block('Before teaching it', notes.beforeTeaching),
    analysis.sections.length > MOST_IN_SENTENCE ? ['Sections', ...analysis.sections.map((section) => `  ${sectionLine(score, section, language)}`)].join('\n') : '',
    block('What will trip a hand', notes.willTrip),
    block('Listen for', notes.listenFor),
  ];
  return `${blocks.filter((text) => text !== '').join('\n\n')}\n`;
}

/** Title and composer as the file names them. */
function titleOf({ title, composer }: Score): string {
  return [title, composer].filter((part) => part.trim() !== '').join('\n');
}

/** "A'  bars 17–23". */
function sectionLine(score: Score, section: Section, language: Language): string {
  return sentenceCase(section.name).padEnd(13) + barsInWords(score, section, language);
}

/** A heading and its sentences; "" without any. */
function block(heading: string, remarks: readonly Remark[]): string {
  return remarks.length === 0 ? '' : [heading, ...remarks.map((remark) => wrap(`- ${remark.text}`))].join('\n');
}

/** Broken at blanks; later lines are indented. */
function wrap(text: string): string {
  const lines: string[] = [];
  let line = '';
  for (const part of text.split(' ')) {
    if (line !== '' && line.length + 1 + part.length > LINE_WIDTH) {
      lines.push(line);
      line = `  ${part}`;
    } else line = line === '' ? part : `${line} ${part}`;
  }
  return [...lines, line].join('\n');
}
