/**
 * The band of local keys over a system: outlined for major, filled for minor, slanted where the key turns, open where it goes on over
 * the end of the system.
 */
import type { KeySpan } from '../../harmony/index.js';
import { fixed } from '../numbers.js';
import { escapeXml } from '../xmlTree.js';
import { wordsLabel, writeLabel, type Label } from './labels.js';
import type { TickPlaces } from './tickToX.js';

/** Height of the band, px. */
export const BAND_HEIGHT_PX = 20;

/** How far a turn leans, and half the gap between two keys, px. */
const LEAN_PX = 4;
const HALF_GAP_PX = 1.5;

/** The band begins so far before the first note of a system, px. */
const LEAD_PX = 9;

/** Type size and base line of the names, and their room at the sides, px. */
const NAME_PX = 15;
const BASELINE_PX = 15;
const INDENT_PX = 9;

/** A key within one system. */
interface Stretch {
  readonly key: KeySpan;
  readonly fromX: number;
  readonly toX: number;
  readonly begins: boolean;
  readonly ends: boolean;
}

/** The band of one system; "" without keys. @param top upper edge, px */
export function keyBand(keys: readonly KeySpan[], places: TickPlaces, top: number): string {
  const last = keys.at(-1);
  const stretches = keys.filter(({ fromTick, toTick }) => fromTick < places.toTick && toTick > places.fromTick).map((key): Stretch => {
    const begins = key.fromTick > places.fromTick;
    const ends = key.toTick < places.toTick && key !== last;
    return { key, begins, ends, fromX: begins ? places.at(key.fromTick) - LEAD_PX : places.startX - LEAD_PX, toX: ends ? places.at(key.toTick) - LEAD_PX : places.endX };
  });
  return stretches.length === 0 ? '' : `<g class="key-band" aria-hidden="true">${stretches.map((stretch) => stretchSvg(stretch, top)).join('')}</g>`;
}

/** One key. */
function stretchSvg({ key, fromX, toX, begins, ends }: Stretch, top: number): string {
  const [left, right, bottom] = [fromX + (begins ? HALF_GAP_PX : 0), toX - (ends ? HALF_GAP_PX : 0.5), top + BAND_HEIGHT_PX];
  const [leanLeft, leanRight] = [begins ? LEAN_PX : 0, ends ? LEAN_PX : 0];
  const shape = `M${fixed(left + leanLeft)} ${fixed(top)}H${fixed(right + leanRight)}L${fixed(right - leanRight)} ${fixed(bottom)}H${fixed(left - leanLeft)}Z`;
  const label = fittingLabel(key, right - left - 2 * INDENT_PX);
  const name = label === null ? '' : writeLabel(label, left + INDENT_PX, top + BASELINE_PX);
  return `<g class="key ${key.mode}" data-bar="${key.barIndex}"><title>${escapeXml(keyText(key))}</title><path class="key-shape" d="${shape}"/>${name}</g>`;
}

/** The longest name of a key that fits: "C# minor", "C# min", "c#"; null where none does. */
function fittingLabel(key: KeySpan, room: number): Label | null {
  const texts = [keyText(key), `${key.spelling} ${key.mode}`, `${key.spelling}${key.mode === 'minor' ? ' min' : ''}`, key.spelling];
  return texts.map((text) => wordsLabel(text, NAME_PX)).find(({ widthPx }) => widthPx <= room) ?? null;
}

/** "A minor", "D minor, Dorian". */
function keyText({ spelling, mode, colour }: KeySpan): string {
  return colour === null ? `${spelling} ${mode}` : `${spelling} ${mode}, ${colour}`;
}
