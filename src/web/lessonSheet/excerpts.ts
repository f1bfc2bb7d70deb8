/** The bars of a lesson sheet's things to do, engraved by themselves, with the pencil marks of the review. */
import { composeSystem, headTicks, marksFor, remarkMarks, tickPlaces, type EngravedSystem, type Engraving, type MarkedRemark } from '../../engrave/index.js';
import type { Reading } from '../../pipeline/index.js';
import { shownVisits, type Review } from '../../review/index.js';
import { barNames } from '../../score/index.js';
import { pedalLanes } from '../drawSystem.js';
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

/** Marks of the review on the engraved bars. */
export function excerptOf(reading: Reading, review: Review, engraving: Engraving): Excerpt {
  const { score, recording, alignment, measures } = reading;
  const { slips, remarks } = shownMarks(score, review, null);
  const material = { score, recording, alignment, measures, names: barNames(score), shown: shownVisits(measures.bars, null), marked: slips };
  // numbers belong to the margin of a review, and praise has its own place on the sheet
  const faults = remarks.filter(({ kind }) => kind !== 'praise').map((remark) => ({ ...remark, number: null }));
  const [ofNotes, ofRemarks] = [marksFor(engraving, material), remarkMarks(engraving, material, faults)];
  const ticks = headTicks(score);
  const drawn = engraving.systems.slice(0, MOST_LINES).map((system, i) => {
    const lanes = isOfThePedal(system, faults) ? pedalLanes(reading, { system, places: tickPlaces(system, score, ticks), material, remarks: faults }) : [];
    return composeSystem(system, [...(ofNotes[i] ?? []), ...(ofRemarks[i] ?? [])], lanes);
  });
  return { svgs: drawn.map(({ svg }) => svg), defs: engraving.defs, heightPx: drawn.reduce((sum, { heightPx }) => sum + heightPx, 0) };
}

/** True where something is remarked on the pedal in these bars: then the foot is shown. */
function isOfThePedal({ bars }: EngravedSystem, remarks: readonly MarkedRemark[]): boolean {
  return remarks.some(({ aspect, places }) => aspect === 'pedal' && places.some(({ fromBar, toBar }) => bars.some(({ barIndex }) => barIndex >= fromBar && barIndex <= toBar)));
}
