import { InputError } from '../base/index.js';
import { layBars } from './bars.js';
import { endingBlocks } from './endings.js';
import { commonGrid } from './grid.js';
import { declaredAsUtf8, giveIds, writeIds } from './ids.js';
import { readMeasures, type MeasureContent } from './measures.js';
import { mergedSigns, readBarSigns, type BarSigns } from './navigation.js';
import { soundingNotes } from './occurrences.js';
import { playingOrder } from './order.js';
import { chooseParts } from './parts.js';
import { placeDirections, placeNotes, placeRests } from './placing.js';
import type { Bar, BarVisit, Score } from './types.js';
import { WarningList } from './warnings.js';
import { child, childText, childrenNamed, descendant, parseXml, type XmlElement } from './xmlTree.js';

/**
 * Reads a MusicXML score from its text.
 * @param wanted id or name of the part to read; the piano where left out
 * @throws InputError
 */
export function readMusicXml(text: string, wanted: string | undefined): Score {
  const root = parseXml(text);
  if (root.name !== 'score-partwise') throw new InputError('not-a-score', 'This XML file is no MusicXML score; expected score-partwise or score-timewise.', { line: root.line });
  const warnings = new WarningList();
  const { chosen, parts } = chooseParts(root, wanted);
  const grid = commonGrid(chosen.flatMap((part) => childrenNamed(part, 'measure')));
  const contents = readParts(chosen, { grid, warnings });
  const signs = signsOfBars(root, contents[0]?.length ?? 0);
  const bars = layBars(contents, endingBlocks(signs), grid.ticksPerQuarter);
  const ids = giveIds(root, chosen, warnings);
  const notes = placeNotes(contents, bars, ids.byElement);
  const order = layOrder(signs, bars);
  const { ticksPerQuarter } = grid;
  return {
    source: 'musicxml',
    title: childText(child(root, 'work') ?? root, 'work-title') ?? childText(root, 'movement-title') ?? '',
    composer: composerOf(root),
    ticksPerQuarter,
    parts,
    staves: Math.max(...contents.map((content) => content[0]?.declaredStaves ?? 1), ...notes.map((note) => note.staff)),
    bars,
    notes,
    rests: placeRests(contents, bars),
    directions: placeDirections(contents, bars, warnings),
    order,
    occurrences: soundingNotes({ ticksPerQuarter, bars, notes, order }, warnings),
    warnings: warnings.all(),
    xml: declaredAsUtf8(writeIds(text, ids.toWrite)),
  };
}

/** Reads the chosen parts; the staves of a second one follow those of the first. */
function readParts(chosen: readonly XmlElement[], context: Omit<Parameters<typeof readMeasures>[1], 'staffOffset'>): readonly (readonly MeasureContent[])[] {
  return chosen.map((part, staffOffset) => readMeasures(part, { ...context, staffOffset }));
}

/** What bears on the playing order, from all parts of the file: programs often write a jump into the top part only. */
function signsOfBars(root: XmlElement, bars: number): readonly BarSigns[] {
  const parts = childrenNamed(root, 'part').map((part) => childrenNamed(part, 'measure'));
  return Array.from({ length: bars }, (_, i) => mergedSigns(parts.flatMap((part) => (part[i] === undefined ? [] : [readBarSigns(part[i])]))));
}

/** The playing order with the moment at which each bar begins. */
function layOrder(signs: readonly BarSigns[], bars: readonly Bar[]): readonly BarVisit[] {
  let startTick = 0;
  return playingOrder(signs).map((step, index) => {
    const visit = { ...step, index, startTick };
    startTick += bars[step.barIndex]?.lengthTicks ?? 0;
    return visit;
  });
}

function composerOf(root: XmlElement): string {
  const creators = childrenNamed(descendant(root, 'identification') ?? root, 'creator');
  return creators.find((creator) => creator.attributes['type'] === 'composer')?.text.trim() ?? '';
}
