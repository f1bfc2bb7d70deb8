/*
 * The teacher's question: what does the score ask of loud and soft, hand by hand, along the playing order?
 *
 * Conventions: unfolded ticks; steps of level from 0 (pppp) to 9 (ffff).
 * Method: a mark holds for the hand of its stave, and for the other one too unless that has a mark of its own within a bar.
 *   Words that ask for a level ("sotto voce", "subito p") are marks, words that ask for less and less ("smorzando") are
 *   hairpins to the next mark. fp and the like are an accent, and p from there on.
 * Source: order of the marks by notation; one mark between the staves holds for both hands by common practice.
 * What it does not tell: marks of single voices within a hand.
 */
import { beatTicks, type Direction, type Score } from '../score/index.js';
import { HANDS, type Hand } from './hands.js';

/** Marks of level, soft to loud: each a step. */
const STEPS: readonly string[] = ['pppp', 'ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'ffff'];

/** Words that stand for a mark. Common practice, no source. */
const WORDS_FOR_MARKS: readonly (readonly [RegExp, string])[] = [
  [/\bsotto voce\b/i, 'p'],
  [/\bmezza voce\b/i, 'mp'],
  [/^(?:(?:sempre|subito|sub\.?|molto|ma)\s+)?(p{1,4}|f{1,4}|m[pf])(?:\s+(?:subito|sub\.?|sempre|dolce|cantabile|legato|leggiero))?$/, '$1'],
];

/** Words that ask for less and less. */
const FADING_WORDS = /\b(smorz|calando|mancando|morendo|perdendo|diluendo)/i;

/** Marks that are an accent, and then ask for a level. */
const ACCENT_THEN_SOFT = /^s?f{1,2}z?p{1,2}$/;

/** Marks that are an accent only. */
const SFORZATO = /^(s?f{1,2}z|sf{1,2}|rfz?|fz)$/;

/** How far away (<=) a mark of the other hand takes this one for itself, bars. */
const OWN_MARK_BARS = 1;

/** A mark of level. */
export interface AskedMark {
  readonly tick: number;
  readonly visitIndex: number;
  readonly text: string;
  readonly step: number;
}

/** A hairpin, "cresc.", "dim." or a word like "smorzando". */
export interface AskedHairpin {
  readonly kind: 'crescendo' | 'diminuendo';
  readonly tick: number;
  readonly untilTick: number;
  readonly visitIndex: number;
}

/** What is asked of one hand, in playing order. */
export interface AskedOfHand {
  readonly marks: readonly AskedMark[];
  readonly hairpins: readonly AskedHairpin[];
  /** Unfolded ticks of sf, fp and the like. */
  readonly sforzati: readonly number[];
}

/** A direction at its place in the playing order. */
interface Placed {
  readonly direction: Direction;
  readonly hand: Hand;
  readonly tick: number;
  readonly untilTick: number;
  readonly visitIndex: number;
  /** Length of its bar and of its beat, ticks. */
  readonly barTicks: number;
  readonly beatTicks: number;
}

/** Everything that is asked of each hand. */
export function marksAsked(score: Score): Readonly<Record<Hand, AskedOfHand>> {
  const placed = placedDirections(score);
  const [right, left] = HANDS.map((hand) => askedOf(hand, placed));
  return { right: right ?? NOTHING, left: left ?? NOTHING };
}

const NOTHING: AskedOfHand = { marks: [], hairpins: [], sforzati: [] };

/** Directions by visit of their bar. An end in a later bar is counted along the paper. */
function placedDirections(score: Score): readonly Placed[] {
  const byBar = new Map<number, Direction[]>();
  for (const direction of score.directions) byBar.set(direction.barIndex, [...(byBar.get(direction.barIndex) ?? []), direction]);
  const placed = score.order.flatMap((visit) => {
    const bar = score.bars[visit.barIndex];
    if (bar === undefined) return [];
    const shift = visit.startTick - bar.startTick;
    return (byBar.get(visit.barIndex) ?? []).map((direction): Placed => ({
      direction, hand: (direction.staff ?? 1) <= 1 ? 'right' : 'left', tick: direction.onsetTick + shift,
      untilTick: (direction.untilTick ?? direction.onsetTick) + shift, visitIndex: visit.index, barTicks: bar.nominalTicks, beatTicks: beatTicks(score, bar),
    }));
  });
  return placed.sort((a, b) => a.tick - b.tick);
}

/** What is asked of one hand: its own marks, and those of the other that it has no match for. */
function askedOf(hand: Hand, placed: readonly Placed[]): AskedOfHand {
  const own = placed.filter((one) => one.hand === hand);
  const borrowed = placed.filter((one) => one.hand !== hand && !own.some((mine) => alike(mine, one)));
  const all = [...own, ...borrowed].sort((a, b) => a.tick - b.tick);
  const marks = all.flatMap(markOf);
  return {
    marks,
    hairpins: all.flatMap((one) => hairpinOf(one, marks)),
    sforzati: own.filter(({ direction }) => direction.kind === 'dynamics' && accented(direction.text)).map(({ tick }) => tick),
  };
}

/** True where the hand's own direction takes the place of the other's: of one sort and near. */
function alike(mine: Placed, other: Placed): boolean {
  const sort = (one: Placed): string => (markOf(one).length > 0 ? 'mark' : /crescendo|diminuendo/.test(one.direction.kind) ? 'hairpin' : one.direction.kind);
  return sort(mine) === sort(other) && Math.abs(mine.tick - other.tick) <= OWN_MARK_BARS * other.barTicks;
}

/** A mark, where a direction is one; after an accent it holds from the next half beat on. */
function markOf({ direction, tick, visitIndex, beatTicks: beat }: Placed): readonly AskedMark[] {
  const soft = direction.kind === 'dynamics' && ACCENT_THEN_SOFT.test(direction.text);
  const text = soft ? direction.text.replace(/^[^p]*/, '') : levelText(direction);
  const step = STEPS.indexOf(text);
  return step < 0 ? [] : [{ tick: soft ? tick + beat / 2 : tick, visitIndex, text, step }];
}

/** The mark that a direction's text stands for; "" for none. */
function levelText({ kind, text }: Direction): string {
  if (kind === 'dynamics') return text;
  if (kind !== 'words' && kind !== 'tempo') return '';
  for (const [words, mark] of WORDS_FOR_MARKS) {
    const found = words.exec(text.trim());
    if (found !== null) return mark === '$1' ? (found[1] ?? '') : mark;
  }
  return '';
}

/** True for sf, sfz, rf, fp … */
function accented(text: string): boolean {
  return SFORZATO.test(text) || ACCENT_THEN_SOFT.test(text);
}

/** A hairpin, where a direction is one; words without an end go to the next mark, at most for two bars. */
function hairpinOf({ direction, tick, untilTick, visitIndex, barTicks }: Placed, marks: readonly AskedMark[]): readonly AskedHairpin[] {
  const { kind, text } = direction;
  if (kind === 'crescendo' || kind === 'diminuendo') return untilTick > tick ? [{ kind, tick, untilTick, visitIndex }] : [];
  if ((kind !== 'words' && kind !== 'tempo') || !FADING_WORDS.test(text)) return [];
  const next = marks.find((mark) => mark.tick > tick)?.tick ?? Infinity;
  return [{ kind: 'diminuendo', tick, untilTick: Math.min(next, tick + 2 * barTicks), visitIndex }];
}
