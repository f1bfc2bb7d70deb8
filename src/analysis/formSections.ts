/*
 * Question: which sections has the piece, and which of them return?
 * Conventions: letters in order of appearance; A' is a varied return of A, a letter without a stroke an exact one.
 * Method: a section that runs along an earlier one from its first bars on, note for note or transposed, or over the same roots between double bars
 *   (a variation), takes its letter. A short first section that never returns and only leads in is an introduction; a short last
 *   one, or what a last return has beyond its model, is a coda.
 * Source: common practice in teaching form (references in the docstrings); thresholds are our own rule.
 * What it does not tell: functions such as transition or development.
 */
import type { Score } from '../score/index.js';
import type { BarContent } from './formBars.js';
import { sectionStarts } from './formBoundaries.js';
import { changesOf, isExact, shiftOf } from './formChanges.js';
import { hardBoundaries, printedBoundaries, type FormMaterial } from './formEvidence.js';
import { commonRoots, likenessAt } from './formLikeness.js';
import { ALIKE, type Return } from './formReturns.js';
import type { Change, Section, SectionRole } from './formTypes.js';

/** A return runs along its model for at least this share of the shorter of both; `>=`. */
const LEAST_COVERED = 0.4;

/** In another key a return has to be plainer; `>=`. */
const ALIKE_TRANSPOSED = 0.65;

/** Nobody doubts a return whose first bars, so many, are this much alike; `>=`. */
const CLEAR_BARS = 3;
const CLEARLY_ALIKE = 0.8;

/** A variation keeps at least this share of its model's roots; `>=`. */
const SAME_ROOTS = 0.6;

/** An introduction is at most this share of the piece, a coda at most that. */
const LONGEST_INTRODUCTION = 1 / 6;
const LONGEST_CODA = 0.15;

/** What a last return has beyond its model is a coda from this many bars on. */
const LEAST_CODA = 3;

/** A stretch of bars that will be a section. */
interface Stretch {
  readonly fromBar: number;
  readonly toBar: number;
  /** What a last return had beyond its model. */
  readonly beyond?: boolean;
}

/** All sections; one for a piece that cannot be divided, none for one without notes. */
export function findSections(material: FormMaterial, returns: readonly Return[]): readonly Section[] {
  const { score, bars } = material;
  if (!bars.some((bar) => bar.sounds.length > 0)) return [];
  const found = stretchesOf(score, sectionStarts(material, returns));
  const returning = modelsOf(material, found).some((model) => model !== null);
  const stretches = withCoda(material, returning ? found : stretchesOf(score, printedStarts(score, found)));
  const models = modelsOf(material, stretches);
  const roles = stretches.map((_, i) => roleOf(score, stretches, { models, at: i }));
  return assemble(material, { stretches, models, roles });
}

/** Where nothing returns, only what is printed divides a piece. */
function printedStarts(score: Score, stretches: readonly Stretch[]): readonly number[] {
  const printed = printedBoundaries(score);
  return stretches.map((stretch) => stretch.fromBar).filter((bar, i) => i === 0 || printed.has(bar));
}

/** Stretches from one start to the next. */
function stretchesOf(score: Score, starts: readonly number[]): readonly Stretch[] {
  return starts.map((fromBar, i) => ({ fromBar, toBar: (starts[i + 1] ?? score.bars.length) - 1 }));
}

/** Bars of a stretch as they sound the last time through: of several endings only the last. */
export function soundingBars(score: Score, { fromBar, toBar }: Stretch): readonly number[] {
  const bars = score.bars.slice(fromBar, toBar + 1);
  const lastEnding = bars.flatMap((bar) => bar.endings).reduce((last, ending) => Math.max(last, ending), 0);
  return bars.filter((bar) => bar.endings.length === 0 || bar.endings.includes(lastEnding)).map((bar) => bar.index);
}

/** For every stretch the earlier one that it returns, at the root of its letter, or null. */
function modelsOf(material: FormMaterial, stretches: readonly Stretch[]): readonly (number | null)[] {
  const models: (number | null)[] = [];
  stretches.forEach((_, at) => {
    let best = { model: -1, share: LEAST_COVERED };
    for (let earlier = 0; earlier < at; earlier++) {
      if (!hasTune(material, stretches[earlier]) || !hasTune(material, stretches[at])) continue;
      const share = covered(material, stretches, { earlier, at });
      if (share > best.share || (share === best.share && best.model < 0)) best = { model: earlier, share };
    }
    models.push(best.model < 0 ? null : (models[best.model] ?? best.model));
  });
  return models;
}

/** Whether the upper stave has notes in a stretch; a lone accompaniment is no model of anything. */
function hasTune({ bars }: FormMaterial, stretch: Stretch | undefined): boolean {
  return stretch !== undefined && bars.slice(stretch.fromBar, stretch.toBar + 1).some((bar) => bar.right.length > 0);
}

/** The share of bars along which two stretches agree from their beginnings on. */
function covered(material: FormMaterial, stretches: readonly Stretch[], { earlier, at }: { readonly earlier: number; readonly at: number }): number {
  const [model, stretch] = [stretches[earlier], stretches[at]];
  if (model === undefined || stretch === undefined) return 0;
  const sides = { first: soundingBars(material.score, model), second: soundingBars(material.score, stretch) };
  const shift = shiftOf(material.bars, sides);
  const pairs = sides.first.slice(0, sides.second.length).map((bar, i) => [material.bars[bar], material.bars[sides.second[i] ?? -1]] as const);
  const alike = pairs.map(([a, b]) => (a === undefined || b === undefined ? 0 : likenessAt(a, b, { shift })));
  const least = shift % 12 === 0 ? ALIKE : ALIKE_TRANSPOSED;
  const begins = alike.slice(0, 2).some((share) => share >= least);
  const share = begins ? alike.filter((each) => each >= least).length / Math.max(1, alike.length) : 0;
  const clear = alike.length >= CLEAR_BARS && alike.slice(0, CLEAR_BARS).every((each) => each >= CLEARLY_ALIKE) ? LEAST_COVERED : 0;
  return Math.max(share, clear, variationShare(material, [model, stretch], pairs));
}

/** The share of common roots where two stretches of one length stand between double bars; 0 where that is too little. */
function variationShare({ score }: FormMaterial, [model, stretch]: readonly [Stretch, Stretch], pairs: readonly (readonly [BarContent | undefined, BarContent | undefined])[]): number {
  const lines = hardBoundaries(score);
  const sameLength = model.toBar - model.fromBar === stretch.toBar - stretch.fromBar;
  const closed = (one: Stretch): boolean => one.toBar + 1 === score.bars.length || lines.has(one.toBar + 1);
  if (!sameLength || !closed(model) || !closed(stretch) || pairs.length < 4) return 0;
  const roots = pairs.map(([a, b]) => (a === undefined || b === undefined ? 0 : commonRoots(a.roots, b.roots, 0)));
  const mean = roots.reduce((sum, each) => sum + each, 0) / roots.length;
  return mean >= SAME_ROOTS ? mean : 0;
}

/** Cuts off what a last return has beyond its model. */
function withCoda(material: FormMaterial, stretches: readonly Stretch[]): readonly Stretch[] {
  const at = stretches.length - 1;
  const last = stretches[at];
  const modelAt = modelsOf(material, stretches)[at] ?? null;
  const model = modelAt === null ? undefined : stretches[modelAt];
  if (last === undefined || model === undefined) return stretches;
  const sounding = soundingBars(material.score, last);
  const followed = codaFrom(material, { model: soundingBars(material.score, model), last: sounding });
  const tail = sounding[closesIn(material, sounding[followed]) ? followed + 1 : followed];
  const long = tail === undefined ? 0 : last.toBar - tail + 1;
  if (tail === undefined || long < LEAST_CODA || long > material.score.bars.length / 3) return stretches;
  return [...stretches.slice(0, -1), { fromBar: last.fromBar, toBar: tail - 1 }, { fromBar: tail, toBar: last.toBar, beyond: true }];
}

/** Whether the section comes home with a perfect cadence in a bar: that bar is its last, not the first of a coda. */
function closesIn({ harmony }: FormMaterial, bar: number | undefined): boolean {
  return harmony.cadences.some((cadence) => cadence.barIndex === bar && cadence.kind === 'perfect');
}

/** Place, in the last section, from which on it no longer follows its model; the model's length at most. */
function codaFrom({ bars }: FormMaterial, { model, last }: { readonly model: readonly number[]; readonly last: readonly number[] }): number {
  if (last.length < model.length + LEAST_CODA - 1) return last.length;
  const shift = shiftOf(bars, { first: model, second: last });
  const alike = model.map((bar, i) => {
    const [a, b] = [bars[bar], bars[last[i] ?? -1]];
    return a !== undefined && b !== undefined && likenessAt(a, b, { shift }) >= ALIKE;
  });
  const followed = alike.lastIndexOf(true) + 1;
  return model.length - followed <= 1 ? followed : model.length;
}

/** Introduction, coda or section. */
function roleOf(score: Score, stretches: readonly Stretch[], { models, at }: { readonly models: readonly (number | null)[]; readonly at: number }): SectionRole {
  const stretch = stretches[at];
  if (stretch !== undefined && at > 0 && at === stretches.length - 1 && isPrintedCoda(score, stretch)) return 'coda';
  if (stretch === undefined || stretches.length < 3 || models[at] !== null || models.includes(at)) return 'section';
  const share = (stretch.toBar - stretch.fromBar + 1) / score.bars.length;
  if (at === 0 && share <= LONGEST_INTRODUCTION && leadsIn(score, stretch)) return 'introduction';
  if (stretch.beyond === true) return 'coda';
  const returned = models.some((model, i) => model !== null && i < at);
  return at === stretches.length - 1 && share <= LONGEST_CODA && returned ? 'coda' : 'section';
}

/** Whether a first stretch only leads in: no tune yet, or what follows is repeated without it or begins with a tempo of its own. */
function leadsIn(score: Score, { fromBar, toBar }: Stretch): boolean {
  const next = score.bars[toBar + 1];
  const inside = score.bars.slice(fromBar, toBar + 1);
  const tune = score.notes.some((note) => note.staff === 1 && !note.cue && note.barIndex >= fromBar && note.barIndex < toBar);
  const repeatsAfter = next?.barlines.some((line) => line.repeat === 'forward') === true && !inside.some((bar) => bar.barlines.some((line) => line.repeat === 'backward'));
  const tempo = score.directions.some((mark) => mark.barIndex === toBar + 1 && mark.kind === 'tempo' && /^[A-Z][a-z]{3}/.test(mark.text));
  return !tune || repeatsAfter || tempo;
}

/** Whether the page itself says "Coda" over the first bar. */
function isPrintedCoda(score: Score, { fromBar }: Stretch): boolean {
  return score.directions.some((mark) => mark.barIndex === fromBar && (mark.kind === 'coda' || /^codetta|^coda/i.test(mark.text)));
}

/** Everything that is known of the stretches before they become sections. */
interface Plan {
  readonly stretches: readonly Stretch[];
  readonly models: readonly (number | null)[];
  readonly roles: readonly SectionRole[];
}

/** The records, with letters, strokes and changes. */
function assemble(material: FormMaterial, { stretches, models, roles }: Plan): readonly Section[] {
  const { score, bars } = material;
  const sections: Section[] = [];
  stretches.forEach((stretch, index) => {
    const model = models[index] ?? null;
    const role = roles[index] ?? 'section';
    const second = soundingBars(score, stretch);
    const kin = sections.filter((section) => section.index === model || (model !== null && section.returnOf === model));
    const twin = kin.find((section) => isExact(bars, { first: soundingBars(score, section), second }));
    const variant = model === null ? 0 : (twin?.variant ?? 1 + mostVaried(kin));
    const first = model === null ? undefined : stretches[model];
    const changes: readonly Change[] = first === undefined || twin?.variant === 0 ? [] : changesOf(bars, { first: soundingBars(score, first), second });
    const letter = role === 'section' ? (kin[0]?.letter ?? nextLetter(sections)) : '';
    sections.push({ index, role, letter, name: letter === '' ? role : letter, variant, ...stretch, ...ticksOf(score, stretch), lengthBars: second.filter((bar) => !score.bars[bar]?.implicit).length, returnOf: model, changes });
  });
  return sections.map((section) => ({ ...section, name: nameOf(section, sections) }));
}

/** The highest number of a version among some sections. */
function mostVaried(sections: readonly Section[]): number {
  return sections.reduce((most, section) => Math.max(most, section.variant), 0);
}

/** Letters take up to so many strokes; of more versions each has a number. */
const MOST_STROKES = 3;

/** "A", "A'", "A4", "coda". */
function nameOf({ role, letter, variant }: Section, sections: readonly Section[]): string {
  if (role !== 'section') return role;
  const versions = mostVaried(sections.filter((other) => other.letter === letter));
  if (variant === 0) return letter;
  return versions > MOST_STROKES ? `${letter}${variant + 1}` : letter + "'".repeat(variant);
}

/** First and last tick of a stretch. */
function ticksOf(score: Score, { fromBar, toBar }: Stretch): { readonly fromTick: number; readonly toTick: number } {
  const [first, last] = [score.bars[fromBar], score.bars[toBar]];
  return { fromTick: first?.startTick ?? 0, toTick: last === undefined ? 0 : last.startTick + last.lengthTicks };
}

/** The letter after the last one given; after Z come numbers. */
function nextLetter(sections: readonly Section[]): string {
  const given = new Set(sections.map((section) => section.letter).filter((letter) => letter !== '')).size;
  return given < 26 ? String.fromCharCode(65 + given) : `Z${given - 24}`;
}
