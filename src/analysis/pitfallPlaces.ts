/**
 * The question: what will trip a pupil in this piece, likeliest and worst first?
 * Conventions: weights 0-1, descending; what occurs in several places is one pitfall with places in order of the score, neighbouring bars
 * joined.
 * Method: every finder drafts; drafts are weighed (pitfallWeights.ts). Then they are taken from the heaviest down: a second one of
 * a kind counts less, so that ten pitfalls are not ten jumps, and one whose bars a heavier one of its family already has is
 * left out.
 * It does not know the pupil: size of hand and experience are for the teacher to add.
 */
import { spokenIn, type Language } from '../base/index.js';
import type { HarmonyAnalysis } from '../harmony/index.js';
import type { Score } from '../score/index.js';
import { findBeatPlaces } from './beatPlaces.js';
import { findHandPlaces } from './handPlaces.js';
import { handLines } from './handLines.js';
import { accidentalPitfalls } from './pitfallAccidentals.js';
import { entryPitfalls } from './pitfallEntries.js';
import { fingerPitfalls } from './pitfallFingers.js';
import { holdingPitfalls } from './pitfallHolding.js';
import { metrePitfalls } from './pitfallMetre.js';
import { reachPitfalls } from './pitfallReach.js';
import { returnPitfalls } from './pitfallReturns.js';
import { rhythmPitfalls } from './pitfallRhythm.js';
import { signaturePitfalls } from './pitfallSignature.js';
import { tempoPitfalls } from './pitfallTempo.js';
import { touchPitfalls } from './pitfallTouches.js';
import { travelPitfalls } from './pitfallTravel.js';
import type { Pitfall, PitfallDraft, PitfallGround } from './pitfallTypes.js';
import { draftWeight, KIND_WEIGHTS } from './pitfallWeights.js';
import { spansOf } from './teachingNotesBars.js';
import { hasNoBarLines } from './teachingNotesLimits.js';

/** Most pitfalls unless asked for more or fewer: what fits a page and a lesson. */
const MOST = 10;

/** What a further pitfall of a kind keeps of its weight. */
const FURTHER_OF_A_KIND = 0.8;

/** Lighter pitfalls (exclusive) are dull: they are true and nobody needs to be told. */
const LEAST_WEIGHT = 0.3;

/** From this share of its bars on (inclusive) a pitfall is covered by a heavier one of its family. */
const COVERED = 0.6;

/** Options of findPitfalls. */
export interface PitfallOptions {
  /** Adds what only the harmony tells: basses to catch, leading notes in ornaments. */
  readonly harmony?: HarmonyAnalysis;
  /** How many at most, 0 or more; ten where left out. */
  readonly most?: number;
  /** British where left out. */
  readonly language?: Language;
}

/**
 * What is likely to trip a pupil, from the score alone; none for a score without notes.
 * @throws RangeError for a negative or broken number
 */
export function findPitfalls(score: Score, options: PitfallOptions = {}): readonly Pitfall[] {
  const { harmony, most = MOST, language = 'british' } = options;
  if (!Number.isInteger(most) || most < 0) throw new RangeError('the number of pitfalls must be a whole number, 0 or more');
  if (score.occurrences.length === 0) return [];
  const hands = findHandPlaces(score, harmony === undefined ? {} : { harmony });
  const ground = { score, lines: handLines(score), beats: hasNoBarLines(score) ? [] : findBeatPlaces(score, { language }), hands, harmony: harmony ?? null, language };
  const weighed = drafts(ground).map((draft) => asPitfall(score, draft, language));
  return chosen(weighed, most);
}

/** Everything that the finders draft. */
function drafts(ground: PitfallGround): readonly PitfallDraft[] {
  const finders = [
    entryPitfalls, holdingPitfalls, metrePitfalls, rhythmPitfalls, reachPitfalls, travelPitfalls, fingerPitfalls, accidentalPitfalls,
    signaturePitfalls, returnPitfalls, touchPitfalls, tempoPitfalls,
  ];
  return finders.flatMap((find) => find(ground));
}

/** A draft with its weight and its places joined. */
function asPitfall(score: Score, draft: PitfallDraft, language: Language): Pitfall {
  const inLanguage = (text: string): string => spokenIn(text, language);
  const number = (bar: number): string => score.bars[bar]?.number ?? '';
  const bars = draft.spots.flatMap(({ fromBar, toBar }) => Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i));
  const places = spansOf(bars).map(({ fromBar, toBar }) => ({ bars: [number(fromBar), number(toBar)] as const, fromBar, toBar }));
  const { kind, hand, sentence, practise, counting = null } = draft;
  const [first] = places;
  return { kind, hand, bars: first?.bars ?? ['', ''], places, weight: draftWeight(draft, places.length), sentence: inLanguage(sentence), practise: inLanguage(practise), counting };
}

/** The heaviest, with fewer of a kind and none twice over. */
function chosen(all: readonly Pitfall[], most: number): readonly Pitfall[] {
  const kept: Pitfall[] = [];
  const left = [...all];
  while (kept.length < most && left.length > 0) {
    const lessened = left.map((one) => ({ one, weight: one.weight * FURTHER_OF_A_KIND ** kept.filter((other) => other.kind === one.kind).length }));
    const best = lessened.reduce((a, b) => (b.weight > a.weight ? b : a));
    left.splice(left.indexOf(best.one), 1);
    if (best.weight < LEAST_WEIGHT) break;
    if (!isCovered(best.one, kept)) kept.push({ ...best.one, weight: best.weight });
  }
  return kept;
}

/** Families in which one hand's pitfall speaks for the other hand, too. */
const ONE_FOR_BOTH_HANDS: ReadonlySet<string> = new Set(['memory', 'rhythm']);

/** Whether a heavier pitfall of the same family already has most of these bars, for the same hand or for both. */
function isCovered(one: Pitfall, kept: readonly Pitfall[]): boolean {
  const { family } = KIND_WEIGHTS[one.kind];
  const sameHands = (other: Pitfall): boolean => other.hand === one.hand || other.hand === 'both' || one.hand === 'both' || ONE_FOR_BOTH_HANDS.has(family);
  const relatives = kept.filter((other) => KIND_WEIGHTS[other.kind].family === family && sameHands(other));
  const taken = new Set(relatives.flatMap(barsOf));
  const bars = barsOf(one);
  // a tie stands at the bar that it leads into; what is said of the bar before covers it
  const has = (bar: number): boolean => taken.has(bar) || (one.kind === 'tieAcross' && taken.has(bar - 1));
  return bars.filter(has).length >= COVERED * bars.length;
}

/** All bars of a pitfall. */
function barsOf({ places }: Pitfall): readonly number[] {
  return places.flatMap(({ fromBar, toBar }) => Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i));
}
