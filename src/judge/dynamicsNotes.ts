/*
 * Single notes that stick out of their line: a thumb, a landing, a jump.
 *
 * What is a fault: a note well over everything around it in its hand that nothing asks for. A written accent is asked for; a long note, the highest
 * of its surroundings, and a moment that both hands stress together may be meant, and must stick out further.
 * The top of a right-hand chord may be louder than the rest; a note under it may not.
 */
import { handOf, HANDS, type Hand, type NoteLevel } from '../measure/index.js';
import { firstIndex, groupBy } from '../base/index.js';
import type { Occurrence } from '../score/index.js';
import { levelFinding, whereOf, type LevelGround } from './levelGround.js';
import type { Finding } from './types.js';
import { severityOf } from './weight.js';

/** Velocity units over its surroundings from which (>=) a note sticks out: five times what is just heard (Slade et al. 2022: about 3). Our own rule. */
const STICKS_OUT_UNITS = 15;

/** What a note may have more that is likely to be meant, velocity units. */
const MEANT_UNITS = 6;

/** A note under the top of its chord needs less: velocity units over the top, and over the surroundings. */
const UNDER_TOP_UNITS = 15;
const UNDER_SURROUNDINGS_UNITS = 8;

/** A note is long from so many times (>=) the middle length around it. */
const LONG_TIMES = 2;

/** How far its surroundings reach (<=) on each side, crotchets. */
const SURROUNDING_CROTCHETS = 4;

/** The other hand stresses the moment too from so many velocity units (>=) over its own surroundings' middle. */
const BOTH_STRESS_UNITS = 4;

/** A note of a hand, with its level. */
interface Levelled {
  readonly level: NoteLevel;
  readonly occurrence: Occurrence;
  readonly stretch: number;
  readonly hand: Hand;
  readonly over: number;
}

/** Notes that stick out. */
export function stickingOut(ground: LevelGround): readonly Finding[] {
  const lines = groupBy(levelled(ground), ({ stretch }) => stretch);
  return [...lines.values()].flatMap((notes) => {
    const moments = groupBy(notes, ({ occurrence, hand }) => `${hand} ${occurrence.onsetTick}`);
    return HANDS.flatMap((hand) => {
      const own = notes.filter((note) => note.hand === hand);
      return own.flatMap((note, place) => {
        const chord = moments.get(`${hand} ${note.occurrence.onsetTick}`) ?? [];
        const other = moments.get(`${hand === 'right' ? 'left' : 'right'} ${note.occurrence.onsetTick}`) ?? [];
        return findingOf(ground, note, ratioOf(ground, note, { chord, other, own, place }));
      });
    });
  });
}

/** Every note whose surroundings tell a level, in order of stretch and tick. */
function levelled(ground: LevelGround): readonly Levelled[] {
  const { score, alignment } = ground.input;
  return ground.facts.notes.flatMap((level): readonly Levelled[] => {
    const pair = alignment.pairs[level.pair];
    const occurrence = score.occurrences[pair?.occurrence ?? -1];
    if (pair === undefined || occurrence === undefined || !level.over.measured) return [];
    return [{ level, occurrence, stretch: pair.stretch, hand: handOf(occurrence), over: level.over.value }];
  }).sort((a, b) => a.stretch - b.stretch || a.occurrence.onsetTick - b.occurrence.onsetTick || a.occurrence.midi - b.occurrence.midi);
}

/** What a note is held against. */
interface Around {
  readonly chord: readonly Levelled[];
  readonly other: readonly Levelled[];
  readonly own: readonly Levelled[];
  readonly place: number;
}

/** How many times the threshold a note reaches; 0 for one that is asked for. */
function ratioOf(ground: LevelGround, note: Levelled, { chord, other, own, place }: Around): number {
  if (note.over < UNDER_SURROUNDINGS_UNITS || chord.some(({ occurrence }) => accented(ground, occurrence))) return 0;
  const top = chord.reduce((best, one) => (one.occurrence.midi > best.occurrence.midi ? one : best), note);
  const under = top === note || note.hand === 'left' ? 0 : Math.min(note.over / UNDER_SURROUNDINGS_UNITS, (note.level.velocity - top.level.velocity) / UNDER_TOP_UNITS);
  const meant = stressed(other) || long(note, own.slice(...near(ground, own, place))) || highest(note, own.slice(...near(ground, own, place)));
  return Math.max(under, note.over / (STICKS_OUT_UNITS + (meant ? MEANT_UNITS : 0)));
}

/** True for a note with an accent, or a sforzando at its moment. */
export function accented(ground: LevelGround, occurrence: Pick<Occurrence, 'noteIndex' | 'onsetTick' | 'staff'>): boolean {
  const { score } = ground.input;
  const note = score.notes[occurrence.noteIndex];
  return note !== undefined && (note.velocity !== null || note.articulations.some((one) => /ccent|stress|tenuto/.test(one)) || ground.facts.accents.some(({ tick, hand }) => tick === occurrence.onsetTick && hand === handOf(occurrence)));
}

/** True where the other hand stresses the moment too. */
function stressed(other: readonly Levelled[]): boolean {
  return other.some(({ over }) => over >= BOTH_STRESS_UNITS);
}

/** First and last place around a note within the reach of its surroundings. */
function near({ input: { score } }: LevelGround, own: readonly Levelled[], place: number): [number, number] {
  const reach = SURROUNDING_CROTCHETS * score.ticksPerQuarter;
  const tick = own[place]?.occurrence.onsetTick ?? 0;
  const from = firstIndex(own.length, (i) => (own[i]?.occurrence.onsetTick ?? Infinity) >= tick - reach);
  return [from, firstIndex(own.length, (i) => (own[i]?.occurrence.onsetTick ?? Infinity) > tick + reach, from)];
}

/** True for a note much longer than those around it. */
function long(note: Levelled, around: readonly Levelled[]): boolean {
  const lengths = around.map(({ occurrence }) => occurrence.endTick - occurrence.onsetTick).sort((a, b) => a - b);
  const middle = lengths[Math.floor(lengths.length / 2)] ?? Infinity;
  return note.occurrence.endTick - note.occurrence.onsetTick >= LONG_TIMES * middle;
}

/** True for the highest note of its surroundings, where these rise and fall. */
function highest(note: Levelled, around: readonly Levelled[]): boolean {
  const pitches = around.map(({ occurrence }) => occurrence.midi);
  return note.occurrence.midi >= Math.max(...pitches) && note.occurrence.midi > Math.min(...pitches);
}

/** The finding of a note that sticks out. */
function findingOf(ground: LevelGround, { level, hand, over }: Levelled, ratio: number): readonly Finding[] {
  const where = whereOf(ground, level);
  const visit = where === null ? undefined : ground.visit(where.stretch, where.visitIndex);
  if (where === null || visit === undefined || ratio < 1) return [];
  const note = ground.input.recording.notes[ground.input.alignment.pairs[level.pair]?.note ?? -1];
  return levelFinding(ground, {
    aspect: 'dynamics', kind: 'sticksOut', hand, topic: '', visits: [visit], notes: [where.noteIndex], startS: note?.onsetS ?? visit.startS,
    measured: { value: over, unit: 'velocity units', threshold: STICKS_OUT_UNITS }, severity: severityOf(ratio), confidence: 0.9,
  });
}
