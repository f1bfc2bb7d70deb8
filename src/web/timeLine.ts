/**
 * One small picture for one bar: when the notes are written, and when they sounded. It shows order, unevenness
 * and lengths within the bar; it does not show the bar's own tempo, which the line through its onsets takes out.
 */
import type { Added, Alignment, Missed, Pair } from '../align/index.js';
import { groupBy } from '../base/index.js';
import type { BarFacts } from '../measure/index.js';
import type { Recording } from '../recording/index.js';
import { alterInKey, namePlayed, noteInWords } from '../judge/index.js';
import type { Bar, BarVisit, Occurrence, Score } from '../score/index.js';
import { fitTicks } from './fitTicks.js';

/**
 * A stroke of the small time line: where it begins and ends, in ticks from the start of the bar.
 */
export interface TimeStroke {
  readonly fromTick: number;
  readonly toTick: number;
}

/** Written notes of one hand that begin together, and what was played for them. */
export interface TimeGroup {
  readonly hand: 'right' | 'left';
  readonly written: TimeStroke;
  /** "G sharp", "B D". */
  readonly names: string;
  readonly played: readonly TimeStroke[];
  /** True where one of them is missed and no other key stands for it. */
  readonly missing: boolean;
}

/** A key that the score does not have here. */
export interface OddNote {
  readonly hand: 'right' | 'left';
  readonly stroke: TimeStroke;
  readonly name: string;
}

/** One visit to one bar, written and played on the same axis. */
export interface TimeLine {
  readonly lengthTicks: number;
  readonly beatTicks: number;
  readonly groups: readonly TimeGroup[];
  readonly odd: readonly OddNote[];
}

/** What a time line is made from. */
export interface TimeLineMaterial {
  readonly score: Score;
  readonly recording: Recording;
  readonly alignment: Alignment;
}

/** A visit with its records. */
interface Place {
  readonly visit: BarFacts;
  readonly bar: Bar;
  readonly order: BarVisit;
  /** Seconds to ticks from the start of the bar. */
  readonly ticksAt: (timeS: number) => number;
}

/** What of the material belongs to one visit. */
interface VisitMaterial extends TimeLineMaterial {
  readonly written: readonly Occurrence[];
  readonly pairs: readonly Pair[];
  readonly missed: readonly Missed[];
  readonly added: readonly Added[];
}

/**
 * Tells written against played, a visit at a time; the material is sorted by visits once. Played times are laid on the score by a straight line
 * through the bar's own onsets (least squares), so the line shows what is uneven within the bar; with fewer than two moments there is none.
 */
export function timeLines(material: TimeLineMaterial): (visit: BarFacts) => TimeLine | null {
  const { score, alignment } = material;
  const visitOf = (occurrence: number | null): number => score.occurrences[occurrence ?? -1]?.visitIndex ?? -1;
  const key = (stretch: number | null, visitIndex: number): string => `${stretch} ${visitIndex}`;
  const written = groupBy(score.occurrences, ({ visitIndex }) => visitIndex);
  const pairs = groupBy(alignment.pairs, ({ stretch, occurrence }) => key(stretch, visitOf(occurrence)));
  const missed = groupBy(alignment.missed, ({ stretch, occurrence }) => key(stretch, visitOf(occurrence)));
  const added = groupBy(alignment.added, ({ stretch, near }) => key(stretch, visitOf(near)));
  return (visit) => {
    const here = key(visit.stretch, visit.visitIndex);
    const lasting = (written.get(visit.visitIndex) ?? []).filter(({ onsetTick, endTick }) => endTick > onsetTick);
    return timeLineOf({ ...material, written: lasting, pairs: pairs.get(here) ?? [], missed: missed.get(here) ?? [], added: added.get(here) ?? [] }, visit);
  };
}

/** The time line of one visit. */
function timeLineOf(material: VisitMaterial, visit: BarFacts): TimeLine | null {
  const bar = material.score.bars[visit.barIndex];
  const order = material.score.order[visit.visitIndex];
  if (bar === undefined || order === undefined) return null;
  const ticksAt = fitTicks(momentsOf(material, order));
  if (ticksAt === null) return null;
  const place = { visit, bar, order, ticksAt };
  const beatTicks = (material.score.ticksPerQuarter * 4) / bar.time.beatType;
  return { lengthTicks: bar.lengthTicks, beatTicks, groups: groupsOf(material, place), odd: oddNotes(material, place) };
}

/** Played moments of a visit with their written place. */
function momentsOf({ score, recording, pairs }: VisitMaterial, order: BarVisit) {
  return pairs.flatMap((pair) => {
    const occurrence = score.occurrences[pair.occurrence];
    const note = recording.notes[pair.note];
    const lasts = occurrence !== undefined && occurrence.endTick > occurrence.onsetTick;
    return lasts && note !== undefined ? [{ timeS: note.onsetS, tick: occurrence.onsetTick - order.startTick }] : [];
  });
}

/** Written notes, by hand and onset. */
function groupsOf(material: VisitMaterial, place: Place): readonly TimeGroup[] {
  const groups = new Map<string, Occurrence[]>();
  for (const occurrence of material.written) {
    const key = `${handOf(occurrence)} ${occurrence.onsetTick}`;
    groups.set(key, [...(groups.get(key) ?? []), occurrence]);
  }
  return [...groups.values()].flatMap((group) => groupOf(material, place, group));
}

/** One group with what was played for it. */
function groupOf({ score, recording, pairs: all, missed, added }: VisitMaterial, place: Place, group: readonly Occurrence[]): readonly TimeGroup[] {
  const first = group[0];
  if (first === undefined) return [];
  const numbers = new Set(group.map((occurrence) => occurrence.index));
  const pairs = all.filter((pair) => numbers.has(pair.occurrence));
  const stoodFor = new Set(added.filter(({ instead }) => instead).map(({ near }) => near));
  const gone = missed.filter(({ occurrence }) => numbers.has(occurrence) && !stoodFor.has(occurrence));
  const end = Math.max(...group.map((occurrence) => occurrence.endTick)) - place.order.startTick;
  return [{
    hand: handOf(first),
    written: { fromTick: first.onsetTick - place.order.startTick, toTick: Math.min(end, place.bar.lengthTicks) },
    names: group.flatMap((occurrence) => score.notes[occurrence.noteIndex]?.pitch ?? []).map((pitch) => noteInWords(pitch)).join(', '),
    played: pairs.flatMap((pair) => strokeOf(recording, place, pair.note)),
    missing: gone.length > 0,
  }];
}

/** Keys of this visit that the score does not have. */
function oddNotes({ score, recording, alignment, added: all }: VisitMaterial, place: Place): readonly OddNote[] {
  return all.flatMap((added) => {
    const near = added.near === null ? undefined : score.occurrences[added.near];
    const note = recording.notes[added.note];
    if (near === undefined || note === undefined) return [];
    const written = added.instead ? (score.notes[near.noteIndex]?.pitch ?? null) : null;
    const { fifths } = place.bar.key;
    const played = namePlayed(note.pitch - alignment.transposition, written, place.bar.key);
    const name = noteInWords(played, alterInKey(played.step, fifths) !== 0 || (written?.step === played.step && written.alter !== 0));
    return strokeOf(recording, place, added.note).map((stroke) => ({ hand: handOf(near), stroke, name }));
  });
}

/** From key down to key up, kept within the bar. */
function strokeOf(recording: Recording, place: Place, index: number): readonly TimeStroke[] {
  const note = recording.notes[index];
  if (note === undefined) return [];
  const end = place.bar.lengthTicks;
  const fromTick = Math.min(Math.max(place.ticksAt(note.onsetS), 0), end);
  return [{ fromTick, toTick: Math.min(Math.max(place.ticksAt(note.releaseS), fromTick), end) }];
}

/** Upper stave right, lower stave left. */
function handOf(occurrence: Occurrence): 'right' | 'left' {
  return occurrence.staff >= 2 ? 'left' : 'right';
}
