/** The planned recordings of the march, oldest first. */
import type { TakePlan } from './plan.js';
import { asha, desmond, nilo } from './players.js';

/** Learned in two days: the notes are there, and little else. */
export const notesOnly: TakePlan = {
  name: 'asha-vellory-2025-10-02',
  piece: 'quayside-march',
  seed: 4404,
  player: { ...asha, tempo: 0.84, timingMs: 20 },
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-10-02T18:20:00',
  purpose: 'building up',
  about: 'The first half with its repeat; dotted pairs even, the tune in single notes, one long stop',
  faults: [
    { aspect: 'route', kind: 'sectionOnly', bars: ['0', '9'], pass: 1, attempt: null, hand: 'both', what: 'only the first half' },
    { aspect: 'rhythm', kind: 'evenDots', bars: ['0', '9'], pass: null, attempt: null, hand: 'right', what: 'dotted pairs played as even quavers throughout' },
    { aspect: 'touch', kind: 'slurDetached', ratio: 0.45, bars: ['0', '9'], pass: null, attempt: null, hand: 'right', what: 'the slurred tune in single notes' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 2.8, bars: ['6', '6'], pass: 1, attempt: 1, hand: 'both', what: 'stops before bar 6' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l3-3'], semitones: 1, bars: ['3', '3'], pass: null, attempt: null, hand: 'left', what: 'F for the low E, both times' },
  ],
};

/** A child's first reading: the first phrase hands apart, then eight bars together. */
export const firstReading: TakePlan = {
  name: 'nilo-tarrand-2025-10-08',
  piece: 'quayside-march',
  seed: 4101,
  player: nilo,
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-10-08T16:42:00',
  purpose: 'first reading',
  about: 'Tries a few keys, then bars 0-4 right hand, 1-4 left hand, and 0-8 together, slowly',
  faults: [
    { aspect: 'route', kind: 'noodling', pitches: [67, 69, 71, 67], pauseS: 2.4, bars: ['0', '0'], pass: null, attempt: null, hand: 'right', what: 'a few keys tried before the start' },
    { aspect: 'route', kind: 'handAlone', tempo: 1, pauseS: 0, bars: ['0', '4'], pass: 1, attempt: 1, hand: 'right', what: 'right hand alone first, one phrase' },
    { aspect: 'route', kind: 'handAlone', tempo: 1.05, pauseS: 3.1, bars: ['1', '4'], pass: 1, attempt: 2, hand: 'left', what: 'then left hand alone' },
    { aspect: 'route', kind: 'sectionOnly', bars: ['0', '8'], pass: 1, attempt: null, hand: 'both', what: 'only the first eight bars, once' },
    { aspect: 'tempo', kind: 'slow', bars: ['0', '8'], pass: 1, attempt: null, hand: 'both', what: 'about six tenths of the marked tempo' },
    { aspect: 'notes', kind: 'misreadAccidental', notes: ['r2-5', 'r7-5'], semitones: -1, bars: ['2', '7'], pass: 1, attempt: null, hand: 'right', what: 'F natural for F sharp each time' },
    { aspect: 'notes', kind: 'missedNote', notes: ['l6-2'], bars: ['6', '6'], pass: 1, attempt: 1, hand: 'left', what: 'lower note of the chord on two does not sound' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 0.9, bars: ['2', '2'], pass: 1, attempt: 3, hand: 'both', what: 'waits before bar 2, where the left hand moves' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 1.2, bars: ['6', '6'], pass: 1, attempt: 1, hand: 'both', what: 'waits before bar 6, for the left-hand leap to C' },
  ],
};

/** Fluent, with the two touches not yet apart. */
export const evenAndHeld: TakePlan = {
  name: 'asha-vellory-2025-10-16',
  piece: 'quayside-march',
  seed: 4202,
  player: asha,
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-10-16T18:05:00',
  purpose: 'building up',
  about: 'Straight through with the repeat; dotted pairs even, left hand long and loud',
  faults: [
    { aspect: 'rhythm', kind: 'evenDots', bars: ['0', '25'], pass: null, attempt: null, hand: 'right', what: 'dotted pairs played as even quavers throughout' },
    { aspect: 'touch', kind: 'staccatoHeld', ratio: 0.93, bars: ['1', '25'], pass: null, attempt: null, hand: 'left', what: 'staccato dots held nearly to the next note' },
    { aspect: 'balance', kind: 'leftTooLoud', by: 20, bars: ['10', '17'], pass: 1, attempt: null, hand: 'left', what: 'left-hand chords cover the tune' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['r15-5'], semitones: -1, bars: ['15', '15'], pass: 1, attempt: 1, hand: 'right', what: 'C natural for C sharp' },
    { aspect: 'lengths', kind: 'cutShort', notes: ['r4-1'], ratio: 0.45, bars: ['4', '4'], pass: null, attempt: null, hand: 'right', what: 'the dotted minim lasts little more than a crotchet' },
  ],
};

/** An old keyboard, the shape of the piece not yet safe. */
export const leftOut: TakePlan = {
  name: 'desmond-yarrick-2025-10-19',
  piece: 'quayside-march',
  seed: 4303,
  player: desmond,
  instrument: { touch: false, pedal: 'none' },
  recordedAt: '2025-10-19T10:30:00',
  purpose: 'run-through',
  about: 'No repeat, one bar left out; a keyboard without touch response',
  faults: [
    { aspect: 'route', kind: 'repeatLeftOut', bars: ['8', '9'], pass: 1, attempt: 1, hand: 'both', what: 'goes straight to the second ending' },
    { aspect: 'route', kind: 'skipped', bars: ['12', '12'], pass: 1, attempt: 1, hand: 'both', what: 'from bar 11 to 13, one half of the sequence is missing' },
    { aspect: 'notes', kind: 'octaveSlip', octaves: -1, bars: ['16', '16'], pass: 1, attempt: 1, hand: 'left', what: 'left hand an octave too low' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 0.8, bars: ['15', '15'], pass: 1, attempt: 1, hand: 'both', what: 'waits before bar 15, where C becomes C sharp' },
    { aspect: 'rhythm', kind: 'handLate', lateMs: 90, bars: ['18', '25'], pass: 1, attempt: 1, hand: 'left', what: 'left hand behind the right in the whole return' },
    { aspect: 'notes', kind: 'addedNote', notes: ['r23-5'], semitones: -1, delayMs: 15, bars: ['23', '23'], pass: 1, attempt: 1, hand: 'right', what: 'F sharp struck along with the high G' },
  ],
};

/** Two weeks on: F sharp is safe, the dots are not. */
export const sharpsRead: TakePlan = {
  name: 'nilo-tarrand-2025-10-22',
  piece: 'quayside-march',
  seed: 4505,
  player: { ...nilo, tempo: 0.68, timingMs: 26 },
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-10-22T16:50:00',
  purpose: 'building up',
  about: 'Bars 0-8 together; F sharp safe, dotted pairs even, still waits before bar 6',
  faults: [
    { aspect: 'route', kind: 'sectionOnly', bars: ['0', '8'], pass: 1, attempt: null, hand: 'both', what: 'only the first eight bars, once' },
    { aspect: 'tempo', kind: 'slow', bars: ['0', '8'], pass: 1, attempt: null, hand: 'both', what: 'about seven tenths of the marked tempo' },
    { aspect: 'rhythm', kind: 'evenDots', bars: ['0', '8'], pass: 1, attempt: 1, hand: 'right', what: 'dotted pairs played as even quavers throughout' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 0.9, bars: ['6', '6'], pass: 1, attempt: 1, hand: 'both', what: 'waits before bar 6, for the left-hand leap to C' },
  ],
};

/** An old keyboard and a safer map of the piece. */
export const repeatTaken: TakePlan = {
  name: 'desmond-yarrick-2025-11-09',
  piece: 'quayside-march',
  seed: 4606,
  player: { ...desmond, tempo: 0.86, timingMs: 19 },
  instrument: { touch: false, pedal: 'none' },
  recordedAt: '2025-11-09T10:40:00',
  purpose: 'polishing',
  about: 'Repeat taken, nothing left out, hands together; rests filled, C sharp misread',
  faults: [
    { aspect: 'lengths', kind: 'restFilled', notes: ['l4-3', 'l8-3', 'l17-3', 'l21-3'], bars: ['4', '21'], pass: null, attempt: null, hand: 'left', what: 'the rest on four is filled' },
    { aspect: 'notes', kind: 'misreadAccidental', notes: ['l15-1', 'l15-3'], semitones: -1, bars: ['15', '15'], pass: 1, attempt: 1, hand: 'left', what: 'C natural for C sharp' },
  ],
};

/** The child again, with the repeat. */
export const halfTheDots: TakePlan = {
  name: 'nilo-tarrand-2025-11-12',
  piece: 'quayside-march',
  seed: 4707,
  player: { ...nilo, tempo: 0.78, timingMs: 22, voicing: 8 },
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-11-12T16:45:00',
  purpose: 'building up',
  about: 'The first half with its repeat; no wait any more, dotted pairs right until bar 5, left hand heavy',
  faults: [
    { aspect: 'route', kind: 'sectionOnly', bars: ['0', '9'], pass: 1, attempt: null, hand: 'both', what: 'only the first half' },
    { aspect: 'rhythm', kind: 'evenDots', bars: ['5', '8'], pass: null, attempt: null, hand: 'right', what: 'dotted pairs even in the second phrase' },
    { aspect: 'balance', kind: 'leftTooLoud', by: 22, bars: ['1', '9'], pass: null, attempt: null, hand: 'left', what: 'left-hand chords cover the tune' },
  ],
};

/** Dotted pairs and dots as they should be, in a hurry. */
export const dotsLearned: TakePlan = {
  name: 'asha-vellory-2025-11-20',
  piece: 'quayside-march',
  seed: 4808,
  player: { ...asha, tempo: 1.22, timingMs: 14 },
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-11-20T18:10:00',
  purpose: 'run-through',
  about: 'Dotted pairs right and left hand short at last; too fast, one level in the middle',
  faults: [
    { aspect: 'tempo', kind: 'fast', bars: ['0', '25'], pass: null, attempt: null, hand: 'both', what: 'more than a fifth over the mark' },
    { aspect: 'dynamics', kind: 'flat', keep: 0.1, bars: ['9', '17'], pass: 1, attempt: 1, hand: 'both', what: 'neither soft at 10 nor loud at 16' },
    { aspect: 'balance', kind: 'leftTooLoud', by: 20, bars: ['10', '13'], pass: 1, attempt: 1, hand: 'left', what: 'left-hand chords cover the tune in the sequence' },
  ],
};
