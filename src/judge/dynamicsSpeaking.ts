/*
 * Soft notes that did not speak, and keys struck along with their neighbours.
 *
 * What is a fault: not the single note, which is a slip and told with the notes, but that it happens again and again: then it is the touch.
 */
import { groupBy } from '../base/index.js';
import { levelFinding, type LevelGround } from './levelGround.js';
import type { Finding } from './types.js';
import { severityOf } from './weight.js';

/** So often (>=) in a hand it is the touch, and no slip. Our own rule. */
const AGAIN_TIMES = 3;

/** The notes tell each of them as well. */
const CONFIDENCE = 0.7;

/** Notes that did not speak and split notes, hand by hand, where they are a habit. */
export function notSpeaking(ground: LevelGround): readonly Finding[] {
  const groups = groupBy(ground.facts.unspoken, ({ kind, hand }) => `${kind} ${hand}`);
  return [...groups.values()].filter((group) => group.length >= AGAIN_TIMES).flatMap((group) => group.flatMap(({ kind, hand, stretch, visitIndex, noteIndex, startS }) => {
    const visit = ground.visit(stretch, visitIndex);
    return visit === undefined ? [] : levelFinding(ground, {
      aspect: 'dynamics', kind: kind === 'silent' ? 'didNotSpeak' : 'splitNote', hand, topic: '', visits: [visit], notes: [noteIndex], startS,
      measured: { value: group.length, unit: 'notes', threshold: AGAIN_TIMES }, severity: severityOf(group.length / AGAIN_TIMES), confidence: CONFIDENCE,
    });
  }));
}
