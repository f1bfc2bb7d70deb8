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
import type { Bar, BarVisit, Rest, Score, ScoreNote } from './types.js';
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
    directions: [],
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

/** Notes of all parts bar by bar, numbered and set on the grid of the piece. */
function placeNotes(contents: readonly (readonly MeasureContent[])[], bars: readonly Bar[], ids: ReadonlyMap<XmlElement, string>): readonly ScoreNote[] {
  return bars
    .flatMap((bar) => contents.flatMap((part) => (part[bar.index]?.notes ?? []).map((note) => ({ bar, note }))))
    .map(({ bar, note: { offsetTicks, element, ...note } }, index) => ({ ...note, index, id: ids.get(element) ?? '', barIndex: bar.index, onsetTick: bar.startTick + offsetTicks }));
}

function placeRests(contents: readonly (readonly MeasureContent[])[], bars: readonly Bar[]): readonly Rest[] {
  return bars.flatMap((bar) => contents.flatMap((part) => (part[bar.index]?.rests ?? []).map(({ offsetTicks, ...rest }) => ({ ...rest, barIndex: bar.index, onsetTick: bar.startTick + offsetTicks }))));
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
