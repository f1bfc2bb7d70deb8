/** What is planned in "Rowing Home". */
import { plannedChords, type PieceFacts } from './facts.js';
import { rowingHome } from './rowingHome.js';

/** Degrees bar by bar from the upbeat on: A minor, from 9 to 14 C major, A minor again. */
const DEGREES = [
  '', 'i', 'i', 'iv', 'V7', 'i', 'VI', 'iv V7', 'i',
  'I', 'V65', 'vi', 'iii', 'IV', 'I6', 'iv', 'V7',
  'i', 'i', 'iv', 'V7', 'i', 'VI', 'iv V7',
  'VI', 'iv', 'i64 V7', 'i', 'iv64', 'i', 'i',
] as const;

/** The barcarolle as its composer knows it. */
export const barcarolleFacts: PieceFacts = {
  piece: 'rowing-home',
  sections: [
    { letter: 'A', bars: ['0', '8'], what: 'two phrases of four bars, to a half close and a full one' },
    { letter: 'B', bars: ['9', '16'], what: 'towards C major, and by way of F back to the dominant' },
    { letter: "A'", bars: ['17', '23'], what: 'returns with thirds added, and is turned aside at the close' },
    { letter: 'coda', bars: ['24', '30'], what: 'begins on F, closes, and comes to rest over a plagal turn' },
  ],
  keys: [
    { bar: '0', tonic: 'A', mode: 'minor' },
    { bar: '9', tonic: 'C', mode: 'major' },
    { bar: '15', tonic: 'A', mode: 'minor' },
  ],
  chords: plannedChords(rowingHome, DEGREES),
  cadences: [
    { bar: '4', at: 0, kind: 'half' },
    { bar: '8', at: 0, kind: 'perfect' },
    { bar: '16', at: 0, kind: 'half' },
    { bar: '20', at: 0, kind: 'half' },
    { bar: '24', at: 0, kind: 'interrupted' },
    { bar: '27', at: 0, kind: 'perfect' },
    { bar: '29', at: 0, kind: 'plagal' },
  ],
  pitfalls: [
    { bars: ['1', '29'], hand: 'left', what: 'the bass is left at once: caught by the pedal or lost' },
    { bars: ['7', '7'], hand: 'both', what: 'the harmony, and so the pedal, changes on the half bar; also in 23 and 26' },
    { bars: ['13', '16'], hand: 'right', what: 'thirds under the tune, which has to stay above them' },
    { bars: ['28', '30'], hand: 'both', what: 'the rit. spread over three bars' },
  ],
  pedal: [{ bars: ['1', '30'], use: 'change with the harmony', reason: 'marked; the bass is left for notes an octave and more above it' }],
};
