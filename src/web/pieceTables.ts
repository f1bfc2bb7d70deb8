/** The analysis as tables: what the drawing shows, for those who cannot see it and for copying. */
import type { Analysis } from '../analysis/index.js';
import { keyInWords } from '../analysis/index.js';
import { sentenceCase, word, type Language } from '../base/index.js';
import type { BarNames, Score } from '../score/index.js';
import { beatPlace } from './beatPlace.js';
import { harmonyInWords } from './pieceBar.js';
import { captionOf } from './pieceSections.js';
import type { PieceTable } from './pieceTypes.js';

/** What tables are made from. */
export interface TableGround {
  readonly score: Score;
  readonly analysis: Analysis;
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly language: Language;
}

/** Sections, keys, harmonies; a table without rows is left out. */
export function pieceTables(ground: TableGround): readonly PieceTable[] {
  const { score, analysis, language } = ground;
  const bar = sentenceCase(word('bar', language));
  const row = (barIndex: number, cells: readonly string[]) => ({ bar: nameOf(ground, barIndex), href: `#${ground.anchors[barIndex] ?? 'score'}`, cells });
  const tables: readonly PieceTable[] = [
    {
      caption: 'Sections',
      headings: [bar, 'to', 'section', 'what of it'],
      rows: analysis.sections.map((section) => row(section.fromBar, [nameOf(ground, section.toBar), section.name, captionOf(section, language)])),
    },
    { caption: 'Keys', headings: [bar, 'key'], rows: analysis.keys.map((key) => row(key.barIndex, [`${keyInWords(key)}${key.colour === null ? '' : `, ${key.colour}`}`])) },
    {
      caption: 'Harmony',
      headings: [bar, 'beat', 'degree and chord'],
      rows: analysis.harmonies.map((harmony) => row(harmony.barIndex, [beatPlace(score, harmony, language), harmonyInWords(harmony)])),
    },
  ];
  return tables.filter(({ rows }) => rows.length > 0);
}

/** "7", "upbeat". */
function nameOf({ names }: TableGround, barIndex: number): string {
  return names.short(barIndex) || names.long(barIndex).replace(/^the /, '');
}
