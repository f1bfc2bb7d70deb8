/** What is planned in "Evening over Skerrowby". */
import { eveningOverSkerrowby } from './eveningOverSkerrowby.js';
import { plannedChords, type PieceFacts } from './facts.js';

/** Degrees bar by bar from the upbeat on: A flat major, from 13 to 19 F minor. */
const DEGREES = [
  '', 'I', 'V7', 'I6', 'V7', 'I', 'IV', 'ii6 V7', 'I',
  'I', 'I', 'I', 'I',
  'i', 'iv6', 'V7', 'i', 'bII6', 'i64 V7', 'i', 'V7',
  'I', 'V7', 'I6', 'IV', 'I64 V7', 'vi', 'IV iv', 'I64 V7', 'I',
  'I', 'I', 'I',
] as const;

/** The evening piece as its composer knows it. */
export const eveningFacts: PieceFacts = {
  piece: 'evening-over-skerrowby',
  sections: [
    { letter: 'A', bars: ['0', '8'], what: 'two phrases of four bars, the second climbs higher and closes' },
    { letter: 'X', bars: ['9', '12'], what: 'open fifths and octaves of A flat, ringing' },
    { letter: 'B', bars: ['13', '20'], what: 'F minor: a half close, then the flattened supertonic and a full close, and the way back' },
    { letter: "A'", bars: ['21', '29'], what: 'returns exactly for three bars, then turns aside and closes after the borrowed chord' },
    { letter: "X'", bars: ['30', '32'], what: 'the ringing bars again, as a coda' },
  ],
  keys: [
    { bar: '0', tonic: 'Ab', mode: 'major' },
    { bar: '13', tonic: 'F', mode: 'minor' },
    { bar: '20', tonic: 'Ab', mode: 'major' },
  ],
  chords: plannedChords(eveningOverSkerrowby, DEGREES),
  cadences: [
    { bar: '4', at: 0, kind: 'half' },
    { bar: '8', at: 0, kind: 'perfect' },
    { bar: '15', at: 0, kind: 'half' },
    { bar: '19', at: 0, kind: 'perfect' },
    { bar: '26', at: 0, kind: 'interrupted' },
    { bar: '29', at: 0, kind: 'perfect' },
  ],
  pitfalls: [
    { bars: ['1', '29'], hand: 'right', what: 'the tune is tied over the bar line: struck again, or the beat lost' },
    { bars: ['21', '21'], hand: 'left', what: 'a tenth from A flat to C, to be broken' },
    { bars: ['32', '32'], hand: 'left', what: 'the same tenth at the close' },
    { bars: ['17', '17'], hand: 'both', what: 'G flat, and G natural again in the next bar' },
    { bars: ['27', '27'], hand: 'right', what: 'F flat straight after F' },
    { bars: ['9', '12'], hand: 'both', what: 'the pedal is lifted out of habit at the bar lines' },
    { bars: ['20', '21'], hand: 'both', what: 'back in time after the rit.' },
  ],
  pedal: [
    { bars: ['1', '8'], use: 'change with the harmony', reason: 'marked con pedale; the bass is left for the chord above it' },
    { bars: ['9', '12'], use: 'let it ring', reason: 'one open fifth, marked as one pedal, the tune high up' },
    { bars: ['13', '29'], use: 'change with the harmony', reason: 'con pedale holds; twice in bars 7, 18, 25, 27 and 28' },
    { bars: ['30', '32'], use: 'let it ring', reason: 'one harmony to the end, marked as one pedal' },
  ],
};
