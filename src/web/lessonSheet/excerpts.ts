/** The bars of a lesson sheet's things to do, engraved by themselves, with the pencil marks of the review. */
import type { Engraving } from '../../engrave/index.js';
import type { Reading } from '../../pipeline/index.js';
import type { Review } from '../../review/index.js';
import { barNames } from '../../score/index.js';
import { drawBriefly, isInSystem } from '../drawSystem.js';
import { shownMarks } from '../shownMarks.js';
import type { SheetThing } from './sheetBody.js';

/** Width of an excerpt, px: the text width of A4 and of Letter less a margin. */
export const EXCERPT_PX = 640;

/** More bars (>) than this are not engraved: the first ones show where it begins. */
const MOST_BARS = 4;

/** More lines (>) than this are too high for a sheet with three of them. */
const MOST_LINES = 1;

/** An excerpt as it is printed. */
export interface Excerpt {
  readonly svgs: readonly string[];
  readonly defs: string;
  readonly heightPx: number;
}

/** The bars that are engraved for a thing, places in `Score.bars`; null where it is about the whole piece, or its bars are not in the score. */
export function barsOf({ bars }: SheetThing, score: Reading['score']): readonly [number, number] | null {
  const [from, to] = bars.map((number) => score.bars.findIndex((bar) => bar.number === number));
  if (from === undefined || to === undefined || from < 0 || to < from) return null;
  return [from, Math.min(to, from + MOST_BARS - 1)];
}

/** Marks of the review on the engraved bars, and the foot where something is remarked on the pedal in them. */
export function excerptOf(reading: Reading, review: Review, engraving: Engraving): Excerpt {
  const { slips, remarks } = shownMarks(reading.score, review, null);
  // numbers belong to the margin of a review, and praise has its own place on the sheet
  const faults = remarks.filter(({ kind }) => kind !== 'praise').map((remark) => ({ ...remark, number: null }));
  const ofThePedal = faults.flatMap(({ aspect, places }) => (aspect === 'pedal' ? places : []));
  const systems = drawBriefly({
    reading, engraving: { ...engraving, systems: engraving.systems.slice(0, MOST_LINES) }, names: barNames(reading.score), marks: { slips, remarks: faults }, foot: (system) => isInSystem(system, ofThePedal),
  });
  return { svgs: systems.map(({ drawn }) => drawn.svg), defs: engraving.defs, heightPx: systems.reduce((sum, { drawn }) => sum + drawn.heightPx, 0) };
}
