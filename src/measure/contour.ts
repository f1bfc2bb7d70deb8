/*
 * The teacher's question: how did loud and soft go, beat by beat and bar by bar?
 *
 * Conventions: velocity units levelled by register; decibels under the hardest stroke, by the published mapping. A beat is that of the metre
 *   (three units in compound time); a beat in which nothing was struck has no entry. Bars are parallel to the bar facts.
 * Method: a hand's level is the mean of the notes it struck. What is heard is the energy of all notes struck at one moment, both hands
 *   together, averaged over the moments as energy: more notes are louder.
 * Source: energies of sounds with different frequencies add; the mapping is Dannenberg's (velocityLevel.ts).
 * What it does not tell: what still rings from before.
 */
import { groupBy, measured, notMeasured, type Measured } from '../base/index.js';
import { beatTicks, type Score } from '../score/index.js';
import type { BarLevel, BeatLevel, HandLevel } from './levelTypes.js';
import type { RankOf } from './ranks.js';
import { meanOf, type Struck } from './struck.js';
import type { Against } from './tuneOver.js';
import type { BarFacts } from './types.js';
import { levelDbOf, togetherDb } from './velocityLevel.js';
import { median } from 'simple-statistics';

/** Fewest accompanying notes (>=) of a bar that tell its balance. */
const LEAST_AGAINST = 2;

/** What levels are told from. */
export interface ContourMaterial {
  readonly score: Score;
  readonly notes: readonly Struck[];
  readonly against: readonly Against[];
  /** Of levelled velocities. */
  readonly rankOf: RankOf;
}

/** Levels of every beat in which something was struck, in order of stretch and time. */
export function beatLevels({ score, notes, against }: ContourMaterial): readonly BeatLevel[] {
  const beatOf = (note: Struck): number => {
    const visit = score.order[note.visitIndex];
    const bar = score.bars[visit?.barIndex ?? -1];
    if (visit === undefined || bar === undefined) throw new RangeError(`the playing order has no visit ${note.visitIndex}`);
    const beat = beatTicks(score, bar);
    return visit.startTick + Math.floor((note.tick - visit.startTick) / beat) * beat;
  };
  const overs = groupBy(against, ({ note }) => `${note.stretch} ${beatOf(note)}`);
  return [...groupBy(notes, (note) => `${note.stretch} ${beatOf(note)}`)].flatMap(([key, group]) => {
    const first = group[0];
    if (first === undefined) return [];
    return [{
      stretch: first.stretch, visitIndex: first.visitIndex, tick: beatOf(first), startS: Math.min(...group.map(({ onsetS }) => onsetS)),
      right: meanLevel(group, 'right'), left: meanLevel(group, 'left'), heardDb: heardDb(group),
      tuneOver: middleOver(overs.get(key) ?? [], 1),
    }];
  });
}

/** Levels of every visit to a bar. */
export function barLevels(bars: readonly BarFacts[], { notes, against, rankOf }: ContourMaterial): readonly BarLevel[] {
  const byBar = groupBy(notes, ({ stretch, visitIndex }) => `${stretch} ${visitIndex}`);
  const overs = groupBy(against, ({ note }) => `${note.stretch} ${note.visitIndex}`);
  return bars.map(({ stretch, visitIndex }) => {
    const group = byBar.get(`${stretch} ${visitIndex}`) ?? [];
    return { right: handLevel(group, 'right', rankOf), left: handLevel(group, 'left', rankOf), heardDb: heardDb(group), tuneOver: middleOver(overs.get(`${stretch} ${visitIndex}`) ?? [], LEAST_AGAINST) };
  });
}

/** Level of a hand in a bar. */
function handLevel(group: readonly Struck[], hand: Struck['hand'], rankOf: RankOf): Measured<HandLevel> {
  const velocity = meanLevel(group, hand);
  if (!velocity.measured) return velocity;
  const level = velocity.value;
  return measured({ notes: group.filter((note) => note.hand === hand).length, velocity: level, rank: rankOf(level), levelDb: levelDbOf(Math.max(1, level)) });
}

/** Mean levelled velocity of a hand. */
function meanLevel(group: readonly Struck[], hand: Struck['hand']): Measured<number> {
  const own = group.filter((note) => note.hand === hand);
  return own.length === 0 ? notMeasured('the hand strikes nothing here') : measured(meanOf(own.map(({ levelled }) => levelled)));
}

/** What is heard of all moments together. */
function heardDb(group: readonly Struck[]): Measured<number> {
  const moments = [...groupBy(group, ({ tick }) => tick).values()];
  if (moments.length === 0) return notMeasured('nothing is struck here');
  return measured(togetherDb(group.map(({ levelled }) => levelDbOf(Math.max(1, levelled)))) - 10 * Math.log10(moments.length));
}

/** Tune over accompaniment: the median of enough notes. */
function middleOver(against: readonly Against[], least: number): Measured<number> {
  return against.length < least ? notMeasured('too few notes sound under a tune here') : measured(median(against.map(({ over }) => over)));
}
