/**
 * A long piano piece for timing, made from a seed: a tune over broken or struck chords, in phrases of eight bars, of
 * which about two in five are played again later, so that there is much alike to be mistaken for one another.
 * It is music for machines; nobody need hear it.
 */
import { seededRandom, type Random } from '../../src/base/index.js';
import type { Piece, WrittenBar } from '../../src/demo/index.js';
import { parseHand } from '../../src/demo/notation.js';

/** Bars of a phrase. */
const PHRASE_BARS = 8;
/** How often a phrase is an earlier one again. */
const REUSE = 0.4;

const TUNE = ['C5', 'D5', 'E5', 'F5', 'G5', 'A5', 'B5', 'C6', 'D6', 'E6'] as const;
const CHORDS = [['C3', 'G3', 'C4', 'E4'], ['D3', 'A3', 'D4', 'F4'], ['E3', 'B3', 'E4', 'G4'], ['F3', 'A3', 'C4', 'F4'], ['G2', 'G3', 'B3', 'D4'], ['A2', 'E3', 'A3', 'C4']] as const;
const RHYTHMS = [['8', '8', '8', '8', '8', '8', '8', '8'], ['4', '8', '8', '4', '8', '8'], ['8.', '16', '8', '8', '4', '4'], ['16', '16', '16', '16', '4', '8', '8', '4'], ['2', '4', '8', '8']] as const;

type Hands = Pick<WrittenBar, 'right' | 'left'>;

/** A piece of at least `notes` written notes, whole bars. */
export function texture(notes: number, seed: number): Piece {
  const random = seededRandom(seed);
  const phrases: (readonly Hands[])[] = [];
  const hands: Hands[] = [];
  for (let count = 0; count < notes; ) {
    const old = phrases.length > 0 && random() < REUSE ? phrases[Math.floor(random() * phrases.length)] : undefined;
    const phrase = old ?? newPhrase(random);
    if (!old) phrases.push(phrase);
    for (const bar of phrase) {
      if (count >= notes) break;
      hands.push(bar);
      count += countNotes(bar);
    }
  }
  return pieceOf(hands);
}

/** Written notes of a bar. */
export function countNotes(bar: Hands): number {
  return [...parseHand(bar.right), ...parseHand(bar.left)].reduce((sum, event) => sum + event.pitches.length, 0);
}

function newPhrase(random: Random): readonly Hands[] {
  const place = { at: Math.floor(random() * TUNE.length) };
  return Array.from({ length: PHRASE_BARS }, () => ({ right: tune(random, place), left: accompaniment(random) }));
}

/** A tune that moves by steps and small leaps. */
function tune(random: Random, place: { at: number }): string {
  return pick(RHYTHMS, random).map((value) => {
    place.at = Math.min(TUNE.length - 1, Math.max(0, place.at + Math.floor(random() * 5) - 2));
    return `${TUNE[place.at] ?? 'C5'}:${value}`;
  }).join(' ');
}

/** Two chords a bar, broken in quavers or struck in crotchets. */
function accompaniment(random: Random): string {
  const broken = random() < 0.6;
  return [pick(CHORDS, random), pick(CHORDS, random)].map(([bass, low, middle, top]) =>
    broken ? `${bass}:8 ${low}:8 ${middle}:8 ${top}:8` : `${bass}:4 ${low}+${middle}+${top}:4`,
  ).join(' ');
}

function pick<T>(choices: readonly [T, ...T[]] | readonly T[], random: Random): T {
  const choice = choices[Math.floor(random() * choices.length)];
  if (choice === undefined) throw new RangeError('nothing to choose from');
  return choice;
}

function pieceOf(hands: readonly Hands[]): Piece {
  const bars = hands.map((bar, i) => ({ ...bar, number: String(i), harmony: [], marks: [], repeat: null, ending: null }));
  const phrases = Array.from({ length: Math.ceil(hands.length / PHRASE_BARS) }, (_, i) => [i * PHRASE_BARS, i * PHRASE_BARS + PHRASE_BARS - 1] as const);
  return { slug: 'bench', title: 'Bench', fifths: 0, mode: 'major', beats: 4, beatType: 4, tempoWord: 'Moderato', beatUnit: 'quarter', perMinute: 96, bars, phrases };
}
