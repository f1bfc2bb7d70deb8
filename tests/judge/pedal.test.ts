import { describe, expect, it } from 'vitest';
import { chorale, judged, legato, marked, namesOf, type ChordName, type Movement, type Playing } from './pedalPiece.js';
import { left, right, TICKS, type Written } from '../measure/piece.js';

/** Seconds a crotchet: 150, 100 and 60 to the minute. */
const TEMPI = [0.4, 0.6, 1] as const;

const CHORDS: readonly ChordName[] = ['C', 'F', 'G', 'C', 'Am', 'Dm', 'G', 'C'];
const BARS = CHORDS.length;

/** A case at one tempo. */
type Case = (crotchetS: number) => Omit<Playing, 'crotchetS'>;

/** Keys that leave early, so that the foot alone carries the sound. */
const SHORT_KEYS = (_: unknown, writtenS: number): number => 0.5 * writtenS;

/** The foot leaves out the change at a bar. */
function without(bar: number, foot: readonly Movement[]): readonly Movement[] {
  return foot.filter((one) => one.bar !== bar);
}

/** Another change in its place. */
function instead(bar: number, ...moves: readonly (readonly [afterS: number, value: number])[]): readonly Movement[] {
  return [...without(bar, legato(1, BARS)), ...moves.map(([afterS, value]) => ({ bar, afterS, value }))];
}

const held = chorale(CHORDS, 'held');
const jumping = chorale(CHORDS, 'jumping');
const broken = chorale(CHORDS, 'broken');
const everyBar = CHORDS.map((_, i) => marked(i + 1, i + 1));
const ring = { kind: 'words', text: 'lasciar vibrare', onsetTick: 2 * 4 * TICKS, untilTick: null } as const;

/** Four chords of parallel motion over one low C, one a bar: the manner of the Impressionists. */
const gliding = [[60, 64, 67], [62, 65, 69], [59, 62, 67], [60, 64, 67]].flatMap((chord, i) => [left(i + 1, 1, 36, 4), ...chord.map((pitch) => left(i + 1, 1, pitch, 4)), right(i + 1, 1, (chord[2] ?? 67) + 12, 4)]);

/** A bar of C major whose tune has a foreign note for two crotchets before its own. */
function suspension(bar: number, foreign: number, own: number): readonly Written[] {
  return [left(bar, 1, 36, 4), left(bar, 1, 55, 4), left(bar, 1, 60, 4), left(bar, 1, 64, 4), right(bar, 1, foreign, 2), right(bar, 3, own, 2)];
}

const RIGHT: readonly (readonly [name: string, Case])[] = [
  ['legato pedal, chords held', () => ({ written: held, foot: legato(1, BARS) })],
  ['legato pedal, fingers gone early', () => ({ written: held, foot: legato(1, BARS), keyS: SHORT_KEYS })],
  ['legato pedal, bass left', () => ({ written: jumping, foot: legato(1, BARS), keyS: (_, writtenS) => Math.max(0.35, 0.9 * writtenS) })],
  ['legato pedal, broken chords', () => ({ written: broken, foot: legato(1, BARS) })],
  ['dry', () => ({ written: held, foot: [] })],
  ['dry with detached keys', () => ({ written: jumping, foot: [], keyS: SHORT_KEYS })],
  ['lift 20 ms late', () => ({ written: held, foot: instead(3, [0.04, 0], [0.26, 127]), keyS: SHORT_KEYS })],
  ['lift 50 ms late', () => ({ written: held, foot: instead(3, [0.07, 0], [0.3, 127]), keyS: SHORT_KEYS })],
  ['lift 100 ms late', () => ({ written: held, foot: instead(3, [0.12, 0], [0.35, 127]), keyS: SHORT_KEYS })],
  ['lift 20 ms early', () => ({ written: held, foot: instead(3, [-0.02, 0], [0.26, 127]), keyS: SHORT_KEYS })],
  ['lift 50 ms early', () => ({ written: held, foot: instead(3, [-0.05, 0], [0.26, 127]), keyS: SHORT_KEYS })],
  ['lift 100 ms early', () => ({ written: held, foot: instead(3, [-0.1, 0], [0.26, 127]), keyS: SHORT_KEYS })],
  // the dampers need a tenth (treble) to a quarter (bass) of a second: what is left of two tenths is no hole
  ['lift 200 ms early', () => ({ written: held, foot: instead(3, [-0.2, 0], [0.26, 127]), keyS: SHORT_KEYS })],
  ['lift early, fingers hold', () => ({ written: held, foot: instead(3, [-0.4, 0], [0.26, 127]) })],
  // C major above a held C and G: its F is a suspension over them, resolved to E under the same pedal, from C5 up
  ['a suspension above C5 over a held bass', () => ({ written: [1, 2, 3, 4].flatMap((bar) => suspension(bar, 77, 76)), foot: legato(1, 4), keyS: SHORT_KEYS })],
  ['one bass pedal marked under chords that glide', () => ({ written: gliding, foot: legato(1, 1), keyS: SHORT_KEYS, marks: [marked(1, 4)] })],
  ['one bass pedal under gliding chords, as the teacher plans it', () => ({ written: gliding, foot: legato(1, 1), keyS: SHORT_KEYS, planned: [{ barIndex: 0, offset: 0, kind: 'ring' }] })],
  ['one chord under one pedal', () => ({ written: chorale(['C', 'C', 'C', 'C'], 'jumping'), foot: legato(1, 1), keyS: SHORT_KEYS })],
  ['inversions under one pedal', () => ({ written: chorale(['C', 'C/E', 'C/G', 'C'], 'held'), foot: legato(1, 1), keyS: SHORT_KEYS })],
  ['changed again over the same chord', () => ({ written: chorale(['C', 'C', 'C', 'C'], 'held'), foot: legato(1, 4), keyS: SHORT_KEYS })],
  ['top register under one pedal', () => ({ written: chorale(['C', 'F', 'G', 'C'], 'high').filter(({ pitch }) => pitch >= 89), foot: legato(1, 1), keyS: SHORT_KEYS })],
  ['finger pedalling without foot', (crotchetS) => ({ written: broken, foot: [], keyS: (_, writtenS) => writtenS + 0.8 * crotchetS })],
  ['a lift shorter than a foot can make it', () => ({ written: held, foot: instead(3, [0.01, 0], [0.03, 127]), keyS: SHORT_KEYS })],
  ['half pedal lifts far enough', () => ({ written: held, foot: instead(3, [0.02, 34], [0.4, 110]), keyS: SHORT_KEYS })],
  ['one marked pedal over three harmonies', () => ({ written: held, foot: without(4, without(3, legato(1, BARS))), keyS: SHORT_KEYS, marks: [marked(1, 1), marked(2, 4), ...everyBar.slice(4)] })],
  ['a marked pedal taken in fractions', () => ({ written: held, foot: legato(1, BARS), keyS: SHORT_KEYS, marks: [marked(1, 1), marked(2, 4), ...everyBar.slice(4)] })],
  ['left to ring as marked', () => ({ written: held, foot: without(4, legato(1, BARS)), keyS: SHORT_KEYS, marks: [ring] })],
  ['direct pedal after rests', (crotchetS) => ({ written: held.map((note) => ({ ...note, length: 2 })), foot: CHORDS.flatMap((_, i) => [{ bar: i + 1, afterS: 0, value: 127 }, { bar: i + 1, afterS: 2 * crotchetS, value: 0 }]), keyS: SHORT_KEYS })],
  ['marked in every bar and followed', () => ({ written: held, foot: legato(1, BARS), keyS: SHORT_KEYS, marks: everyBar })],
];

const WRONG: readonly (readonly [name: string, Case, found: readonly string[] | ((crotchetS: number) => readonly string[])])[] = [
  ['held over one change', () => ({ written: held, foot: without(3, legato(1, BARS)), keyS: SHORT_KEYS }), ['blurred 3']],
  ['held over one change, bass left', () => ({ written: jumping, foot: without(3, legato(1, BARS)), keyS: (_, writtenS) => Math.max(0.35, 0.9 * writtenS) }), ['blurred 3']],
  ['held over one change, broken chords', () => ({ written: broken, foot: without(6, legato(1, BARS)) }), ['blurred 6']],
  // after four slow seconds the old chord has faded: at 4.9 dB/s for 12 dB, then a third, its bass to -15 dB, the rest to -20 dB
  ['lift 400 ms late', () => ({ written: held, foot: instead(3, [0.42, 0], [0.65, 127]), keyS: SHORT_KEYS }), (crotchetS) => (crotchetS < 1 ? ['blurred 3'] : [])],
  ['lift 800 ms late', () => ({ written: held, foot: instead(3, [0.82, 0], [1.05, 127]), keyS: SHORT_KEYS }), ['blurred 3']],
  ['never deep enough to clear', () => ({ written: held, foot: instead(3, [0.02, 60], [0.3, 127]), keyS: SHORT_KEYS }), ['blurred 3']],
  ['lift 400 ms early', () => ({ written: held, foot: instead(3, [-0.4, 0], [0.26, 127]), keyS: SHORT_KEYS }), ['gap 3']],
  ['lift 800 ms early', () => ({ written: held, foot: instead(3, [-0.8, 0], [0.26, 127]), keyS: (_, writtenS) => Math.min(0.3 * writtenS, writtenS - 1.1) }), ['gap 3']],
  ['pressed while the old keys are down', () => ({ written: held, foot: instead(3, [-0.3, 0], [0.01, 127]), keyS: ({ bar }, writtenS) => (bar === 2 ? writtenS + 0.12 : writtenS) }), ['caught 3']],
  ['hardly lifted', () => ({ written: held, foot: instead(3, [0.01, 0], [0.09, 127]), keyS: SHORT_KEYS }), ['caught 3']],
  ['bass gone before the pedal', () => ({ written: jumping, foot: [...legato(1, 2), ...legato(3, 3, { pressS: 0.6 }), ...legato(4, BARS)], keyS: ({ bar }) => (bar === 3 ? 0.25 : 0.38), marks: everyBar }), ['bassNotCaught 3']],
  ['not used in one marked bar', () => ({ written: held, foot: [...legato(1, 2), { bar: 3, afterS: 0.02, value: 0 }, ...without(4, legato(4, BARS)), { bar: 4, afterS: 0.26, value: 127 }], marks: everyBar }), ['notUsed 3']],
  ['cut where it should ring', () => ({ written: held, foot: [...legato(1, BARS), { bar: 3, afterS: 0.9, value: 0 }, { bar: 3, afterS: 1.2, value: 127 }], keyS: (_, writtenS) => Math.min(0.7, 0.5 * writtenS), marks: [ring] }), ['notRinging 3']],
  ['never lifted', () => ({ written: held, foot: [{ bar: 1, afterS: 0.26, value: 127 }], keyS: SHORT_KEYS }), ['neverLifted 2', 'neverLifted 3', 'neverLifted 4', 'neverLifted 5', 'neverLifted 6', 'neverLifted 7', 'neverLifted 8']],
];

describe.each(TEMPI)('a crotchet of %d s', (crotchetS) => {
  it.each(RIGHT)('right, and silent: %s', (_, of) => {
    expect(namesOf(judged({ ...of(crotchetS), crotchetS }))).toEqual([]);
  });

  it.each(WRONG)('%s', (_, of, found) => {
    expect(namesOf(judged({ ...of(crotchetS), crotchetS }))).toEqual(typeof found === 'function' ? found(crotchetS) : found);
  });
});

// at a crotchet of a second each chord has four of them to fade in, and what is left lies about at the threshold
it.each([0.4, 0.6])('chords that glide over one bass, under one pedal that nobody asks for, are blurred: a crotchet of %d s', (crotchetS) => {
  expect(namesOf(judged({ written: gliding, foot: legato(1, 1), keyS: SHORT_KEYS, crotchetS }))).toEqual(['blurred 2', 'blurred 3', 'blurred 4']);
});

/** C major, loud, for three crotchets of each bar, and G major, softer, for the fourth; the foot changes at the bar lines alone. */
const quickDominant = [1, 2, 3, 4].flatMap((bar) => [
  ...[36, 55, 60, 64].map((pitch) => ({ ...left(bar, 1, pitch, 3), velocity: 110 })), right(bar, 1, 76, 3), ...[43, 55, 59, 62].map((pitch) => left(bar, 4, pitch, 1)), right(bar, 4, 74, 1),
]);

// a foot needs about a third of a second from one change to the next
it.each([[0.33, false], [0.4, true]])('a harmony of %d s under the pedal of the one before is blurred: %s', (crotchetS, said) => {
  expect(namesOf(judged({ written: quickDominant, foot: legato(1, 4, { pressS: 0.2 }), keyS: SHORT_KEYS, crotchetS })).some((name) => name.startsWith('blurred'))).toBe(said);
});
