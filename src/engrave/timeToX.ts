import type { BarFacts } from '../measure/index.js';
import { noteIdOf, pairsNear, type ShownBar, type SystemMaterial } from './markMaterial.js';

/** Where in a system a moment of one visit's playing stands; null where nothing of it was matched. */
export type TimeToX = (visit: Pick<BarFacts, 'stretch'>, timeS: number) => number | null;

/** How far a moment before the first or after the last matched note of a system is set off from it, px. */
const BEYOND_PX = 14;

/** A moment of the playing and where its written head stands. */
interface Anchor {
  readonly stretch: number;
  readonly timeS: number;
  readonly x: number;
}

/** Interpolates between the matched heads of the same stretch of the route, as a reader's eye would. */
export function timeToX({ system, material, heads }: SystemMaterial, bars: readonly ShownBar[]): TimeToX {
  const shown = new Set(bars.map(({ visit }) => `${visit.stretch}:${visit.visitIndex}`));
  const anchors = pairsNear(system, material).flatMap((pair): readonly Anchor[] => {
    const visit = material.score.occurrences[pair.occurrence]?.visitIndex ?? -1;
    const head = shown.has(`${pair.stretch}:${visit}`) ? heads.get(noteIdOf(material, pair.occurrence)) : undefined;
    const timeS = material.recording.notes[pair.note]?.onsetS;
    return head && timeS !== undefined ? [{ stretch: pair.stretch, timeS, x: head.x }] : [];
  });
  const sorted = [...anchors].sort((a, b) => a.timeS - b.timeS);
  return ({ stretch }, timeS) => between(sorted.filter((anchor) => anchor.stretch === stretch), timeS);
}

/** Linear between the anchors on both sides. */
function between(anchors: readonly Anchor[], timeS: number): number | null {
  const after = anchors.find((anchor) => anchor.timeS >= timeS);
  const before = anchors.findLast((anchor) => anchor.timeS < timeS);
  if (!before) return after ? after.x - (after.timeS > timeS ? BEYOND_PX : 0) : null;
  if (!after) return before.x + BEYOND_PX;
  return before.x + ((after.x - before.x) * (timeS - before.timeS)) / (after.timeS - before.timeS);
}
