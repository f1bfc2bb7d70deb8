/**
 * "Evening over Skerrowby", an evening piece in A flat major written for the demo room: A (1-8), open bars that ring
 * (9-12), B in F minor (13-20, with a flattened supertonic sixth), A' (21-29, turned aside by an interrupted cadence and
 * closed after a borrowed fourth degree), and ringing bars again (30-32). The tune is tied over nearly every bar line:
 * what is struck on three is held through one and resolves on two. The pedal is printed where it must ring and left to the
 * player elsewhere.
 */
import type { Mark, Piece, WrittenBar } from './piece.js';

const dynamics = (text: 'pp' | 'p' | 'mp' | 'mf', at = 0): Mark => ({ kind: 'dynamics', at, text });
const hairpin = (type: 'crescendo' | 'diminuendo' | 'stop', at: number): Mark => ({ kind: 'hairpin', at, type });
const words = (text: string, at = 0): Mark => ({ kind: 'words', at, text });
const below = (text: string, at = 0): Mark => ({ kind: 'words', at, text, place: 'below' });
const foot = (type: 'start' | 'change', at = 0): Mark => ({ kind: 'pedal', at, type, only: 'foot' });
const page = (type: 'start' | 'stop', at = 0): Mark => ({ kind: 'pedal', at, type, only: 'page' });

/** A bar; harmony as text, "Ab" or "Fm/C C7@8" with the division at which a later chord begins. The foot changes with each. */
function bar(number: number, harmony: string, hands: readonly [right: string, left: string], marks: readonly Mark[] = []): WrittenBar {
  const chords = harmony.split(' ').map((text): readonly [number, string] => {
    const [chord = '', at = '0'] = text.split('@');
    return [Number(at), chord];
  });
  return { ...ringing(number, [hands[0], hands[1]], [...marks, ...chords.map(([at]) => foot(number === 1 ? 'start' : 'change', at))]), harmony: chords };
}

/** A bar of the open fifth on A flat, under a pedal that began before it. */
function ringing(number: number, hands: readonly [right: string, left: string], marks: readonly Mark[] = []): WrittenBar {
  return { number: String(number), right: hands[0], left: hands[1], harmony: [[0, 'Ab5']], marks, repeat: null, ending: null };
}

const A_FLAT = 'Ab2:4 Eb3+C4:2';
const BROKEN_TENTH = 'Ab2+Eb3+C4:2.z';
const E_FLAT_SEVENTH = 'Eb3:4 G3+Db4:2';
const F_MINOR = 'F2:4 C3+Ab3:2';
const FIRST = 'C5:4 Eb5:4 Ab5~:4';
const SECOND = 'Ab5:4 G5:4 F5~:4';
const THIRD = ['F5:4 Eb5:4 Db5~:4', 'C3:4 Ab3+Eb4:2'] as const;

const bars: readonly WrittenBar[] = [
  { number: '0', right: 'Eb5:4(', left: 'r:4', harmony: [], marks: [dynamics('p')], repeat: null, ending: null },
  bar(1, 'Ab', [FIRST, A_FLAT], [below('con pedale')]),
  bar(2, 'Eb7', [SECOND, E_FLAT_SEVENTH]),
  bar(3, 'Ab/C', THIRD),
  bar(4, 'Eb7', ['Db5:4 C5:4 Bb4:4)', 'Eb3:4 G3+Bb3:2']),
  bar(5, 'Ab', ['C5:4( Eb5:4 Ab5~:4', A_FLAT], [hairpin('crescendo', 0)]),
  bar(6, 'Db', ['Ab5:4 Bb5:4 C6~:4', 'Db3:4 Ab3+F4:2'], [hairpin('stop', 11)]),
  bar(7, 'Bbm/Db Eb7@8', ['C6:4 Bb5:4 G5~:4', 'Db3:4 F3+Bb3:4 Eb3+Db4:4'], [hairpin('diminuendo', 0)]),
  bar(8, 'Ab', ['G5:4 Ab5:4) r:4', A_FLAT], [hairpin('stop', 7)]),
  ringing(9, ['r:4 Eb5:4( Ab5:4', 'Ab2+Eb3:2.'], [dynamics('pp'), below('lasciar vibrare', 4), foot('change'), page('start')]),
  ringing(10, ['Eb6:2.)', 'Eb3+Eb4:2.']),
  ringing(11, ['r:4 Ab5:4( Eb6~:4', 'Ab3+Eb4:2.']),
  ringing(12, ['Eb6:2) C5:4(', 'Ab2+Ab3:2.'], [page('stop', 8), dynamics('mp', 8)]),
  bar(13, 'Fm', ['Ab5:2 G5~:4', F_MINOR]),
  bar(14, 'Bbm/Db', ['G5:4 F5~:2', 'Db3:4 F3+Bb3:2']),
  bar(15, 'C7', ['F5:4 E5:4 C5:4)', 'C3:4 G3+Bb3:2']),
  bar(16, 'Fm', ['C5:4( F5:4 Ab5~:4', F_MINOR], [hairpin('crescendo', 0)]),
  bar(17, 'Gb/Bb', ['Ab5:4 Gb5:4 Bb5:4', 'Bb2:4 Db3+Gb3:2'], [hairpin('stop', 11)]),
  bar(18, 'Fm/C C7@8', ['Ab5:2 G5~:4', 'C3:4 F3+Ab3:4 C3+E3+Bb3:4'], [dynamics('mf')]),
  bar(19, 'Fm', ['G5:4 F5:2)', F_MINOR], [hairpin('diminuendo', 0)]),
  bar(20, 'Eb7', ['G5:4( Db5:4) Eb5:4(', 'Eb3:4 Bb3+Db4:2'], [hairpin('stop', 7), words('rit.')]),
  bar(21, 'Ab', [FIRST, BROKEN_TENTH], [words('a tempo'), dynamics('p')]),
  bar(22, 'Eb7', [SECOND, E_FLAT_SEVENTH]),
  bar(23, 'Ab/C', THIRD),
  bar(24, 'Db', ['Db5:4 Eb5:4 F5~:4', 'Db3:4 Ab3+F4:2'], [hairpin('crescendo', 0)]),
  bar(25, 'Ab/Eb Eb7@8', ['F5:4 Eb5:4 Bb4~:4', 'Eb3:4 Ab3+C4:4 Eb3+G3+Db4:4'], [hairpin('stop', 3), dynamics('mf', 4)]),
  bar(26, 'Fm', ['Bb4:4 Ab4:2)', 'F3:4 Ab3+C4:2'], [dynamics('p')]),
  bar(27, 'Db Dbm@8', ['Db5:4( F5:4 Fb5~:4', 'Db3:4 F3+Ab3:4 Db3+Ab3:4']),
  bar(28, 'Ab/Eb Eb7@8', ['Fb5:4 Eb5:4 Db5~:4', 'Eb3:4 Ab3+C4:4 Eb3+G3+Bb3:4'], [hairpin('diminuendo', 0)]),
  bar(29, 'Ab', ['Db5:4 C5:2)', A_FLAT], [hairpin('stop', 7)]),
  ringing(30, ['r:4 Eb5:4( Ab5:4', 'Ab2+Eb3:2.'], [dynamics('pp'), below('lasciar vibrare', 4), foot('change'), page('start'), words('rit.', 4)]),
  ringing(31, ['Eb6:2 Ab5:4)', 'Ab3+Eb4:2.']),
  { ...ringing(32, ['C5+Eb5+Ab5:2^', 'Ab2+Eb3+C4:2z^'], [page('stop', 7)]), harmony: [[0, 'Ab']] },
];

/** The evening piece. */
export const eveningOverSkerrowby: Piece = {
  slug: 'evening-over-skerrowby',
  title: 'Evening over Skerrowby',
  fifths: -4,
  mode: 'major',
  beats: 3,
  beatType: 4,
  tempoWord: 'Adagio',
  beatUnit: 'quarter',
  perMinute: 66,
  bars,
  phrases: [[0, 4], [5, 8], [9, 12], [13, 15], [16, 20], [21, 23], [24, 26], [27, 29], [30, 32]],
};
