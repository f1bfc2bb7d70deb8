import { namePlayed, type Slip } from '../judge/index.js';
import type { Point } from './box.js';
import type { Mark } from './compose.js';
import { diatonic } from './gridStaves.js';
import { noteIdOf, type HeadedNote, type SystemMaterial } from './markMaterial.js';
import { added, ADDED_REACH_PX, type AddedPlace, type MarkLabels } from './pencil.js';
import type { TimeToX } from './timeToX.js';
import type { EngravedStave } from './types.js';

/** A key that the score does not have, and what its mark says. */
export interface AddedNote {
  readonly slip: Slip;
  readonly labels: MarkLabels;
}

/** A crossed head closer than this to another head of its height moves to its right, px. */
const BESIDE_HEAD_PX = 11;

/** Farthest that a crossed head stands outside its stave, in stave spaces; its title tells the pitch. */
const OUTERMOST_SPACES = 5;

/** A place and what stands there. */
interface Crossed {
  readonly place: AddedPlace;
  readonly labels: MarkLabels;
}

/**
 * A crossed head for each key press without a written note, near when it came and at the height it sounds; from left
 * to right, so that a run of them moves aside and stays readable.
 */
export function addedMarks(parts: SystemMaterial, notes: readonly AddedNote[], xAt: TimeToX): readonly Mark[] {
  const heads: Point[] = [...parts.heads.values()];
  const wanted = notes.flatMap((note) => placed(parts, note, xAt)).sort((a, b) => a.place.x - b.place.x);
  return wanted.map(({ place, labels }) => {
    const { y } = place;
    const x = clear(place, heads, parts.staveSpacePx);
    heads.push({ x, y });
    return { svg: added({ ...place, x }, labels), top: y - ADDED_REACH_PX, bottom: y + ADDED_REACH_PX };
  });
}

/** Where a key press would stand if nothing else stood there; nothing where its bar is not in the picture. */
function placed(parts: SystemMaterial, { slip, labels }: AddedNote, xAt: TimeToX): readonly Crossed[] {
  const { score, recording } = parts.material;
  const near = slip.occurrence === null ? undefined : score.occurrences[slip.occurrence];
  const played = slip.note === null ? undefined : recording.notes[slip.note];
  const nearHead = parts.heads.get(noteIdOf(parts.material, slip.occurrence));
  if (!near || !played || !nearHead) return [];
  const x = xAt({ stretch: Number(labels.data?.['stretch'] ?? -1) }, played.onsetS) ?? nearHead.x + BESIDE_HEAD_PX;
  const stave = parts.system.staves.find(({ staff }) => staff === near.staff);
  const y = withinReach(heightOf(parts, played.pitch, { x, staff: near.staff, fallback: nearHead.y, barIndex: near.barIndex }), stave, parts.staveSpacePx);
  return [{ place: { x, y, ledgers: stave ? ledgersFor(y, stave, parts.staveSpacePx) : [] }, labels }];
}

/** Where a height is wanted, and what to fall back on in an empty stave. */
interface HeightOptions {
  readonly x: number;
  readonly staff: number;
  readonly fallback: number;
  readonly barIndex: number;
}

/** Height by the nearest printed head of the same stave: clef and octave signs are right there as they are for it. */
function heightOf(parts: SystemMaterial, pitch: number, { x, staff, fallback, barIndex }: HeightOptions): number {
  const { score, alignment } = parts.material;
  const onStave = parts.headed.filter(({ note }) => note.staff === staff);
  const nearest = onStave.reduce<HeadedNote | undefined>((best, each) => (best && Math.abs(best.head.x - x) <= Math.abs(each.head.x - x) ? best : each), undefined);
  if (!nearest) return fallback;
  const sounding = pitch - alignment.transposition;
  const { step, alter } = namePlayed(sounding, null, score.bars[barIndex]?.key ?? 0);
  const octave = Math.floor((sounding - alter) / 12) - 1;
  return nearest.head.y - ((diatonic({ step, octave }) - diatonic(nearest.note.pitch)) * parts.staveSpacePx) / 2;
}

/** Keeps a far-off pitch near its stave, so that one slip does not tear the page apart. */
function withinReach(y: number, stave: EngravedStave | undefined, spacePx: number): number {
  if (!stave) return y;
  return Math.min(stave.bottom + OUTERMOST_SPACES * spacePx, Math.max(stave.top - OUTERMOST_SPACES * spacePx, y));
}

/** The first place from x on to the right at which no head of about the same height is covered. */
function clear({ x, y }: Point, heads: readonly Point[], staveSpacePx: number): number {
  const level = heads.filter((head) => Math.abs(head.y - y) < staveSpacePx && head.x > x - BESIDE_HEAD_PX).sort((a, b) => a.x - b.x);
  return level.reduce((free, head) => (Math.abs(head.x - free) < BESIDE_HEAD_PX ? head.x + BESIDE_HEAD_PX : free), x);
}

/** Ledger lines between the stave and a head outside it. */
function ledgersFor(y: number, { top, bottom }: EngravedStave, spacePx: number): readonly number[] {
  const count = (distance: number): number => Math.max(0, Math.floor(distance / spacePx + 0.01));
  const above = Array.from({ length: count(top - y) }, (_, i) => top - (i + 1) * spacePx);
  const below = Array.from({ length: count(y - bottom) }, (_, i) => bottom + (i + 1) * spacePx);
  return [...above, ...below];
}
