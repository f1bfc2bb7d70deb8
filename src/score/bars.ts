/**
 * Printed bars in a row. A bar's length is what it really holds, since upbeats, split bars and cadenzas are real;
 * everything that needs the metre finds it in `nominalTicks`.
 */
import { InputError } from '../base/index.js';
import type { EndingBlock } from './endings.js';
import { MAX_BARS } from './limits.js';
import type { MeasureContent } from './measures.js';
import { readBarlines } from './navigation.js';
import type { Bar, TimeSignature } from './types.js';

/** Ticks that a full bar of this time signature lasts. */
export function ticksOfBar(time: TimeSignature, ticksPerQuarter: number): number {
  return (time.beats * 4 * ticksPerQuarter) / time.beatType;
}

/**
 * The printed bars, one after another. A bar lasts as long as the longest of its parts really holds, where rests
 * and steps in time beyond the time signature do not count (programs round hidden rests upward); an empty bar lasts
 * what its time signature says.
 * @param parts the bars of every part that is read; the first part gives numbers, signatures and bar lines
 * @throws InputError `not-a-score` for a part without bars, `too-large` for more than MAX_BARS
 */
export function layBars(
  parts: readonly (readonly MeasureContent[])[],
  endings: readonly EndingBlock[],
  ticksPerQuarter: number,
): readonly Bar[] {
  const first = parts[0] ?? [];
  if (first.length === 0) throw new InputError('not-a-score', 'The part holds no bars; expected at least one.');
  if (first.length > MAX_BARS) throw new InputError('too-large', `The part holds more than ${MAX_BARS} bars; expected one piece.`);
  const numbersAt = new Map(
    endings.flatMap((block) => Array.from({ length: block.last - block.first + 1 }, (_, i) => [block.first + i, block.numbers] as const)),
  );
  let startTick = 0;
  return first.map((content, index) => {
    const nominalTicks = ticksOfBar(content.time, ticksPerQuarter);
    const held = Math.max(...parts.map((part) => heldTicks(part[index], nominalTicks)));
    const bar: Bar = {
      index,
      number: content.measure.attributes['number'] ?? String(index + 1),
      implicit: content.measure.attributes['implicit'] === 'yes',
      startTick,
      lengthTicks: held > 0 ? held : nominalTicks,
      nominalTicks,
      time: content.time,
      key: content.key,
      barlines: readBarlines(content.measure),
      endings: numbersAt.get(index) ?? [],
    };
    startTick += bar.lengthTicks;
    return bar;
  });
}

/** What a bar of one part really holds. */
function heldTicks(content: MeasureContent | undefined, nominalTicks: number): number {
  return content === undefined ? 0 : Math.max(content.notesEndTicks, Math.min(content.reachTicks, nominalTicks));
}
