/**
 * "Rowing Home", a barcarolle in A minor written for the demo room: A (1-8), B (9-16, towards C major over a falling
 * bass), A' (17-23, turned aside by an interrupted cadence) and a coda (24-30) that comes to rest over a plagal turn.
 * The left hand strikes a low bass and leaves it for a figure that it cannot reach from there: only the pedal keeps
 * the bass, so it has to be caught.
 */
import type { Mark, Piece, WrittenBar } from './piece.js';

/** Half of a 6/8 bar, in divisions. */
const HALF = 6;

const dynamics = (text: 'pp' | 'p' | 'mf' | 'f', at = 0): Mark => ({ kind: 'dynamics', at, text });
const hairpin = (type: 'crescendo' | 'diminuendo' | 'stop', at: number): Mark => ({ kind: 'hairpin', at, type });
const pedal = (type: 'start' | 'change' | 'stop', at = 0): Mark => ({ kind: 'pedal', at, type });
const words = (text: string, at = 0): Mark => ({ kind: 'words', at, text });

/** Left hand: bass and three upper notes, up and down again. */
const rock = (bass: string, low: string, middle: string, top: string): string =>
  [bass, low, middle, top, middle, low].map((pitch) => `${pitch}:8`).join(' ');

/** Left hand of two harmonies a bar, three quavers each. */
const halves = (first: readonly string[], second: readonly string[]): string =>
  [...first, ...second].map((pitch) => `${pitch}:8`).join(' ');

const A_MINOR = rock('A2', 'E3', 'A3', 'C4');
const D_MINOR = rock('D2', 'F3', 'A3', 'D4');
const E_SEVENTH = rock('E2', 'E3', 'G#3', 'D4');
const CADENCE = halves(['D2', 'F3', 'D4'], ['E2', 'E3', 'D4']);

/** A bar: harmony as text, "Dm E7" for two in a bar; the pedal changes with each unless `marks` say otherwise. */
function bar(number: number, harmony: string, hands: readonly [right: string, left: string], marks: readonly Mark[] = []): WrittenBar {
  const chords = harmony.split(' ').map((chord, i) => [i * HALF, chord] as const);
  const feet = marks.some((mark) => mark.kind === 'pedal') ? [] : chords.map(([at]) => pedal('change', at));
  return { number: String(number), right: hands[0], left: hands[1], harmony: chords, marks: [...marks, ...feet], repeat: null, ending: null };
}

const bars: readonly WrittenBar[] = [
  { number: '0', right: 'E4:8(', left: 'r:8', harmony: [], marks: [dynamics('p')], repeat: null, ending: null },
  bar(1, 'Am', ['A4:4 B4:8 C5:4 D5:8', A_MINOR], [pedal('start')]),
  bar(2, 'Am', ['E5:4.) C5:4( A4:8', A_MINOR]),
  bar(3, 'Dm', ['F5:4 E5:8 F5:4 D5:8', D_MINOR]),
  bar(4, 'E7', ['E5:4 D5:8 B4:4) E4:8(', E_SEVENTH]),
  bar(5, 'Am', ['A4:4 B4:8 C5:4 E5:8', A_MINOR], [hairpin('crescendo', 2), hairpin('stop', 11), pedal('change')]),
  bar(6, 'F', ['A5:4 G5:8 A5:4 F5:8', rock('F2', 'F3', 'A3', 'C4')], [hairpin('diminuendo', 4), pedal('change')]),
  bar(7, 'Dm E7', ['D5:4 C5:8 B4:4 G#4:8', CADENCE], [hairpin('stop', 10), pedal('change'), pedal('change', HALF)]),
  bar(8, 'Am', ['A4:4.) r:4 G4:8(', A_MINOR]),
  bar(9, 'C', ['E5:4 F5:8 G5:4 E5:8', rock('C3', 'E3', 'G3', 'C4')], [dynamics('mf'), pedal('change')]),
  bar(10, 'G7/B', ['D5:4 E5:8 D5:4) G4:8(', rock('B2', 'D3', 'F3', 'G3')]),
  bar(11, 'Am', ['E5:4 D5:8 C5:4 D5:8', A_MINOR]),
  bar(12, 'Em', ['B4:4 C5:8 B4:4) E5:8(', rock('E2', 'E3', 'G3', 'B3')]),
  bar(13, 'F', ['A4+F5:4 G5:8 C5+A5:4 F5:8', rock('F2', 'C3', 'A3', 'C4')], [hairpin('crescendo', 2), pedal('change')]),
  bar(14, 'C/E', ['C5+G5:4 F5:8 E5:4) C5:8(', rock('E2', 'C3', 'G3', 'C4')], [hairpin('stop', 10), pedal('change')]),
  bar(15, 'Dm', ['A4+F5:4 E5:8 F5:4 D5:8', D_MINOR], [dynamics('f'), pedal('change')]),
  bar(16, 'E7', ['B4+E5:4 D5:8 B4:4) E4:8(', E_SEVENTH], [hairpin('diminuendo', 0), hairpin('stop', 9), pedal('change')]),
  bar(17, 'Am', ['A4:4 B4:8 C5:4 D5:8', A_MINOR], [dynamics('p'), pedal('change')]),
  bar(18, 'Am', ['C5+E5:4.) C5:4( A4:8', A_MINOR]),
  bar(19, 'Dm', ['A4+F5:4 E5:8 F5:4 D5:8', D_MINOR]),
  bar(20, 'E7', ['B4+E5:4 D5:8 B4:4) E4:8(', E_SEVENTH]),
  bar(21, 'Am', ['A4:4 B4:8 C5:4 E5:8', A_MINOR], [hairpin('crescendo', 2), hairpin('stop', 11), pedal('change')]),
  bar(22, 'F', ['A5:4 G5:8 A5:4 F5:8', rock('F2', 'F3', 'A3', 'C4')], [dynamics('mf'), pedal('change')]),
  bar(23, 'Dm E7', ['D5:4 C5:8 B4:4 G#4:8', CADENCE]),
  bar(24, 'F', ['A4:4.) C5:4( A4:8', rock('F2', 'C3', 'A3', 'C4')], [dynamics('p'), pedal('change')]),
  bar(25, 'Dm', ['D5:4 E5:8 F5:4 D5:8', D_MINOR]),
  bar(26, 'Am/E E7', ['C5:4 A4:8 B4:4.', halves(['E2', 'A3', 'C4'], ['E2', 'G#3', 'D4'])]),
  bar(27, 'Am', ['A4:4.) C5:4( A4:8', A_MINOR]),
  bar(28, 'Dm/A', ['F4:4. A4:4 F4:8', rock('A2', 'F3', 'A3', 'D4')], [dynamics('pp'), words('rit.'), pedal('change')]),
  bar(29, 'Am', ['E4:2.)', A_MINOR]),
  bar(30, 'Am', ['C4+E4+A4:4.^ r:4', 'A2+E3:4.^ r:4'], [pedal('change'), pedal('stop', HALF)]),
];

/** The barcarolle. */
export const rowingHome: Piece = {
  slug: 'rowing-home',
  title: 'Rowing Home',
  fifths: 0,
  mode: 'minor',
  beats: 6,
  beatType: 8,
  tempoWord: 'Andantino',
  beatUnit: 'dotted quarter',
  perMinute: 52,
  bars,
  phrases: [[0, 4], [5, 8], [9, 12], [13, 16], [17, 20], [21, 23], [24, 27], [28, 30]],
};
