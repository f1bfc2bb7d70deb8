/**
 * The question: how does one count this bar aloud?
 * Conventions: offsets in ticks from the first beat of the full bar; struck syllables stand between asterisks.
 * Method: numbers for beats and "&" for their halves; in compound time numbers for the dotted beats and "& a" for the other
 * two thirds. What needs finer steps is counted in the unit below the beat ("in quavers"), again with "&". Common
 * practice, no source.
 * It does not tell triplets and other tuplets: for them the answer is null.
 */
import { ordinalInWords, word, type Language, type TradeWordName } from '../base/index.js';
import type { BarMetre } from './beatMetre.js';
import type { Counting } from './beatTypes.js';

/** The unit of compound time by the lower figure of its signature. */
const UNITS: ReadonlyMap<number, TradeWordName> = new Map([[4, 'crotchet'], [8, 'quaver'], [16, 'semiquaver']]);

/** Steps that a bar is counted in. */
interface CountSteps {
  readonly stepTicks: number;
  /** Syllables after each number; "" is the number itself. */
  readonly syllables: readonly string[];
}

/** More syllables than this in a bar are no help to anybody (inclusive). */
const MOST_SYLLABLES = 24;

/**
 * The line to count a bar by, or null where numbers and "&" do not reach, and where every number is struck anyway.
 * @param struck offsets of what is struck, in any order
 */
export function countingLine(metre: BarMetre, struck: readonly number[]): Omit<Counting, 'barIndex'> | null {
  if (!metre.regular || struck.length === 0) return null;
  const steps = countings(metre).find(({ stepTicks }) => struck.every((offset) => offset % stepTicks === 0));
  if (steps === undefined) return null;
  const on = new Set(struck);
  const end = metre.leadTicks + metre.bar.lengthTicks;
  const words: string[] = [];
  for (let offset = metre.leadTicks; offset < end; offset += steps.stepTicks) {
    const syllable = syllableAt(Math.round(offset / steps.stepTicks), steps);
    words.push(on.has(offset) ? `**${syllable}**` : syllable);
  }
  const silentNumber = words.some((syllable) => /^\d/.test(syllable));
  if (words.length > MOST_SYLLABLES || !silentNumber) return null;
  const numberTicks = steps.stepTicks * steps.syllables.length;
  return { line: words.join(' '), unitTicks: numberTicks < metre.beatTicks ? numberTicks : null };
}

/** Name of a place in the bar: "3", 'the "&" of 2'; null where counting does not reach. */
export function countName(metre: BarMetre, offset: number, language: Language = 'british'): string | null {
  const { beatTicks, compound } = metre;
  const beat = Math.floor(offset / beatTicks) + 1;
  const within = offset % beatTicks;
  if (within === 0) return String(beat);
  if (!compound) return within * 2 === beatTicks ? `the "&" of ${beat}` : null;
  const unit = UNITS.get(metre.bar.time.beatType);
  const place = (offset * 3) / beatTicks;
  return unit !== undefined && Number.isInteger(place) ? `the ${ordinalInWords(place + 1)} ${word(unit, language)}` : null;
}

/** Ways to count, coarsest first. */
function countings({ beatTicks, compound }: BarMetre): readonly CountSteps[] {
  const ways: readonly CountSteps[] = compound
    ? [
        { stepTicks: beatTicks, syllables: [''] },
        { stepTicks: beatTicks / 3, syllables: ['', '&', 'a'] },
        { stepTicks: beatTicks / 6, syllables: ['', '&'] },
      ]
    : [
        { stepTicks: beatTicks, syllables: [''] },
        { stepTicks: beatTicks / 2, syllables: ['', '&'] },
        // numbers now count the half beats
        { stepTicks: beatTicks / 4, syllables: ['', '&'] },
      ];
  return ways.filter((way) => Number.isInteger(way.stepTicks));
}

/** What is said at a step, counted from the bar's first. */
function syllableAt(step: number, { syllables }: CountSteps): string {
  const syllable = syllables[step % syllables.length] ?? '';
  return syllable === '' ? String(Math.floor(step / syllables.length) + 1) : syllable;
}
