/*
 * Question: where should the pedal go down, change, stay and stay away?
 * Conventions: entries in order without gaps; a later stage may replace any of them by its id.
 * Method: marks of the score come first, with the gaps of a beat that a star leaves; a gap of a bar or less between marks is foot up.
 *   Where the score is silent for longer, the harmony proposes, section by section.
 * Source: teaching practice, no published source.
 * What it does not tell: whether a marked pedal is wise; a long one may be taken in fractions, and its reason says so.
 */
import type { HarmonyAnalysis } from '../harmony/index.js';
import { barAtTick, ticksToCrotchets, type Score } from '../score/index.js';
import type { Section } from './formTypes.js';
import { chordOverBass } from './names.js';
import { harmonyFacts, isRomantic, type HarmonyFacts } from './pedalPlanFacts.js';
import { clearing, proposals, type Proposal } from './pedalPlanHarmony.js';
import { beatAt, lastTick, printedStretches, wordedStretches, wordsAt, type PrintedStretch, type WordedStretch } from './pedalPlanPrinted.js';
import type { PedalEntry, PedalPlan, PedalSource } from './pedalPlanTypes.js';
import { soundsOf } from './sounds.js';

/** Gaps between marks up to this many bars are foot up as marked; longer ones are silence of the score. */
const MARKED_GAP_BARS = 1;

/** A proposal and where it comes from. */
interface Sourced extends Proposal {
  readonly source: PedalSource;
}

/** The plan of a whole piece. */
export function planPedal(score: Score, harmony: HarmonyAnalysis, sections: readonly Section[]): PedalPlan {
  const sounds = soundsOf(score);
  if (sounds.length === 0) return { entries: [], basis: 'none' };
  const facts = harmonyFacts(score, harmony, sounds);
  const printed = printedStretches(score);
  const covered = printedProposals(score, printed, facts);
  const romantic = isRomantic(score, sounds);
  const open = silentStretches(score, covered).flatMap((stretch) => fromHarmony(score, { stretch, facts, sections, romantic }));
  const entries = seamed(closeGaps([...covered, ...open].sort((a, b) => a.fromTick - b.fromTick), lastTick(score)), facts);
  return { entries: entries.map((one) => asEntry(score, one)), basis: basisOf(entries) };
}

/** Where most of the plan comes from; what a teacher set counts with what is proposed. */
export function basisOf(entries: readonly Pick<PedalEntry, 'kind' | 'source'>[]): PedalPlan['basis'] {
  const pedalled = entries.filter((entry) => entry.kind !== 'none' && entry.kind !== 'up');
  const printed = pedalled.some((entry) => entry.source === 'printed');
  const harmony = pedalled.some((entry) => entry.source !== 'printed');
  if (printed && harmony) return 'both';
  if (printed) return 'printed';
  return harmony ? 'harmony' : 'none';
}

/** The marks as they stand, with the short gaps between them. */
function printedProposals(score: Score, stretches: readonly PrintedStretch[], facts: readonly HarmonyFacts[]): readonly Sourced[] {
  const words = wordedStretches(score);
  return stretches.flatMap((stretch, i) => {
    const { fromTick, toTick, change } = stretch;
    const ring = words.find((one) => one.asks === 'ring' && one.fromTick >= fromTick && one.fromTick < toTick);
    const pressed: Sourced = {
      fromTick, toTick, kind: ring !== undefined ? 'ring' : change ? 'change' : 'down', source: 'printed',
      reason: ring !== undefined ? `marked, with "${ring.text}": let it ring` : markedReason(stretch, facts, beatAt(score, fromTick)),
      clearS: change ? clearing(factsAt(facts, fromTick)?.bass?.midi ?? 127) : null,
    };
    const next = stretches[i + 1]?.fromTick ?? lastTick(score);
    const bar = score.bars[barAtTick(score, toTick).barIndex];
    const short = next > toTick && next - toTick <= MARKED_GAP_BARS * (bar?.nominalTicks ?? 0);
    return short ? [pressed, { fromTick: toTick, toTick: next, kind: 'up' as const, source: 'printed' as const, reason: 'released as marked', clearS: null }] : [pressed];
  });
}

/** The harmony that holds at a tick, with its facts. */
function factsAt(facts: readonly HarmonyFacts[], tick: number): HarmonyFacts | undefined {
  return facts.find(({ harmony }) => harmony.fromTick <= tick && tick < harmony.toTick);
}

/** Why a marked pedal is there, and whether the harmony moves under it for a beat or more. */
function markedReason({ fromTick, toTick, depth }: PrintedStretch, facts: readonly HarmonyFacts[], beat: number): string {
  const under = facts.map(({ harmony }) => harmony).filter((harmony) => Math.min(toTick, harmony.toTick) - Math.max(fromTick, harmony.fromTick) >= beat);
  const roots = new Set(under.map((harmony) => harmony.root).filter((root) => root !== null));
  const first = factsAt(facts, fromTick)?.harmony;
  const chord = first === undefined ? '' : chordOverBass(first);
  const part = depth === null ? '' : ', half pedal';
  if (roots.size > 1) return `marked${part}; the harmony changes under it, so it may be taken in fractions`;
  return chord === '' ? `marked${part}` : `marked${part}: ${chord}`;
}

/** A stretch of ticks. */
interface Stretch {
  readonly fromTick: number;
  readonly toTick: number;
}

/** What the marks leave open. */
function silentStretches(score: Score, covered: readonly Stretch[]): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let at = 0;
  for (const { fromTick, toTick } of covered) {
    if (fromTick > at) stretches.push({ fromTick: at, toTick: fromTick });
    at = Math.max(at, toTick);
  }
  const end = lastTick(score);
  return at < end ? [...stretches, { fromTick: at, toTick: end }] : stretches;
}

/** An open stretch and what is needed to fill it. */
interface OpenStretch {
  readonly stretch: Stretch;
  readonly facts: readonly HarmonyFacts[];
  readonly sections: readonly Section[];
  readonly romantic: boolean;
}

/** What the harmony proposes over an open stretch, a section at a time. */
function fromHarmony(score: Score, { stretch, facts, sections, romantic }: OpenStretch): readonly Sourced[] {
  const words = wordedStretches(score);
  const parts = sections.length > 0 ? sections : [{ fromTick: 0, toTick: lastTick(score) }];
  return parts.flatMap((part) => {
    const from = Math.max(part.fromTick, stretch.fromTick);
    const to = Math.min(part.toTick, stretch.toTick);
    const inside = facts.filter(({ harmony }) => harmony.fromTick >= from && harmony.fromTick < to);
    const ground = { facts: inside, words, romantic, ticksPerQuarter: score.ticksPerQuarter, beatAt: (tick: number): number => beatAt(score, tick) };
    return proposals(ground).map((one) => ({ ...one, toTick: Math.min(one.toTick, to), source: isWorded(one, words) ? 'printed' : 'harmony' }));
  });
}

/** True where the score's words say just this: dry, or to ring on. Words that ask for the pedal leave it open when the foot moves. */
function isWorded({ kind, fromTick }: Proposal, words: readonly WordedStretch[]): boolean {
  const asks = wordsAt(words, fromTick)?.asks;
  return (asks === 'dry' && kind === 'none') || (asks === 'ring' && kind === 'ring');
}

/** Makes every entry last until the next; what comes before the first is dry. */
function closeGaps(entries: readonly Sourced[], end: number): readonly Sourced[] {
  const first = entries[0];
  const lead: readonly Sourced[] = first === undefined || first.fromTick > 0
    ? [{ fromTick: 0, toTick: first?.fromTick ?? end, kind: 'none', source: 'harmony', reason: first === undefined ? 'no harmony that could be told' : 'before the first change', clearS: null }]
    : [];
  return [...lead, ...entries].map((entry, i, all) => ({ ...entry, toTick: all[i + 1]?.fromTick ?? end }));
}

/** A press while the foot is down is a change, at the seams between marks and harmony and between sections. */
function seamed(entries: readonly Sourced[], facts: readonly HarmonyFacts[]): readonly Sourced[] {
  return entries.map((entry, i) => {
    const before = entries[i - 1]?.kind;
    const down = before === 'down' || before === 'change' || before === 'ring';
    if (!down || (entry.kind !== 'down' && entry.kind !== 'ring') || entry.clearS !== null) return entry;
    return { ...entry, kind: entry.kind === 'down' ? 'change' : entry.kind, clearS: clearing(factsAt(facts, entry.fromTick)?.bass?.midi ?? 127) };
  });
}

/** The record with its place and name. */
function asEntry(score: Score, { source, ...one }: Sourced): PedalEntry {
  const { barIndex, offsetTicks } = barAtTick(score, one.fromTick);
  const offset = ticksToCrotchets(score, offsetTicks);
  return { id: `pedal-${barIndex}-${Number(offset.toFixed(4))}`, ...one, barIndex, offset, source };
}
