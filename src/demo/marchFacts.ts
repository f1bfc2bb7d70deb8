/** What is planned in "Quayside March". */
import { plannedChords, type PieceFacts } from './facts.js';
import { quaysideMarch } from './quaysideMarch.js';

/** Degrees in G major bar by bar from the upbeat on. */
const DEGREES = [
  '', 'I', 'V65', 'I vi', 'V', 'I', 'IV', 'I64 V7', 'I', 'I',
  'vi', 'ii6', 'V', 'I', 'IV', 'V65/V', 'V', 'V7',
  'I', 'V65', 'I vi', 'V', 'I', 'IV', 'I64 V7', 'I',
] as const;

/** The march as its composer knows it. */
export const marchFacts: PieceFacts = {
  piece: 'quayside-march',
  sections: [
    { letter: 'A', bars: ['0', '9'], what: 'two phrases of four bars, with two endings' },
    { letter: 'B', bars: ['10', '17'], what: 'a falling sequence, then up to a half close' },
    { letter: "A'", bars: ['18', '25'], what: 'as before, with a close of its own' },
  ],
  keys: [{ bar: '0', tonic: 'G', mode: 'major' }],
  chords: plannedChords(quaysideMarch, DEGREES),
  cadences: [
    { bar: '4', at: 0, kind: 'half' },
    { bar: '8', at: 0, kind: 'perfect' },
    { bar: '9', at: 0, kind: 'perfect' },
    { bar: '16', at: 0, kind: 'half' },
    { bar: '21', at: 0, kind: 'half' },
    { bar: '25', at: 0, kind: 'perfect' },
  ],
  pitfalls: [
    { bars: ['0', '25'], hand: 'both', what: 'right hand slurred while the left hand stays short' },
    { bars: ['1', '24'], hand: 'right', what: 'dotted pairs that must not become even' },
    { bars: ['8', '9'], hand: 'both', what: 'the repeat is to be taken' },
    { bars: ['15', '15'], hand: 'both', what: 'C becomes C sharp in both hands' },
  ],
  pedal: [{ bars: ['0', '25'], use: 'none', reason: 'staccato throughout in the left hand' }],
};
