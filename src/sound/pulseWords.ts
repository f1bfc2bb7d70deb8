import { median } from 'simple-statistics';
import { lengthInWords } from './lengthWords.js';
import type { Change, ClockPoint, SoundInput } from './types.js';

/** A single beat that is off by less (<) than this share of itself is not heard to be (Friberg and Sundberg 1995: 2.5 %). */
const HEARD_SHARE = 0.025;

/** Waits shorter (<) than this are part of an uneven pulse and not told one by one, beats. Our own rule. */
const TOLD_BEATS = 0.25;

/** What an even pulse would do: each wait that nothing written lets be would be gone, and beats that differ would be alike. */
export function waitsInWords({ measures, score }: SoundInput, clock: readonly ClockPoint[]): readonly Change[] {
  const waits = measures.pulse.waits.filter(({ bend, beats }) => bend === null && beats >= TOLD_BEATS).map(({ visitIndex, onsetS, waitS, beats }): Change => {
    const length = lengthInWords(waitS, waitS / beats);
    return { barIndex: score.order[visitIndex]?.barIndex ?? 0, startS: onsetS, text: `the wait of about ${length} would be gone` };
  });
  const off = clock.slice(1).map(({ playedS, versionS }, i) => {
    const before = clock[i];
    return before === undefined ? 0 : Math.abs(versionS - before.versionS - (playedS - before.playedS)) / (playedS - before.playedS);
  });
  if (off.length === 0 || median(off) < HEARD_SHARE) return waits;
  const percent = Math.round(100 * median(off));
  const [first] = measures.bars;
  return [{ barIndex: first?.barIndex ?? 0, startS: first?.startS ?? 0, text: `every beat would last alike; now half of them are off by ${percent} per cent or more` }, ...waits];
}
