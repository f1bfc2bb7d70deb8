/** From bars to the piece: notes, rests and directions get their place on the common grid and their numbers. */
import { readMarks } from './directions.js';
import type { MeasureContent } from './measures.js';
import type { BarNote } from './notes.js';
import { joinSpans, type PlacedMark } from './spans.js';
import type { Bar, Direction, Rest, ScoreNote } from './types.js';
import type { WarningList } from './warnings.js';
import type { XmlElement } from './xmlTree.js';

/** The bars of every part that is read. */
export type PartContents = readonly (readonly MeasureContent[])[];

/** Notes of all parts bar by bar, numbered and set on the grid of the piece. */
export function placeNotes(contents: PartContents, bars: readonly Bar[], ids: ReadonlyMap<XmlElement, string>): readonly ScoreNote[] {
  return inBars(contents, bars, (content) => content.notes).map(({ bar, item }, index) =>
    placedNote(item, { index, id: ids.get(item.element) ?? '', barIndex: bar.index, onsetTick: bar.startTick + item.offsetTicks }),
  );
}

/** The record of a note. Written out field by field, so that all notes share one shape and are quick to go through. */
function placedNote(note: BarNote, at: Pick<ScoreNote, 'index' | 'id' | 'barIndex' | 'onsetTick'>): ScoreNote {
  return {
    index: at.index,
    id: at.id,
    barIndex: at.barIndex,
    onsetTick: at.onsetTick,
    lengthTicks: note.lengthTicks,
    pitch: note.pitch,
    staff: note.staff,
    voice: note.voice,
    inChord: note.inChord,
    grace: note.grace,
    cue: note.cue,
    tieStart: note.tieStart,
    tieStop: note.tieStop,
    letRing: note.letRing,
    slurs: note.slurs,
    articulations: note.articulations,
    ornaments: note.ornaments,
    arpeggio: note.arpeggio,
    fermata: note.fermata,
    type: note.type,
    dots: note.dots,
    tuplet: note.tuplet,
    fingering: note.fingering,
    velocity: note.velocity,
    hidden: note.hidden,
  };
}

/** Rests of all parts bar by bar. */
export function placeRests(contents: PartContents, bars: readonly Bar[]): readonly Rest[] {
  return inBars(contents, bars, (content) => content.rests).map(({ bar, item: { offsetTicks, ...rest } }) => ({
    ...rest,
    barIndex: bar.index,
    onsetTick: bar.startTick + offsetTicks,
  }));
}

/** Directions of all parts in order of time, hairpins, pedals and octave lines with their ends. */
export function placeDirections(contents: PartContents, bars: readonly Bar[], warnings: WarningList): readonly Direction[] {
  const marks = inBars(contents, bars, (content) => content.directions).flatMap(({ bar, item }): readonly PlacedMark[] =>
    readMarks(item.element).map(({ kind, text, value, span, shown }) => ({
      direction: {
        kind,
        text,
        value,
        barIndex: bar.index,
        onsetTick: bar.startTick + item.offsetTicks,
        untilTick: null,
        staff: item.staff,
      },
      span,
      shown,
    })),
  );
  const { directions, unclosed } = joinSpans(marks);
  for (const direction of unclosed) {
    if (direction.text === '<' || direction.text === '>')
      warnings.add(bars[direction.barIndex]?.number ?? null, 'A hairpin is never closed; its end is left open');
  }
  return directions;
}

/** Everything of one kind in all parts, bar by bar, each with its bar. */
function inBars<T>(
  contents: PartContents,
  bars: readonly Bar[],
  pick: (content: MeasureContent) => readonly T[],
): readonly { readonly bar: Bar; readonly item: T }[] {
  return bars.flatMap((bar) =>
    contents.flatMap((part) => {
      const content = part[bar.index];
      return content === undefined ? [] : pick(content).map((item) => ({ bar, item }));
    }),
  );
}
