/** The way from MusicXML text to a score, one step a line. Each step has a file of its own. */
import { InputError } from '../base/index.js';
import { checkBars } from './barChecks.js';
import { layBars } from './bars.js';
import { checkDeclarations, checkMiddleRepeats, checkParts, checkReached, checkSlurs, checkSounds } from './checks.js';
import { endingBlocks } from './endings.js';
import { commonGrid, type Grid } from './grid.js';
import { declaredAsUtf8, giveIds, writeIds } from './ids.js';
import { readMeasures } from './measures.js';
import { soundingNotes } from './occurrences.js';
import { layOrder, playingOrder } from './order.js';
import { marksOfOtherParts } from './otherParts.js';
import { chooseParts } from './parts.js';
import { placeDirections, placeNotes, placeRests, type PartContents } from './placing.js';
import { signsOfBars } from './signs.js';
import { toPartwise } from './timewise.js';
import { readTitles } from './titles.js';
import type { Bar, Direction, Score } from './types.js';
import { WarningList } from './warnings.js';
import { writeXml } from './writeXml.js';
import { childrenNamed, parseXml, type XmlElement } from './xmlTree.js';

/** Frequent elements that only serve the picture or are not used; leaving them out halves the tree. */
const NOT_READ: ReadonlySet<string> = new Set([
  'beam',
  'stem',
  'accidental',
  'notehead',
  'lyric',
  'harmony',
  'figured-bass',
  'print',
  'defaults',
]);

/**
 * Reads a MusicXML score from its text, partwise or timewise.
 * @param wanted id or name of the part to read; the piano where left out
 * @throws InputError with bar or line where known
 */
export function readMusicXml(text: string, wanted: string | undefined): Score {
  const root = parseXml(text, NOT_READ);
  if (root.name === 'score-partwise') return readPartwise(text, root, wanted);
  if (root.name !== 'score-timewise') {
    throw new InputError(
      'not-a-score',
      'This XML file is no MusicXML score; expected one whose outermost element is score-partwise or score-timewise.',
      { line: root.line },
    );
  }
  const turned = writeXml(toPartwise(parseXml(text)));
  return readPartwise(turned, parseXml(turned, NOT_READ), wanted);
}

/** Reads, then checks, then gathers; the checks come in the order in which a reader would meet their bars. */
function readPartwise(text: string, root: XmlElement, wanted: string | undefined): Score {
  const warnings = new WarningList();
  const { chosen, parts } = chooseParts(root, wanted);
  const grid = commonGrid(chosen.flatMap((part) => childrenNamed(part, 'measure')));
  const contents = readParts(chosen, grid, warnings);
  const signs = signsOfBars(root, contents[0]?.length ?? 0);
  const { ticksPerQuarter } = grid;
  const bars = layBars(contents, endingBlocks(signs), ticksPerQuarter);
  const ids = giveIds(root, chosen, warnings);
  const notes = placeNotes(contents, bars, ids.byElement);
  const order = layOrder(playingOrder(signs), bars);
  checkParts(root, parts, contents, warnings);
  checkDeclarations(chosen, contents, warnings);
  checkMiddleRepeats(bars, warnings);
  checkBars(bars, signs, { ticksPerQuarter, warnings });
  checkSounds(notes, warnings);
  checkSlurs(notes, bars, warnings);
  checkReached(bars, order, warnings);
  return {
    source: 'musicxml',
    ...readTitles(root),
    ticksPerQuarter,
    parts,
    staves: Math.max(
      ...contents.map((content, i) => i + (content[0]?.declaredStaves ?? 1)),
      notes.reduce((most, note) => Math.max(most, note.staff), 1),
    ),
    bars,
    notes,
    rests: placeRests(contents, bars),
    directions: readDirections(root, { chosen, contents, bars }, warnings),
    order,
    occurrences: soundingNotes({ ticksPerQuarter, bars, notes, order }, warnings),
    warnings: warnings.all(),
    xml: declaredAsUtf8(writeIds(text, ids.toWrite)),
  };
}

/** Reads the chosen parts; the staves of a second one follow those of the first. */
function readParts(chosen: readonly XmlElement[], grid: Grid, warnings: WarningList): PartContents {
  return chosen.map((part, staffOffset) => readMeasures(part, { grid, warnings, staffOffset }));
}

/** Directions of the parts that are read, and the tempo marks that stand over other parts alone. */
function readDirections(
  root: XmlElement,
  own: { readonly chosen: readonly XmlElement[]; readonly contents: PartContents; readonly bars: readonly Bar[] },
  warnings: WarningList,
): readonly Direction[] {
  const directions = placeDirections(own.contents, own.bars, warnings);
  const others = marksOfOtherParts(root, own.chosen, { bars: own.bars, directions });
  return [...directions, ...others].toSorted((a, b) => a.onsetTick - b.onsetTick);
}
