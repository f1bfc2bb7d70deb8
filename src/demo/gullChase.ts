/**
 * "Gull Chase", a quick piece in D minor written for the demo room: A (1-8, to a half close over an Italian sixth), B
 * (9-17, to F major, with a hemiola and two endings), C (18-25, dominants in a row, the left hand over the right, then two
 * against three), A' (26-33, with a trill and a close in D major). Runs of semiquavers under a slur, everything else short.
 */
import type { Mark, Piece, WrittenBar } from './piece.js';

const dynamics = (text: 'p' | 'mf' | 'f', at = 0): Mark => ({ kind: 'dynamics', at, text });
const hairpin = (type: 'crescendo' | 'diminuendo' | 'stop', at: number): Mark => ({ kind: 'hairpin', at, type });

/** Left hand: three staccato quavers; `r` is a rest. */
const short = (...chords: readonly string[]): string => chords.map((chord) => (chord === 'r' ? 'r:8' : `${chord}:8'`)).join(' ');

/** A bar; harmony as text, "Bb" or "F/C C7@4" with the division at which a later chord begins. */
function bar(number: number, harmony: string, hands: readonly [right: string, left: string], marks: readonly Mark[] = []): WrittenBar {
  const chords = harmony.split(' ').map((text): readonly [number, string] => {
    const [chord = '', at = '0'] = text.split('@');
    return [Number(at), chord];
  });
  return { number: String(number), right: hands[0], left: hands[1], harmony: chords, marks, repeat: null, ending: null };
}

/** A bar in which the left hand goes over the right one. */
const over = (whole: WrittenBar): WrittenBar => ({ ...whole, crossing: true });

const FIRST = ["D5:16({1} E5:16 F5:16 E5:16 D5:8)'", short('D3', 'F3+A3', 'F3+A3')] as const;
const SECOND = ["A5:8' F5:8' D5:8'", short('D3', 'F3+A3', 'r')] as const;
const THIRD = ["E5:16({2} F5:16 G5:16 F5:16 E5:8)'", short('C#3', 'G3+A3', 'G3+A3')] as const;
const FOURTH = ["G5:8' E5:8' C#5:8'", short('C#3', 'G3+A3', 'r')] as const;
const SEVENTH = ["D5:16({1} E5:16 F5:16 E5:16 D5:8)'", short('Bb2', 'D3+G#3', 'D3+G#3')] as const;
const ROLL_D = 'A4:16({1} C5:16 D5:16 C5:16 A4:16 C5:16)';
const ROLL_G = 'G4:16({1} Bb4:16 D5:16 Bb4:16 G4:16 Bb4:16)';
const ROLL_C = 'G4:16({1} Bb4:16 C5:16 Bb4:16 G4:16 Bb4:16)';

const bars: readonly WrittenBar[] = [
  { number: '0', right: "A4:8'", left: 'r:8', harmony: [], marks: [dynamics('mf')], repeat: null, ending: null },
  { ...bar(1, 'Dm', FIRST), repeat: 'forward' },
  bar(2, 'Dm', SECOND),
  bar(3, 'A7/C#', THIRD),
  bar(4, 'A7/C#', FOURTH),
  bar(5, 'Dm', ["D5:16({1} E5:16 F5:16 G5:16{1} A5:8)'", short('D3', 'F3+A3', 'F3+A3')], [hairpin('crescendo', 0)]),
  bar(6, 'Gm', ["Bb5:8m{3} A5:8' G5:8'", short('G2', 'D3+Bb3', 'D3+Bb3')], [hairpin('stop', 5)]),
  bar(7, 'Bb+6', SEVENTH),
  bar(8, 'A', ["C#5:8' r:8 A4:8'", short('A2', 'E3+A3', 'r')]),
  bar(9, 'Dm', FIRST, [dynamics('p')]),
  bar(10, 'Dm', SECOND),
  bar(11, 'C7/E', ["G5:16({1} A5:16 Bb5:16 A5:16 G5:8)'", short('E3', 'Bb3+C4', 'Bb3+C4')], [hairpin('crescendo', 0)]),
  bar(12, 'F', ["A5:8'{2} C6:8' A5:8'", short('F3', 'A3+C4', 'r')], [hairpin('stop', 5)]),
  bar(13, 'Bb/D F@4', ['Bb5:4({4} A5~:8', 'D3+F3:4 F3~+C4~:8'], [dynamics('f')]),
  bar(14, 'F C7/E@2', ['A5:8 G5:4)', 'F3+C4:8 E3+Bb3:4']),
  bar(15, 'F/C C7@4', ['C6:16({5} Bb5:16 A5:16 G5:16 F5:16 E5:16{2}', short('C3', 'F3+A3', 'C3+Bb3')]),
  { ...bar(16, 'F A@4', ["F5:8)' r:8 A4:8'", short('F3', 'C3', 'A2+C#3')], [dynamics('mf', 4)]), repeat: 'backward', ending: 1 },
  { ...bar(17, 'F', ["F5:8)' r:8 r:8", short('F3', 'C3', 'F2')]), ending: 2 },
  bar(18, 'D7/F#', [ROLL_D, "F#3:8'{4} r:8 r:8"], [dynamics('p')]),
  over(bar(19, 'D7', [ROLL_D, "r:8 A5:8'{2} F#5:8'"], [{ kind: 'words', at: 0, text: 'l.h. over' }])),
  bar(20, 'Gm', [ROLL_G, "G2:8'{5} r:8 r:8"]),
  over(bar(21, 'Gm', [ROLL_G, "r:8 Bb5:8'{2} G5:8'"])),
  bar(22, 'C7/E', [ROLL_C, "E3:8'{4} r:8 r:8"], [hairpin('crescendo', 0)]),
  over(bar(23, 'C7', [ROLL_C, "r:8 G5:8'{2} E5:8'"])),
  bar(24, 'F', ["A4:8' C5:8' F5:8'", 'F3:8.- A3:8.-'], [hairpin('stop', 5)]),
  bar(25, 'A/C#', ["E5:8' C#5:8' A4:8'", 'C#3:8.- A2:8.-']),
  bar(26, 'Dm', FIRST, [dynamics('f')]),
  bar(27, 'Dm', SECOND),
  bar(28, 'A7/C#', THIRD),
  bar(29, 'A7/C#', FOURTH),
  bar(30, 'Gm', ['G5:16({1} A5:16 Bb5:16 A5:16 G5:16 F5:16{3}', short('G2', 'D3+Bb3', 'D3+Bb3')]),
  bar(31, 'Bb+6', ["D5:16{1} E5:16 F5:16 E5:16 D5:8)'", SEVENTH[1]]),
  bar(32, 'Dm/A A7@2', ["F5:8(> E5:4t)", short('A2', 'C#3+G3', 'A2')]),
  bar(33, 'D', ['F#4+A4+D5:4>', 'D2+D3:4>']),
];

/** The quick piece. */
export const gullChase: Piece = {
  slug: 'gull-chase',
  title: 'Gull Chase',
  fifths: -1,
  mode: 'minor',
  beats: 3,
  beatType: 8,
  tempoWord: 'Vivace',
  beatUnit: 'dotted quarter',
  perMinute: 60,
  bars,
  phrases: [[0, 4], [5, 8], [9, 12], [13, 17], [18, 21], [22, 25], [26, 29], [30, 33]],
};
