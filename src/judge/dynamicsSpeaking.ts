/*
 * Soft notes that did not speak, and keys struck along with their neighbours.
 *
 * What is a fault: not the single note, which is a slip and told with the notes, but that it happens again and again: then it is the touch.
 */
import { groupBy } from '../base/index.js';
import { handOf, type Unspoken } from '../measure/index.js';
import { levelFinding, type LevelGround } from './levelGround.js';
import type { Finding } from './types.js';
import { severityOf } from './weight.js';

/**
 * So often (>=) in a hand, and at such a share (>=) of its notes, it is the touch and no slip. Our own rule: ten times what a professional leaves out
 * (0.2 %: Hu and Widmer 2023); in long pieces a few always go by.
 */
const AGAIN = { times: 3, share: 0.02 } as const;

/** The notes tell each of them as well. */
const CONFIDENCE = 0.7;

/** Notes that did not speak and split notes, hand by hand, where they are a habit. */
export function notSpeaking(ground: LevelGround): readonly Finding[] {
  const { facts: { unspoken }, input: { score, alignment } } = ground;
  const played = groupBy(alignment.pairs.flatMap(({ occurrence }) => score.occurrences[occurrence] ?? []), handOf);
  return [...groupBy(unspoken, ({ kind, hand }) => `${kind} ${hand}`).values()].flatMap((group) => {
    const notes = group[0] === undefined ? 0 : (played.get(group[0].hand)?.length ?? 0);
    const threshold = Math.max(AGAIN.times, Math.ceil(AGAIN.share * notes));
    return group.length < threshold ? [] : group.flatMap((one) => speakingFinding(ground, one, { count: group.length, threshold }));
  });
}

/** One of so many. */
function speakingFinding(ground: LevelGround, { kind, hand, stretch, visitIndex, noteIndex, startS }: Unspoken, { count, threshold }: { readonly count: number; readonly threshold: number }): readonly Finding[] {
  const visit = ground.visit(stretch, visitIndex);
  return visit === undefined ? [] : levelFinding(ground, {
    aspect: 'dynamics', kind: kind === 'silent' ? 'didNotSpeak' : 'splitNote', hand, topic: '', visits: [visit], notes: [noteIndex], startS,
    measured: { value: count, unit: 'notes', threshold }, severity: severityOf(count / threshold), confidence: CONFIDENCE,
  });
}
