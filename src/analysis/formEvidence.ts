/*
 * Question: how strongly does the page say that a section begins with this bar?
 * Conventions: one weight a bar, 0 and up; only the order of weights and the threshold in formSections.ts matter.
 * Method: weights of signs are added: repeats, double bars, changes of key signature, of metre, of tempo, words such as "Trio";
 *   a new dynamic; a passage marked to ring on; a phrase that ended just before, its cadence, a rest of the tune or of all; a new key; the beginning or the end of a long return.
 * Source: the signs are common practice in teaching form; the weights are our own rule, set by reading thirty scores.
 * What it does not tell: the letter, and whether what follows was heard before.
 */
import type { HarmonyAnalysis } from '../harmony/index.js';
import { barAtTick, beatTicks, type Bar, type Direction, type Score } from '../score/index.js';
import type { BarContent } from './formBars.js';
import { common, commonRoots } from './formLikeness.js';
import type { Phrase } from './formTypes.js';
import { printedStretches, wordedStretches } from './pedalPlanPrinted.js';

/** Weights of single signs. */
const WEIGHT = {
  repeat: 5, doubleBar: 3.5, sectionWord: 4, keySignature: 2, metre: 2, tempo: 1.5,
  phrase: 1, perfect: 1, otherCadence: 0.5, newKey: 1, silence: 0.5, breath: 0.5, dynamics: 0.5, contrast: 1.5, ringing: 3,
} as const;

/** Words that name a section. Common practice, not complete. */
const SECTION_WORDS = /^(trio|coda|codetta|minore|maggiore|var\b|var\.|variation|variatio|intro|fine|da capo|thema|theme|finale|minor\b|major\b)/i;

/** Tempo words that only bend the pace of what goes on. */
const BENDING = /^(poco |molto |un poco |poco a poco )*(rit|rall|accel|string|allarg|slent|calando|smorz|morendo|perdendo|a tempo|in tempo|rubato|zurück)/i;

/** Whether a tempo mark bends the pace of what goes on, rather than setting another. */
export function bendsPace(text: string): boolean {
  return BENDING.test(text);
}

/** How many bars on either side are compared for contrast. */
const WINDOW = 4;

/** What the weights are read from. */
export interface FormMaterial {
  readonly score: Score;
  readonly harmony: HarmonyAnalysis;
  readonly bars: readonly BarContent[];
  readonly phrases: readonly Phrase[];
}

/** The weight of every bar as the first of a section, returns left out. The first bar has 0: nothing stands before it. */
export function boundaryWeights(material: FormMaterial): readonly number[] {
  const { score } = material;
  const phrased = phraseWeights(material);
  const marked = markWeights(score);
  const keys = new Set(material.harmony.keys.map((key) => key.barIndex));
  const ringing = ringingEdges(score);
  return score.bars.map((bar, i) => {
    if (i === 0) return 0;
    const before = score.bars[i - 1];
    const printed = before === undefined ? 0 : printedWeight(before, bar);
    return printed + (marked[i] ?? 0) + (phrased[i] ?? 0) + (keys.has(i) ? WEIGHT.newKey : 0) + (ringing.has(i) ? WEIGHT.ringing : 0) + silenceBefore(material, i) + contrast(material.bars, i);
  });
}

/** Bars with which a passage under one pedal, marked to ring on, begins, and what follows it: the bar of the release still belongs to it. */
function ringingEdges(score: Score): ReadonlySet<number> {
  const words = wordedStretches(score).filter((stretch) => stretch.asks === 'ring');
  const rings = printedStretches(score).filter(({ fromTick, toTick }) => words.some((stretch) => stretch.fromTick >= fromTick && stretch.fromTick < toTick));
  return new Set(rings.flatMap(({ fromTick, toTick }) => [barAtTick(score, fromTick).barIndex, barAtTick(score, toTick).barIndex + 1]));
}

/** Bars that begin after a repeat or a double bar: no phrase goes on over these. */
export function hardBoundaries(score: Score): ReadonlySet<number> {
  return new Set(score.bars.filter((bar, i) => i > 0 && lineBetween(score.bars[i - 1], bar) > 0).map((bar) => bar.index));
}

/** Bars before which a repeat, a double bar, a new signature or metre is printed, or a tempo or word that begins a section. */
export function printedBoundaries(score: Score): ReadonlySet<number> {
  const marked = markWeights(score);
  return new Set(score.bars.flatMap((bar, i) => {
    const before = score.bars[i - 1];
    return before !== undefined && (printedWeight(before, bar) > 0 || (marked[i] ?? 0) >= WEIGHT.tempo) ? [bar.index] : [];
  }));
}

/** What is printed between two bars. */
function printedWeight(before: Bar, bar: Bar): number {
  return (
    lineBetween(before, bar) +
    (before.key.fifths === bar.key.fifths ? 0 : WEIGHT.keySignature) +
    (before.time.beats === bar.time.beats && before.time.beatType === bar.time.beatType ? 0 : WEIGHT.metre)
  );
}

/** The bar line itself: a repeat counts most; between two endings of one passage no section begins. */
function lineBetween(before: Bar | undefined, bar: Bar): number {
  if (before === undefined || (before.endings.length > 0 && bar.endings.length > 0)) return 0;
  if (before.endings.length > 0) return WEIGHT.repeat;
  const lines = [...before.barlines.filter((line) => line.location === 'right'), ...bar.barlines.filter((line) => line.location === 'left')];
  if (lines.some((line) => line.repeat !== null)) return WEIGHT.repeat;
  return lines.some((line) => line.style !== null && /^(light-light|light-heavy|heavy)/.test(line.style)) ? WEIGHT.doubleBar : 0;
}

/** Tempo marks and words at the beginning of bars. */
function markWeights(score: Score): readonly number[] {
  const weights = score.bars.map(() => 0);
  const begun = new Set(score.notes.filter((note) => note.staff === 1 && note.slurs.some((slur) => slur.kind === 'start')).map((note) => note.onsetTick));
  for (const direction of score.directions) {
    const bar = score.bars[direction.barIndex];
    if (bar === undefined) continue;
    // a dynamic over the last beat, where a slur begins, belongs to an upbeat and so to the next bar
    const upbeat = direction.kind === 'dynamics' && direction.onsetTick >= bar.startTick + bar.lengthTicks - beatTicks(score, bar) && begun.has(direction.onsetTick);
    if (!upbeat && direction.onsetTick !== bar.startTick) continue;
    const at = bar.index + (upbeat && direction.onsetTick > bar.startTick ? 1 : 0);
    if (at < weights.length) weights[at] = Math.max(weights[at] ?? 0, markWeight(direction));
  }
  return weights;
}

/** One mark. */
function markWeight({ kind, text }: Direction): number {
  if (kind === 'rehearsal' || SECTION_WORDS.test(text)) return WEIGHT.sectionWord;
  if (kind === 'dynamics') return WEIGHT.dynamics;
  return kind === 'tempo' && /[a-z]{4}/i.test(text) && !bendsPace(text) ? WEIGHT.tempo : 0;
}

/** Bars at which a phrase begins, or into which its upbeat leads, with the cadence before. */
function phraseWeights({ score, harmony, phrases }: FormMaterial): readonly number[] {
  const weights = score.bars.map(() => 0);
  const cadences = new Map(harmony.cadences.map((cadence) => [cadence.tick, cadence.kind]));
  phrases.forEach((phrase, i) => {
    const first = firstBarOf(score, phrase);
    const closed = phrases[i - 1];
    if (first === null || closed === undefined) return;
    const cadence = cadences.get(closed.to.tick);
    weights[first] = WEIGHT.phrase + (breathes(score, phrase) ? WEIGHT.breath : 0) + (cadence === undefined ? 0 : cadence === 'perfect' ? WEIGHT.perfect : WEIGHT.otherCadence);
  });
  return weights;
}

/** Whether the upper stave rests right before a phrase. */
function breathes(score: Score, { from }: Phrase): boolean {
  const upper = score.notes.filter((note) => note.staff === 1 && !note.cue && note.barIndex >= from.barIndex - 1 && note.onsetTick < from.tick);
  return upper.length > 0 && upper.every((note) => note.onsetTick + note.lengthTicks < from.tick);
}

/** The first whole bar of a phrase: the next bar where it begins in the later half of one. Null past the end. */
export function firstBarOf(score: Score, phrase: Phrase): number | null {
  const bar = score.bars[phrase.from.barIndex];
  if (bar === undefined) return null;
  const into = phrase.from.tick - bar.startTick;
  const index = into > 0 && 2 * into >= bar.lengthTicks ? bar.index + 1 : bar.index;
  return index < score.bars.length ? index : null;
}

/** A general rest at the end of the bar before. */
function silenceBefore({ score, bars }: FormMaterial, at: number): number {
  const bar = score.bars[at];
  if (bar === undefined || (bars[at - 1]?.sounds.length ?? 0) === 0) return bar === undefined ? 0 : WEIGHT.silence;
  const sounding = score.notes.some((note) => note.barIndex === at - 1 && !note.cue && note.onsetTick + note.lengthTicks >= bar.startTick);
  return sounding ? 0 : WEIGHT.silence;
}

/** How differently the next few bars move from the last few: onsets and harmony, 0 to the full weight. */
function contrast(bars: readonly BarContent[], at: number): number {
  const pairs: number[] = [];
  for (let i = 1; i <= WINDOW; i++) {
    for (let j = 0; j < WINDOW; j++) {
      const [before, after] = [bars[at - i], bars[at + j]];
      if (before === undefined || after === undefined) continue;
      pairs.push((3 * common(before.onsets, after.onsets, 0) + commonRoots(before.roots, after.roots, 0)) / 4);
    }
  }
  return pairs.length === 0 ? 0 : WEIGHT.contrast * (1 - pairs.reduce((sum, pair) => sum + pair, 0) / pairs.length);
}
