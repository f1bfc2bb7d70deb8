/**
 * "Quayside March", a march in G major written for the demo room: A (1-9, with first and second ending), B (10-17, a
 * falling sequence from E minor, then up to a half close in D), A' (18-25). The tune is slurred throughout A and
 * B while the left hand stays short: two touches at once is what the piece is there to practise.
 */
import type { Mark, Piece, WrittenBar } from './piece.js';

/** Division at which the upbeat of the next phrase starts, in 4/4. */
const UPBEAT = 12;

const dynamics = (text: 'p' | 'mf' | 'f', at = 0): Mark => ({ kind: 'dynamics', at, text });
const hairpin = (type: 'crescendo' | 'diminuendo' | 'stop', at: number): Mark => ({ kind: 'hairpin', at, type });

/** Left hand: four staccato crotchets. */
const short = (...chords: readonly string[]): string => chords.map((chord) => (chord === 'r' ? 'r:4' : `${chord}:4'`)).join(' ');

/** A bar; harmony as text, "G D7" for a change at the half bar. */
function bar(number: number, harmony: string, hands: readonly [right: string, left: string], marks: readonly Mark[] = []): WrittenBar {
  const chords = harmony.split(' ').map((chord, i) => [i * 8, chord] as const);
  return { number: String(number), right: hands[0], left: hands[1], harmony: chords, marks, repeat: null, ending: null };
}

const G_ROOT = short('G3', 'B3+D4', 'D3', 'B3+D4');
const FIRST = ['D5:4 E5:8. D5:16 B4:4 G4:4', G_ROOT] as const;
const SECOND = ['C5:4 D5:8. C5:16 A4:4 F#4:4)', short('F#3', 'C4+D4', 'D3', 'C4+D4')] as const;
const THIRD = ['G4:4( B4:8. A4:16 G4:4 B4:4', short('G3', 'B3+D4', 'E3', 'G3+B3')] as const;
const FOURTH = ['A4:2.) B4:8.( C5:16', short('D3', 'F#3+A3', 'D3', 'r')] as const;
const SIXTH = ['C5:4 E5:8. D5:16 E5:4 G5:4)', short('C3', 'G3+C4', 'C3', 'G3+C4')] as const;
const SEVENTH = ['D5:4( B4:4 C5:8. A4:16 F#4:4)', short('D3', 'G3+B3', 'D3', 'A3+C4')] as const;

const bars: readonly WrittenBar[] = [
  { number: '0', right: 'B4:8.( C5:16', left: 'r:4', harmony: [], marks: [dynamics('mf')], repeat: null, ending: null },
  { ...bar(1, 'G', FIRST), repeat: 'forward' },
  bar(2, 'D7/F#', SECOND),
  bar(3, 'G Em', THIRD),
  bar(4, 'D', FOURTH),
  bar(5, 'G', FIRST),
  bar(6, 'C', SIXTH),
  bar(7, 'G/D D7', SEVENTH),
  { ...bar(8, 'G', ['G4:2. B4:8.( C5:16)', short('G3', 'B3+D4', 'G3', 'r')]), repeat: 'backward', ending: 1 },
  { ...bar(9, 'G', ['G4:2. G4:8.( A4:16', short('G3', 'D3', 'G2', 'r')], [dynamics('p', UPBEAT)]), ending: 2 },
  bar(10, 'Em', ['B4:4 C5:8. B4:16 G4:4 B4:4)', short('E3', 'G3+B3', 'E3', 'G3+B3')]),
  bar(11, 'Am/C', ['A4:4( B4:8. C5:16 E5:2)', short('C3', 'E3+A3', 'C3', 'E3+A3')]),
  bar(12, 'D', ['A4:4( B4:8. A4:16 F#4:4 A4:4)', short('D3', 'F#3+A3', 'D3', 'F#3+A3')]),
  bar(13, 'G', ['G4:4( A4:8. B4:16 D5:2)', short('G3', 'B3+D4', 'G3', 'B3+D4')]),
  bar(14, 'C', ['E5:4( D5:8. C5:16 E5:4 G5:4)', short('C3', 'G3+C4', 'E3', 'G3+C4')], [hairpin('crescendo', 0)]),
  bar(15, 'A7/C#', ['E5:4( F#5:8. G5:16 E5:4 C#5:4)', short('C#3', 'G3+A3', 'C#3', 'G3+A3')], [hairpin('stop', 14)]),
  bar(16, 'D', ['D5:4> A4:4- F#4:4- A4:4-', short('D3', 'F#3+A3', 'D3', 'F#3+A3')], [dynamics('f')]),
  bar(17, 'D7', ['C5:2.> B4:8.( C5:16', short('D3', 'F#3+A3', 'D3', 'r')], [dynamics('mf', UPBEAT)]),
  bar(18, 'G', FIRST),
  bar(19, 'D7/F#', SECOND),
  bar(20, 'G Em', THIRD),
  bar(21, 'D', FOURTH),
  bar(22, 'G', FIRST, [hairpin('crescendo', 4)]),
  bar(23, 'C', SIXTH, [hairpin('stop', 14)]),
  bar(24, 'G/D D7', SEVENTH, [dynamics('f')]),
  bar(25, 'G', ["G4:4 r:4 B4+D5+G5:4'>", "G3:4' D3:4' G2:4'>"]),
];

/** The march. */
export const quaysideMarch: Piece = {
  slug: 'quayside-march',
  title: 'Quayside March',
  fifths: 1,
  mode: 'major',
  beats: 4,
  beatType: 4,
  tempoWord: 'Tempo di marcia',
  beatUnit: 'quarter',
  perMinute: 104,
  bars,
  phrases: [[0, 4], [5, 9], [10, 13], [14, 17], [18, 21], [22, 25]],
};
