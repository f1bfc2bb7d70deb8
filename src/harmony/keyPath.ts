/*
 * Question: which keys does the piece go through, bar by bar?
 * Conventions: keys by number (0-11 major, 12-23 minor); one state a bar; bars without notes take their neighbours'.
 * Method: likelihood of the pitch classes that occur in each bar (profile of presence), and, once harmonies are known, how much each
 *   key expects them; best path with a fixed price for leaving a key, less for near ones. The signature's two keys are
 *   favoured a little, everywhere. A stretch in which the tonic never comes goes to its relative, if that one's does.
 * Source: Temperley 2007, Music and Probability, chapter 6 (segments, presence profile, change of key); the use of
 *   harmonies and of the signature is our own.
 * What it does not tell: keys touched for less than about a bar; those are applied dominants.
 */
import { firstIndex } from '../base/index.js';
import type { Score } from '../score/index.js';
import { allChordCharges } from './expectations.js';
import type { Cell } from './grid.js';
import type { SoundingNote } from './notes.js';
import { mod } from './pitchNames.js';
import { KEY_COUNT, keyLikelihoods, keyNumber, modeOf, tonicOf } from './profiles.js';
import type { Segment } from './segment.js';
import { CHORDS } from './templates.js';

/** Price of a change of key, in units of log-likelihood: about three bars of clearly better fit. */
const CHANGE_PRICE = 7;

/** What a change between keys not nearly related costs more. */
const FAR_PRICE = 2;

/** How much a bar favours the two keys of the signature in force, log-likelihood. */
const SIGNATURE_FAVOUR = 0.35;

/** How much the harmonies of a bar count beside its notes: a stranger chord is as bad as one strange note. */
const HARMONY_WEIGHT = 1.5;

/** What it counts for a key that its dominant goes to its tonic in a bar: the surest sign of a key. */
const CADENCE_CREDIT = 1;

/** What the signature's two keys are favoured by at the start, where nothing else is known. */
const START_FAVOUR = 3;

/** What it counts for a key that its tonic chord is the first or the last harmony of the piece. */
const FRAME_CREDIT = 1.5;

/** The key of every bar, as far as notes (and harmonies, where given) tell it. */
export function keyOfBars(score: Score, notes: readonly SoundingNote[], found?: FoundHarmony): readonly number[] {
  const fits = score.bars.map((bar) => {
    const likelihoods = barLikelihoods(notes, bar.startTick, bar.startTick + bar.lengthTicks);
    const favour = SIGNATURE_FAVOUR + (bar.index === 0 ? START_FAVOUR : 0);
    return likelihoods.map((value, key) => value + (inSignature(key, bar.key.fifths) ? favour : 0));
  });
  if (found !== undefined) {
    addHarmonies(fits, found);
    addFrame(fits, found);
  }
  const path = bestPath(fits);
  return found === undefined ? path : withTonics(path, found);
}

/** Harmonies as first found, which tell more of the key. */
export interface FoundHarmony {
  readonly cells: readonly Cell[];
  readonly segments: readonly Segment[];
}

/** Whether a key is one of the two that a signature stands for. */
export function inSignature(key: number, fifths: number): boolean {
  return tonicOf(key) === mod(7 * fifths + (modeOf(key) === 'minor' ? 9 : 0), 12);
}

/** Likelihood of the pitch classes that sound within [from, to); all 0 in silence. */
function barLikelihoods(notes: readonly SoundingNote[], from: number, to: number): readonly number[] {
  const present = new Array<boolean>(12).fill(false);
  for (let i = firstFrom(notes, from); i < notes.length; i += 1) {
    const note = notes[i];
    if (note === undefined || note.onset >= to) break;
    present[note.pc] = true;
  }
  return present.includes(true) ? keyLikelihoods(present) : new Array<number>(KEY_COUNT).fill(0);
}

/** First note at or after a tick. */
function firstFrom(notes: readonly SoundingNote[], tick: number): number {
  return firstIndex(notes.length, (i) => (notes[i]?.onset ?? 0) >= tick);
}

/** Takes off what each key finds strange in the harmonies of each bar, by the share of the bar they last. */
function addHarmonies(fits: readonly number[][], { cells, segments }: FoundHarmony): void {
  const charges = allChordCharges();
  segments.forEach(({ fromCell, toCell, chord }, i) => {
    const home = resolvesTo(segments[i - 1]?.chord ?? -1, chord);
    const bar = fits[cells[fromCell]?.barIndex ?? -1];
    if (home !== null && bar !== undefined) bar[home] = (bar[home] ?? 0) + CADENCE_CREDIT;
    for (let at = fromCell; at < toCell; at += 1) {
      const cell = cells[at];
      const row = cell === undefined ? undefined : fits[cell.barIndex];
      if (cell === undefined || row === undefined) continue;
      const share = Math.min(1, (cell.to - cell.from) / cell.beat) * HARMONY_WEIGHT;
      for (let key = 0; key < KEY_COUNT; key += 1) row[key] = (row[key] ?? 0) - share * (charges[key]?.[chord] ?? 0);
    }
  });
}

/** Credits the keys whose tonic chords frame the piece. */
function addFrame(fits: readonly number[][], { cells, segments }: FoundHarmony): void {
  for (const segment of [segments[0], segments.at(-1)]) {
    const row = fits[cells[segment?.fromCell ?? -1]?.barIndex ?? -1];
    const quality = CHORDS[segment?.chord ?? -1]?.template.quality;
    if (segment === undefined || row === undefined) continue;
    // a major triad may close a piece in minor
    if (quality === 'major' || quality === 'minor') {
      const keys = quality === 'minor' ? [12] : segment === segments[0] ? [0] : [0, 12];
      for (const mode of keys) row[(segment.chord % 12) + mode] = (row[(segment.chord % 12) + mode] ?? 0) + FRAME_CREDIT;
    }
  }
}

/** Bars in a key whose tonic triad never comes, but whose relative's does, given to the relative. */
function withTonics(path: readonly number[], { cells, segments }: FoundHarmony): readonly number[] {
  const tonics: (readonly [bar: number, key: number])[] = segments.flatMap(({ fromCell, chord }) => {
    const key = tonicTriad(chord);
    const bar = cells[fromCell]?.barIndex;
    return key === null || bar === undefined ? [] : [[bar, key] as const];
  });
  const heard = path.map((): Set<number> => new Set());
  for (const [bar, key] of tonics) heard[bar]?.add(key);
  const runStarts = path.map((key, bar) => bar === 0 || path[bar - 1] !== key).flatMap((starts, bar) => (starts ? [bar] : []));
  return runStarts.flatMap((from, i) => {
    const run = path.slice(from, runStarts[i + 1] ?? path.length);
    const [key = 0] = run;
    const comes = (wanted: number): boolean => heard.slice(from, from + run.length).some((keys) => keys.has(wanted));
    return comes(key) || !comes(relativeOf(key)) ? run : run.map(() => relativeOf(key));
  });
}

/** The key of the other mode with the same signature. */
function relativeOf(key: number): number {
  return modeOf(key) === 'major' ? keyNumber(mod(tonicOf(key) + 9, 12), 'minor') : keyNumber(mod(tonicOf(key) + 3, 12), 'major');
}

/** The key of which a chord is the tonic triad, or null. */
function tonicTriad(chord: number): number | null {
  const quality = CHORDS[chord]?.template.quality;
  if (quality === 'major') return keyNumber(chord % 12, 'major');
  return quality === 'minor' ? keyNumber(chord % 12, 'minor') : null;
}

/** The key whose dominant seventh or dominant triad goes to its tonic here, or null. */
function resolvesTo(before: number, chord: number): number | null {
  const from = CHORDS[before]?.template.quality;
  const to = CHORDS[chord]?.template.quality;
  if ((from !== 'major' && from !== 'dominantSeventh') || mod((chord % 12) - (before % 12), 12) !== 5) return null;
  if (to === 'major') return from === 'dominantSeventh' ? chord % 12 : null;
  return to === 'minor' ? (chord % 12) + 12 : null;
}

/** Best path through keys. */
function bestPath(fits: readonly (readonly number[])[]): readonly number[] {
  const cameFrom: number[][] = [];
  let best = new Array<number>(KEY_COUNT).fill(0);
  for (const fit of fits) {
    const next: number[] = [];
    const from: number[] = [];
    for (let key = 0; key < KEY_COUNT; key += 1) {
      let old = key;
      for (let other = 0; other < KEY_COUNT; other += 1)
        if ((best[other] ?? 0) - changePrice(other, key) > (best[old] ?? 0) - changePrice(old, key)) old = other;
      from.push(old);
      next.push((best[old] ?? 0) - changePrice(old, key) + (fit[key] ?? 0));
    }
    cameFrom.push(from);
    best = next;
  }
  let key = best.indexOf(Math.max(...best));
  return fits.map((_, i) => i).reverse().map((i) => {
    const here = key;
    key = cameFrom[i]?.[key] ?? key;
    return here;
  }).reverse();
}

/** Price of going from one key to another; near are those whose signatures differ by one step at most. */
function changePrice(from: number, to: number): number {
  if (from === to) return 0;
  const signature = (key: number): number => mod(7 * (tonicOf(key) + (modeOf(key) === 'minor' ? 3 : 0)), 12);
  const apart = mod(signature(from) - signature(to), 12);
  return CHANGE_PRICE + (Math.min(apart, 12 - apart) <= 1 ? 0 : FAR_PRICE);
}
