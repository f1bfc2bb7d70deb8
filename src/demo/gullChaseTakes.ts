/** The planned recordings of the quick piece, oldest first. */
import type { TakePlan } from './plan.js';
import { asha, jonas } from './players.js';

/** All notes known, all of them too soon. */
export const runsRushed: TakePlan = {
  name: 'asha-vellory-2025-10-30',
  piece: 'gull-chase',
  seed: 6101,
  player: asha,
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-10-30T17:50:00',
  purpose: 'building up',
  about: 'Repeat not taken; semiquavers uneven and rushed, left-hand staccato held',
  faults: [
    { aspect: 'route', kind: 'repeatLeftOut', bars: ['16', '17'], pass: 1, attempt: 1, hand: 'both', what: 'goes straight to the second ending' },
    { aspect: 'rhythm', kind: 'unevenRuns', share: 0.3, bars: ['1', '15'], pass: 1, attempt: 1, hand: 'right', what: 'semiquavers limp, every second one late' },
    { aspect: 'pulse', kind: 'rushed', factor: 0.82, bars: ['5', '7'], pass: 1, attempt: 1, hand: 'both', what: 'runs away with the crescendo' },
    { aspect: 'pulse', kind: 'rushed', factor: 0.8, bars: ['30', '32'], pass: 1, attempt: 1, hand: 'both', what: 'runs away before the close' },
    { aspect: 'touch', kind: 'staccatoHeld', ratio: 0.9, bars: ['1', '12'], pass: null, attempt: null, hand: 'left', what: 'staccato dots held nearly to the next note' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l7-2b'], semitones: -1, bars: ['7', '7'], pass: 1, attempt: 1, hand: 'left', what: 'G natural for G sharp' },
    { aspect: 'notes', kind: 'missedNote', notes: ['r13-1'], bars: ['13', '13'], pass: 1, attempt: 1, hand: 'right', what: 'the first note of the hemiola does not sound' },
  ],
};

/** From memory, until the left hand has to cross. */
export const stumblesAtTheJump: TakePlan = {
  name: 'jonas-brekkewood-2025-11-06',
  piece: 'gull-chase',
  seed: 6202,
  player: jonas,
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-11-06T22:10:00',
  purpose: 'building up',
  about: 'With the repeat; twice back to bar 18 from the crossing hands; no dynamics in the first half',
  faults: [
    { aspect: 'route', kind: 'wentBack', breakAt: 3, pauseS: 1.3, bars: ['18', '19'], pass: 1, attempt: 2, hand: 'both', what: 'breaks off in bar 19 and goes back to bar 18' },
    { aspect: 'route', kind: 'wentBack', breakAt: 5, pauseS: 1.7, bars: ['18', '21'], pass: 1, attempt: 3, hand: 'both', what: 'breaks off in bar 21 and goes back to bar 18 once more' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l19-2'], semitones: -2, bars: ['19', '19'], pass: 1, attempt: 1, hand: 'left', what: 'G for the high A' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l21-2'], semitones: -1, bars: ['21', '21'], pass: 1, attempt: 1, hand: 'left', what: 'A for the high B flat' },
    { aspect: 'notes', kind: 'misreadAccidental', notes: ['r33-1'], semitones: -1, bars: ['33', '33'], pass: 1, attempt: 1, hand: 'right', what: 'F natural in the last chord' },
    { aspect: 'rhythm', kind: 'handLate', lateMs: 70, bars: ['24', '25'], pass: 1, attempt: null, hand: 'left', what: 'left hand behind in the three against two' },
    { aspect: 'dynamics', kind: 'flat', keep: 0, bars: ['0', '17'], pass: null, attempt: null, hand: 'both', what: 'one level through the whole first half' },
  ],
};

/** Two weeks later: even, in time, with the repeat. */
export const cleanRun: TakePlan = {
  name: 'asha-vellory-2025-11-13',
  piece: 'gull-chase',
  seed: 6303,
  player: { ...asha, timingMs: 12 },
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-11-13T18:15:00',
  purpose: 'run-through',
  about: 'A good run from beginning to end, with the repeat',
  faults: [
    { aspect: 'notes', kind: 'missedNote', notes: ['l23-3'], bars: ['23', '23'], pass: 1, attempt: 1, hand: 'left', what: 'the second note over the right hand does not sound' },
  ],
};

/** The crossing is safe; now it runs. */
export const overTheTop: TakePlan = {
  name: 'jonas-brekkewood-2025-11-21',
  piece: 'gull-chase',
  seed: 6404,
  player: { ...jonas, tempo: 1.34, wander: 0.14 },
  instrument: { touch: true, pedal: 'none' },
  recordedAt: '2025-11-21T22:25:00',
  purpose: 'run-through',
  about: 'Through at last with the crossing safe; far too fast, never steady, one run hit',
  faults: [
    { aspect: 'tempo', kind: 'fast', bars: ['0', '33'], pass: null, attempt: null, hand: 'both', what: 'a third over the mark' },
    { aspect: 'pulse', kind: 'unsteady', bars: ['0', '33'], pass: null, attempt: null, hand: 'both', what: 'the tempo wavers all the way' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['r15-3'], semitones: 2, bars: ['15', '15'], pass: 1, attempt: 1, hand: 'right', what: 'B for A in the run down' },
    { aspect: 'dynamics', kind: 'sticksOut', notes: ['r15-4'], by: 30, bars: ['15', '15'], pass: 2, attempt: 1, hand: 'right', what: 'the thumb hits its note the second time' },
  ],
};
