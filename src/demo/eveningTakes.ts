/** The planned recordings of the evening piece, oldest first. */
import type { TakePlan } from './plan.js';
import { desmond, mei } from './players.js';

/** Notes safe, ties and long pedals not yet understood. */
export const tiesStruckAgain: TakePlan = {
  name: 'desmond-yarrick-2025-10-26',
  piece: 'evening-over-skerrowby',
  seed: 5101,
  player: desmond,
  instrument: { touch: false, pedal: 'switch' },
  recordedAt: '2025-10-26T10:50:00',
  purpose: 'building up',
  about: 'Strikes ties again, lifts the pedal where it should ring, waits before the broken tenth',
  faults: [
    { aspect: 'lengths', kind: 'tieStruckAgain', notes: ['r1-3', 'r5-3', 'r6-3', 'r16-3', 'r21-3', 'r24-3'], bars: ['1', '24'], pass: 1, attempt: 1, hand: 'right', what: 'six ties into a stronger beat struck again' },
    { aspect: 'pedal', kind: 'lifted', bars: ['9', '12'], pass: 1, attempt: 1, hand: 'both', what: 'pedal changed at every bar line of the open fifth' },
    { aspect: 'pedal', kind: 'lifted', bars: ['30', '32'], pass: 1, attempt: 1, hand: 'both', what: 'and again in the coda' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 1.1, bars: ['21', '21'], pass: 1, attempt: 1, hand: 'both', what: 'waits before the broken tenth' },
    { aspect: 'notes', kind: 'misreadAccidental', notes: ['r17-2'], semitones: 1, bars: ['17', '17'], pass: 1, attempt: 1, hand: 'right', what: 'G natural for G flat' },
    { aspect: 'notes', kind: 'missedNote', notes: ['l25-3b'], bars: ['25', '25'], pass: 1, attempt: 1, hand: 'left', what: 'the middle note of the chord does not sound' },
  ],
};

/** Reads and joins well; the foot is late in one place and lazy in two. */
export const footLateAndLazy: TakePlan = {
  name: 'mei-castellow-2025-11-04',
  piece: 'evening-over-skerrowby',
  seed: 5202,
  player: mei,
  instrument: { touch: true, pedal: 'continuous' },
  recordedAt: '2025-11-04T20:25:00',
  purpose: 'building up',
  about: 'Goes back once; basses 22-24 not caught, pedal held over bars 14-15',
  faults: [
    { aspect: 'route', kind: 'wentBack', breakAt: 8, pauseS: 1.8, bars: ['16', '18'], pass: 1, attempt: 2, hand: 'both', what: 'breaks off in bar 18 and goes back to bar 16' },
    { aspect: 'pedal', kind: 'bassNotCaught', bars: ['22', '24'], pass: 1, attempt: 1, hand: 'left', what: 'key up before the pedal is down: the basses are lost' },
    { aspect: 'pedal', kind: 'blurred', bars: ['14', '15'], pass: 1, attempt: 1, hand: 'both', what: 'F minor rings on through B flat minor and C seventh' },
    { aspect: 'pedal', kind: 'blurred', bars: ['26', '26'], pass: 1, attempt: 1, hand: 'both', what: 'E flat seventh rings on into the interrupted cadence' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l17-2'], semitones: -1, bars: ['17', '17'], pass: 1, attempt: 1, hand: 'left', what: 'C for D flat in the first try' },
  ],
};

/** Three weeks later: the ties hold, the first long pedal rings. */
export const tiesHeld: TakePlan = {
  name: 'desmond-yarrick-2025-11-16',
  piece: 'evening-over-skerrowby',
  seed: 5303,
  player: { ...desmond, tempo: 0.9, timingMs: 18 },
  instrument: { touch: false, pedal: 'switch' },
  recordedAt: '2025-11-16T11:05:00',
  purpose: 'polishing',
  about: 'Ties held, the first long pedal rings; still lifts it in the coda',
  faults: [
    { aspect: 'lengths', kind: 'tieStruckAgain', notes: ['r24-3'], bars: ['24', '25'], pass: 1, attempt: 1, hand: 'right', what: 'one tie struck again' },
    { aspect: 'pedal', kind: 'lifted', bars: ['30', '32'], pass: 1, attempt: 1, hand: 'both', what: 'pedal changed at the bar lines of the coda' },
    { aspect: 'notes', kind: 'addedNote', notes: ['r17-3'], semitones: -1, delayMs: 20, bars: ['17', '17'], pass: 1, attempt: 1, hand: 'right', what: 'A struck along with the high B flat' },
  ],
};

/** The foot in order where it was not, and another slip of it. */
export const bassesCaught: TakePlan = {
  name: 'mei-castellow-2025-11-20',
  piece: 'evening-over-skerrowby',
  seed: 5404,
  player: mei,
  instrument: { touch: true, pedal: 'continuous' },
  recordedAt: '2025-11-20T20:05:00',
  purpose: 'polishing',
  about: 'Basses caught, nothing held over; the foot down too soon in 5-7, no rit., no hairpins',
  faults: [
    { aspect: 'pedal', kind: 'caught', bars: ['5', '7'], pass: 1, attempt: 1, hand: 'both', what: 'the foot is down again before the old sound is gone' },
    { aspect: 'tempo', kind: 'noRitardando', bars: ['30', '32'], pass: 1, attempt: 1, hand: 'both', what: 'no printed rit. is played, neither in bar 20 nor at the close' },
    { aspect: 'dynamics', kind: 'noHairpins', bars: ['5', '29'], pass: 1, attempt: 1, hand: 'both', what: 'no hairpin is played' },
  ],
};
