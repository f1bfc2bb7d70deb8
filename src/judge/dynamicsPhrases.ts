/*
 * Phrases: their shape, and how they end.
 *
 * What is a fault: ends of phrases and slurs that are struck harder than everything that leads to them, where that is the habit, or so much that a
 * single one is a bump. An accent, a crescendo that leads there and a louder mark ask for it. Phrases that stay on one level all through,
 * where nothing else is said of level. Both are rare with players who listen, and so is the remark.
 */
import { median } from 'simple-statistics';
import type { EndingLevel, PhraseLevel } from '../measure/index.js';
import { accented } from './dynamicsNotes.js';
import { HEARD_UNITS, levelFinding, type LevelGround } from './levelGround.js';
import type { Finding } from './types.js';
import { severityOf } from './weight.js';

/** An ending so far (>=) over all that leads to it is bumped, where it is the habit: twice what is just heard. */
const BUMPED_UNITS = 2 * HEARD_UNITS;

/** A single one from here on (>=). Our own rule: six times what is just heard; good players hardly ever reach half of that. */
const BUMP_UNITS = 6 * HEARD_UNITS;

/** So many (>=) and such a share (>=) of all endings make a habit. Our own rule. */
const HABIT = { least: 3, share: 0.5 } as const;

/** Under this difference (<) between the loudest and the softest quarter a phrase is on one level: what is just heard. */
const FLAT_UNITS = HEARD_UNITS;

/** Fewest phrases (>=) that tell; so many of the flattest stand for all. */
const LEAST_PHRASES = 4;
const FLATTEST = 3;

/** A louder mark so near (<=) before the end asks for it, bars. */
const MARK_BARS = 1;

/** How sure the program is that it is no reading of the phrase. */
const CONFIDENCE = { bumped: 0.7, flat: 0.6 } as const;

/** Bumped endings and flat phrases; these only where nothing else says that all is on one level. */
export function phraseFindings(ground: LevelGround, others: readonly Finding[]): readonly Finding[] {
  const told = others.some(({ kind }) => kind === 'oneLevel');
  return [...bumped(ground), ...(told ? [] : flat(ground))];
}

/** Ends that stick out of their phrase. */
function bumped(ground: LevelGround): readonly Finding[] {
  const free = ground.facts.phrases.endings.filter((ending) => !isAsked(ground, ending));
  const high = free.filter(({ overLoudest }) => overLoudest >= BUMPED_UNITS);
  const habit = high.length >= HABIT.least && high.length >= HABIT.share * free.length;
  const threshold = habit ? BUMPED_UNITS : BUMP_UNITS;
  return high.filter(({ overLoudest }) => overLoudest >= threshold).flatMap(({ of, hand, stretch, visitIndex, noteIndex, startS, overLoudest }) => {
    const visit = ground.visit(stretch, visitIndex);
    return visit === undefined ? [] : levelFinding(ground, {
      aspect: 'dynamics', kind: 'endBumped', hand, topic: of, visits: [visit], notes: [noteIndex], startS,
      measured: { value: Math.round(overLoudest), unit: 'velocity units', threshold }, severity: severityOf(overLoudest / threshold), confidence: CONFIDENCE.bumped,
    });
  });
}

/** True where the score asks for a loud last note. */
function isAsked(ground: LevelGround, { hand, noteIndex, visitIndex }: EndingLevel): boolean {
  const { input: { score }, facts } = ground;
  const [note, visit] = [score.notes[noteIndex], score.order[visitIndex]];
  const bar = score.bars[visit?.barIndex ?? -1];
  if (note === undefined || visit === undefined || bar === undefined) return true;
  const tick = visit.startTick + note.onsetTick - bar.startTick;
  const ofHand = (other: EndingLevel['hand'] | null): boolean => other === null || other === hand;
  return accented(ground, { noteIndex, onsetTick: tick, staff: note.staff })
    || facts.hairpins.some((pin) => pin.kind === 'crescendo' && ofHand(pin.hand) && tick > pin.tick && tick <= pin.untilTick + bar.nominalTicks / 2)
    || facts.changes.some((change) => change.louder && ofHand(change.hand) && tick >= change.tick && tick - change.tick <= MARK_BARS * bar.nominalTicks);
}

/** All phrases on one level, told at the flattest. */
function flat(ground: LevelGround): readonly Finding[] {
  const shapes = ground.facts.phrases.phrases.flatMap((phrase) => (phrase.quarters.measured ? [{ phrase, range: rangeOf(phrase.quarters.value) }] : []));
  if (shapes.length < LEAST_PHRASES) return [];
  const range = median(shapes.map((one) => one.range));
  if (range >= FLAT_UNITS) return [];
  return [...shapes].sort((a, b) => a.range - b.range).slice(0, FLATTEST).flatMap(({ phrase }) => {
    const visits = visitsOf(ground, phrase);
    return levelFinding(ground, {
      aspect: 'dynamics', kind: 'phrasesFlat', hand: phrase.hand, topic: '', visits, notes: [], startS: phrase.startS,
      measured: { value: Math.round(range), unit: 'velocity units', threshold: FLAT_UNITS }, severity: severityOf(FLAT_UNITS / Math.max(1, range)), confidence: CONFIDENCE.flat,
    });
  });
}

/** Loudest quarter over the softest. */
export function rangeOf(quarters: readonly number[]): number {
  return Math.max(...quarters) - Math.min(...quarters);
}

/** The visits of a phrase, or an echo, that can be judged. */
export function visitsOf({ visit }: LevelGround, { stretch, fromVisit, toVisit }: Pick<PhraseLevel, 'stretch' | 'fromVisit' | 'toVisit'>): readonly NonNullable<ReturnType<LevelGround['visit']>>[] {
  return Array.from({ length: toVisit - fromVisit + 1 }, (_, i) => visit(stretch, fromVisit + i)).filter((one) => one !== undefined);
}
