/**
 * The harmony under a system: a tick under each change with its name beside it, twice over (degrees, chord names) so that a page
 * can show either. Names never touch: one that has no room stands a row lower, and where all rows are taken only its tick stays.
 */
import type { Harmony } from '../../harmony/index.js';
import { fixed } from '../numbers.js';
import { escapeXml } from '../xmlTree.js';
import { chordLabel, degreeLabel, inBrackets, writeLabel, type Label } from './labels.js';
import type { TickPlaces } from './tickToX.js';

/** Sizes of both kinds of name, px: chord names are long. */
const DEGREE_PX = 18;
const CHORD_PX = 15;

/** Most rows of names, their distance and the base line of the first, px. */
const ROWS = 3;
const ROW_PX = 20;
const BASELINE_PX = 20;

/** Room between a tick and its name, and between a name and the next tick, px. */
const BESIDE_TICK_PX = 4;
const APART_PX = 4;

/** A tick begins so far over its base line; one whose name has no room stays short, above the names, px. */
const TICK_PX = 14;
const SHORT_TICK_PX = 4;

/** Room under the lowest names, px: stacked figures reach below the base line. */
const BELOW_PX = 8;

/** Where a name goes. */
export interface PlacedName {
  readonly harmony: Harmony;
  /** Where the harmony begins. */
  readonly x: number;
  readonly label: Label;
  /** Left edge of the name: right of its tick, or left of it at the end of a system. */
  readonly nameX: number;
  /** 0 is the first row; null where no row had room. */
  readonly row: number | null;
  /** True where the harmony began in an earlier system. */
  readonly goesOn: boolean;
}

/** The names of one system in both kinds, and how high each of them is; one is shown at a time. */
export interface HarmonyRows {
  readonly svg: string;
  readonly degreesPx: number;
  readonly namesPx: number;
}

/** The harmony of one system; without any it has no height. */
export function harmonyRows(harmonies: readonly Harmony[], places: TickPlaces): HarmonyRows {
  const degrees = placeNames(harmonies, places, (harmony) => degreeLabel(harmony.degree === '' ? '–' : harmony.degree, DEGREE_PX));
  const names = placeNames(harmonies, places, (harmony) => chordLabel(harmony.name === '' ? '–' : harmony.name, CHORD_PX));
  return { svg: `<g class="lane-harmony">${group('degrees', degrees)}${group('chord-names', names)}</g>`, degreesPx: heightOf(degrees), namesPx: heightOf(names) };
}

/** What lies under the names moves by whole rows when the other kind is shown. */
export function rowsBetween({ degreesPx, namesPx }: HarmonyRows): number {
  return Math.round((namesPx - degreesPx) / ROW_PX);
}

/** Height of all rows of one kind. */
function heightOf(names: readonly PlacedName[]): number {
  return names.length === 0 ? 0 : BASELINE_PX + Math.max(0, ...names.map(({ row }) => row ?? 0)) * ROW_PX + BELOW_PX;
}

/** Gives every harmony of a system its x and its row. */
export function placeNames(harmonies: readonly Harmony[], places: TickPlaces, labelOf: (harmony: Harmony) => Label): readonly PlacedName[] {
  const ends: number[] = [];
  return harmonies.filter(({ fromTick, toTick }) => fromTick < places.toTick && toTick > places.fromTick).flatMap((harmony, i, all): readonly PlacedName[] => {
    const goesOn = harmony.fromTick < places.fromTick;
    const x = goesOn ? places.startX : places.at(harmony.fromTick);
    const label = goesOn ? inBrackets(labelOf(harmony)) : labelOf(harmony);
    // a reminder of what goes on gives way to what begins
    if (goesOn && x + BESIDE_TICK_PX + label.widthPx + APART_PX > places.at(all[i + 1]?.fromTick ?? places.toTick)) return [];
    const fitsRight = x + BESIDE_TICK_PX + label.widthPx <= places.endX;
    const nameX = fitsRight ? x + BESIDE_TICK_PX : x - BESIDE_TICK_PX - label.widthPx;
    const row = freeRow(ends, Math.min(x, nameX));
    if (row !== null) ends[row] = Math.max(x, nameX + label.widthPx);
    return [{ harmony, x, label, nameX, row, goesOn }];
  });
}

/** The first row that is free from some x on, or null. @param ends right edges of the rows so far, px */
function freeRow(ends: readonly number[], fromX: number): number | null {
  return Array.from({ length: ROWS }, (_, row) => row).find((row) => fromX >= (ends[row] ?? -Infinity) + APART_PX) ?? null;
}

/** All names of one kind. */
function group(className: string, names: readonly PlacedName[]): string {
  return `<g class="${className}">${names.map(nameSvg).join('')}</g>`;
}

/** A tick and its name. */
function nameSvg({ harmony, x, label, nameX, row, goesOn }: PlacedName): string {
  const baseline = BASELINE_PX + (row ?? 0) * ROW_PX;
  const line = row === null ? `M${fixed(x)} 0v${SHORT_TICK_PX}` : `M${fixed(x)} ${fixed(baseline - TICK_PX)}v${TICK_PX}`;
  const tick = goesOn ? '' : `<path class="harmony-tick" d="${line}"/>`;
  const name = row === null ? '' : `<g class="harmony-name">${writeLabel(label, nameX, baseline)}</g>`;
  return `<g data-bar="${harmony.barIndex}"><title>${escapeXml(titleOf(harmony))}</title>${tick}${name}</g>`;
}

/** What a pointer is told. */
function titleOf({ degree, name }: Harmony): string {
  return degree === '' ? 'no one chord' : `${degree}: ${name}`;
}
