/**
 * What the pupil played otherwise than written, put so that it can be said: slips of one bar and hand together,
 * the same slip in several tries once, a wrong note named for the note it stands for.
 */
import { countInWords, groupBy, timesInWords } from '../base/index.js';
import type { Added, Alignment, Missed, Pair } from '../align/index.js';
import type { BarFacts, Measures } from '../measure/index.js';
import type { Recording } from '../recording/index.js';
import { beatTicks, type Score } from '../score/index.js';
import { differenceInWords, movedNotes, slipsInWords, withoutCounts } from './differenceWords.js';

/** What kind of slip it is. */
export type DifferenceKind = 'wrong' | 'missed' | 'added' | 'octave';

/** One slip of one visit to a bar. */
export interface Slip {
  readonly kind: DifferenceKind;
  /**
   * Place in `Score.occurrences` of the written note, or null where a note was added without one.
   */
  readonly occurrence: number | null;
  /** Place in `Recording.notes`, or null for a missed note. */
  readonly note: number | null;
  readonly hand: 'right' | 'left';
  /** In words, without the place: "G natural for G sharp". */
  readonly text: string;
}

/** A slip and the visit it happened in. */
interface PlacedSlip {
  readonly slip: Slip;
  readonly visit: BarFacts;
}

/** What differs from the score in one bar and hand, the same way in one or several tries. */
export interface Difference {
  readonly barIndex: number;
  readonly hand: 'right' | 'left';
  readonly text: string;
  /** The same without how often: what returns in other bars is known by it. */
  readonly plain: string;
  /** True where so much differs that the notes are not told one by one. */
  readonly many: boolean;
  /** How many of the slips are two halves of one: a note that is missing where it stands and added elsewhere in the bar. */
  readonly moved: number;
  /** The tries it happened in, as entries of `Measures.bars`. */
  readonly visits: readonly BarFacts[];
  readonly slips: readonly Slip[];
}

/** What the slips are told from. */
export interface Material {
  readonly score: Score;
  readonly recording: Recording;
  readonly alignment: Alignment;
  readonly measures: Pick<Measures, 'bars'>;
}

/** A bar in which more slips of one hand than this come together is told as a whole. */
export const MOST_TOLD_IN_A_BAR = 5;

/** The same where more notes than this have slipped in one try, in however few ways. */
const MOST_NAMED_IN_A_BAR = 8;

/**
 * Everything that differs from the score, in the order of the bars; the same slip in several
 * tries is one entry.
 */
export function differences(material: Material): readonly Difference[] {
  const placed = placedSlips(material);
  const groups = groupBy(placed, ({ slip, visit }) => `${visit.barIndex}:${slip.hand}`);
  return [...groups.values()].flatMap((placed) => differencesOfBar(material, placed)).sort((a, b) => a.barIndex - b.barIndex || (a.hand === b.hand ? 0 : a.hand === 'right' ? -1 : 1));
}

/** Slips by their visit, for marks and for the drawer: key "stretch:visit". */
export function slipsByVisit(material: Material): ReadonlyMap<string, readonly Slip[]> {
  const groups = groupBy(placedSlips(material), ({ visit }) => visitKey(visit.stretch, visit.visitIndex));
  return new Map([...groups].map(([key, placed]) => [key, placed.map(({ slip }) => slip)]));
}

/** Names one visit to one bar. */
export function visitKey(stretch: number, visitIndex: number): string {
  return `${stretch}:${visitIndex}`;
}

/** Every slip of the alignment whose visit is known. */
function placedSlips(material: Material): readonly PlacedSlip[] {
  const { alignment } = material;
  const visits = new Map(material.measures.bars.map((bar) => [visitKey(bar.stretch, bar.visitIndex), bar]));
  const wrong = new Set<string>();
  const fromAdded = alignment.added.flatMap((added) => {
    if (added.instead && added.near !== null) wrong.add(`${added.stretch}:${added.near}`);
    return placed(material, visits, addedSlip(added));
  });
  const fromMissed = alignment.missed
    .filter((missed) => !wrong.has(`${missed.stretch}:${missed.occurrence}`))
    .flatMap((missed) => placed(material, visits, missedSlip(missed)));
  const fromPairs = alignment.pairs.filter((pair) => pair.octaveSlip !== 0).flatMap((pair) => placed(material, visits, octaveSlip(pair)));
  return [...fromAdded, ...fromMissed, ...fromPairs].sort((a, b) => tickOf(material, a.slip) - tickOf(material, b.slip));
}

/** A slip with its stretch, before its visit is looked up. */
interface FoundSlip {
  readonly slip: Omit<Slip, 'hand' | 'text'>;
  readonly stretch: number | null;
  /** The written note that tells bar, hand and moment. */
  readonly near: number | null;
}

/** A pressed key without a written note, or instead of one. */
function addedSlip(added: Added): FoundSlip {
  const kind = added.instead ? 'wrong' : 'added';
  return { slip: { kind, occurrence: added.near, note: added.note }, stretch: added.stretch, near: added.near };
}

/** A written note without a key press. */
function missedSlip(missed: Missed): FoundSlip {
  return { slip: { kind: 'missed', occurrence: missed.occurrence, note: null }, stretch: missed.stretch, near: missed.occurrence };
}

/** A note in the wrong octave. */
function octaveSlip(pair: Pair): FoundSlip {
  return { slip: { kind: 'octave', occurrence: pair.occurrence, note: pair.note }, stretch: pair.stretch, near: pair.occurrence };
}

/**
 * The slip in its visit; nothing where it belongs to no bar (notes before and after the music).
 */
function placed(material: Material, visits: ReadonlyMap<string, BarFacts>, found: FoundSlip): readonly PlacedSlip[] {
  const occurrence = found.near === null ? undefined : material.score.occurrences[found.near];
  if (occurrence === undefined || found.stretch === null) return [];
  const visit = visits.get(visitKey(found.stretch, occurrence.visitIndex));
  if (visit === undefined) return [];
  const slip: Slip = { ...found.slip, hand: occurrence.staff >= 2 ? 'left' : 'right', text: differenceInWords(material, found.slip) };
  return [{ slip, visit }];
}

/** Entries of one bar and hand: one for each set of tries that share the same slips. */
function differencesOfBar(material: Material, placed: readonly PlacedSlip[]): readonly Difference[] {
  const byText = groupBy(placed, ({ slip }) => slip.text);
  const byVisits = groupBy([...byText.values()], (same) => [...new Set(same.map(({ visit }) => visitKey(visit.stretch, visit.visitIndex)))].join());
  return [...byVisits.values()].flatMap((groups) => {
    const all = groups.flat();
    const first = all[0];
    if (first === undefined) return [];
    const visits = [...new Set(all.map(({ visit }) => visit))];
    const texts = groups.map((same) => severalTimes(same));
    const inAVisit = Math.ceil(all.length / visits.length);
    const many = texts.length > MOST_TOLD_IN_A_BAR || inAVisit > MOST_NAMED_IN_A_BAR;
    const text = many ? `${countInWords(inAVisit)} notes ${allKindsInWords(all)}, ${beatsInWords(material, all)}` : slipsInWords(texts);
    return [{ barIndex: first.visit.barIndex, hand: first.slip.hand, text, plain: many ? text : slipsInWords(withoutCounts(texts)), many, moved: movedNotes(texts).length, visits, slips: all.map(({ slip }) => slip) }];
  });
}

/** What happened to all of them. */
function allKindsInWords(placed: readonly PlacedSlip[]): string {
  const kinds = new Set(placed.map(({ slip: { kind } }) => kind));
  if (kinds.size === 1 && kinds.has('missed')) return 'are missing';
  return kinds.size === 1 && kinds.has('added') ? 'are added' : 'are other than written';
}

/** "about beat 3", "from beat 1 to beat 4". */
function beatsInWords({ score }: Material, placed: readonly PlacedSlip[]): string {
  const beats = placed.flatMap(({ slip: { occurrence } }) => {
    const written = score.occurrences[occurrence ?? -1];
    const visit = score.order[written?.visitIndex ?? -1];
    const bar = score.bars[visit?.barIndex ?? -1];
    return written === undefined || visit === undefined || bar === undefined ? [] : [1 + Math.floor((written.onsetTick - visit.startTick) / beatTicks(score, bar))];
  });
  const [first, last] = [Math.min(...beats), Math.max(...beats)];
  return first === last ? `about beat ${first}` : `from beat ${first} to beat ${last}`;
}

/** "F sharp added", or "F sharp added (three times)" where one try has it more than once. */
function severalTimes(same: readonly PlacedSlip[]): string {
  const inOneTry = same.length / new Set(same.map(({ visit }) => visit)).size;
  const text = same[0]?.slip.text ?? '';
  return inOneTry > 1 ? `${text} (${timesInWords(Math.ceil(inOneTry))})` : text;
}

/** Written moment of a slip. */
function tickOf(material: Material, slip: Slip): number {
  return slip.occurrence === null ? 0 : (material.score.occurrences[slip.occurrence]?.onsetTick ?? 0);
}
