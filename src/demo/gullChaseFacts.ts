/** What is planned in "Gull Chase". */
import { plannedChords, type PieceFacts } from './facts.js';
import { gullChase } from './gullChase.js';

/** Degrees bar by bar from the upbeat on: D minor, from 11 to 17 F major, D minor again. */
const DEGREES = [
  '', 'i', 'i', 'V65', 'V65', 'i', 'iv', 'It+6', 'V',
  'i', 'i', 'V65', 'I', 'IV6 I', 'I V65', 'I64 V7', 'I V/vi', 'I',
  'V65/iv', 'V7/iv', 'iv', 'iv', 'V65/III', 'V7/III', 'III', 'V6',
  'i', 'i', 'V65', 'V65', 'iv', 'It+6', 'i64 V7', 'I',
] as const;

/** The quick piece as its composer knows it. */
export const gullChaseFacts: PieceFacts = {
  piece: 'gull-chase',
  sections: [
    { letter: 'A', bars: ['0', '8'], what: 'a run and a skip in turn, to a half close' },
    { letter: 'B', bars: ['9', '17'], what: 'begins alike, turns to F major; a hemiola before the close; two endings' },
    { letter: 'C', bars: ['18', '25'], what: 'dominants in a row, the left hand over the right; three against two before the return' },
    { letter: "A'", bars: ['26', '33'], what: 'four bars as before, then straight to the close in D major' },
  ],
  keys: [
    { bar: '0', tonic: 'D', mode: 'minor' },
    { bar: '11', tonic: 'F', mode: 'major' },
    { bar: '18', tonic: 'D', mode: 'minor' },
    { bar: '33', tonic: 'D', mode: 'major' },
  ],
  chords: plannedChords(gullChase, DEGREES),
  cadences: [
    { bar: '8', at: 0, kind: 'half' },
    { bar: '16', at: 0, kind: 'perfect' },
    { bar: '17', at: 0, kind: 'perfect' },
    { bar: '25', at: 0, kind: 'half' },
    { bar: '33', at: 0, kind: 'perfect' },
  ],
  pitfalls: [
    { bars: ['18', '23'], hand: 'left', what: 'jumps of two octaves and more over the right hand and back' },
    { bars: ['13', '14'], hand: 'both', what: 'two bars of three quavers become three crotchets, tied over the bar line' },
    { bars: ['24', '25'], hand: 'both', what: 'three quavers against two dotted ones' },
    { bars: ['5', '6'], hand: 'right', what: 'the thumb passes under before the mordent' },
    { bars: ['15', '15'], hand: 'right', what: 'a run down of six in one breath' },
    { bars: ['16', '17'], hand: 'both', what: 'the repeat is to be taken; the second ending leaves out the upbeat' },
    { bars: ['32', '32'], hand: 'right', what: 'a trill on the way to the close' },
    { bars: ['7', '7'], hand: 'left', what: 'G sharp against B flat, as in bar 31' },
    { bars: ['33', '33'], hand: 'right', what: 'F sharp in the last chord' },
  ],
  pedal: [{ bars: ['0', '33'], use: 'none', reason: 'quick and staccato throughout; the hemiola is joined by the fingers' }],
};
