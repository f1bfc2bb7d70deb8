/** The planned recordings of the barcarolle, oldest first. */
import type { TakePlan } from './plan.js';
import { jonas, mei } from './players.js';

/** The first week: the left hand alone, then both hands, slowly and without the foot. */
export const withoutTheFoot: TakePlan = {
  name: 'mei-castellow-2025-09-30',
  piece: 'rowing-home',
  seed: 3404,
  player: { ...mei, tempo: 0.62, timingMs: 20, wander: 0.03, arc: 0.02 },
  instrument: { touch: true, pedal: 'continuous' },
  recordedAt: '2025-09-30T20:40:00',
  purpose: 'first reading',
  about: 'Bars 1-8 left hand alone, then 0-16 together, slowly; no pedal after bar 4',
  faults: [
    { aspect: 'route', kind: 'handAlone', tempo: 1.1, pauseS: 0, bars: ['1', '8'], pass: 1, attempt: 1, hand: 'left', what: 'left hand alone first' },
    { aspect: 'route', kind: 'sectionOnly', bars: ['0', '16'], pass: 1, attempt: null, hand: 'both', what: 'only the first half' },
    { aspect: 'tempo', kind: 'slow', bars: ['0', '16'], pass: 1, attempt: null, hand: 'both', what: 'about six tenths of the marked tempo' },
    { aspect: 'notes', kind: 'misreadAccidental', notes: ['l4-3', 'l4-5', 'l16-3', 'l16-5'], semitones: -1, bars: ['4', '16'], pass: 1, attempt: null, hand: 'left', what: 'G natural for G sharp each time' },
    { aspect: 'pedal', kind: 'notUsed', bars: ['5', '16'], pass: 1, attempt: null, hand: 'both', what: 'the foot stays up, and every bass is lost' },
    { aspect: 'pulse', kind: 'hesitation', pauseS: 1.3, bars: ['13', '13'], pass: 1, attempt: 1, hand: 'both', what: 'waits before the thirds of bar 13' },
  ],
};

/** Working at it: two places break off and are begun again. */
export const wentBackTwice: TakePlan = {
  name: 'mei-castellow-2025-10-07',
  piece: 'rowing-home',
  seed: 3101,
  player: mei,
  instrument: { touch: true, pedal: 'continuous' },
  recordedAt: '2025-10-07T20:15:00',
  purpose: 'building up',
  about: 'Breaks off in bars 7 and 15 and goes back; basses 9-12 not caught',
  faults: [
    { aspect: 'route', kind: 'wentBack', breakAt: 8, pauseS: 1.6, bars: ['5', '7'], pass: 1, attempt: 2, hand: 'both', what: 'breaks off in bar 7 and goes back to bar 5' },
    { aspect: 'route', kind: 'wentBack', breakAt: 6, pauseS: 2.1, bars: ['13', '15'], pass: 1, attempt: 2, hand: 'both', what: 'breaks off in bar 15 and goes back to bar 13' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l7-4'], semitones: 1, bars: ['7', '7'], pass: 1, attempt: 1, hand: 'left', what: 'F for the low E' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l15-1'], semitones: 2, bars: ['15', '15'], pass: 1, attempt: 1, hand: 'left', what: 'E for the low D' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['r15-1'], semitones: 2, bars: ['15', '15'], pass: 1, attempt: 1, hand: 'right', what: 'B for the A under the F' },
    { aspect: 'notes', kind: 'missedNote', notes: ['l26-5'], bars: ['26', '26'], pass: 1, attempt: 1, hand: 'left', what: 'the G sharp before the close does not sound' },
    { aspect: 'pedal', kind: 'bassNotCaught', bars: ['9', '12'], pass: 1, attempt: 1, hand: 'left', what: 'key up before the pedal is down: the basses are lost' },
  ],
};

/** All of it by heart, in a hurry, foot asleep in the middle. */
export const blurredAndRushed: TakePlan = {
  name: 'jonas-brekkewood-2025-10-14',
  piece: 'rowing-home',
  seed: 3202,
  player: jonas,
  instrument: { touch: true, pedal: 'switch' },
  recordedAt: '2025-10-14T21:40:00',
  purpose: 'run-through',
  about: 'Straight through; pedal held over changes, bars 13-15 rushed, no ritardando',
  faults: [
    { aspect: 'pedal', kind: 'blurred', bars: ['4', '4'], pass: 1, attempt: 1, hand: 'both', what: 'D minor rings on into E' },
    { aspect: 'pedal', kind: 'blurred', bars: ['14', '16'], pass: 1, attempt: 1, hand: 'both', what: 'one pedal from F to the end of E seventh' },
    { aspect: 'pedal', kind: 'blurred', bars: ['23', '24'], pass: 1, attempt: 1, hand: 'both', what: 'E seventh rings on into F' },
    { aspect: 'pulse', kind: 'rushed', factor: 0.8, bars: ['13', '15'], pass: 1, attempt: 1, hand: 'both', what: 'runs away with the crescendo' },
    { aspect: 'tempo', kind: 'noRitardando', bars: ['28', '30'], pass: 1, attempt: 1, hand: 'both', what: 'the closing ritardando is not played' },
    { aspect: 'dynamics', kind: 'flat', keep: 0.1, bars: ['13', '30'], pass: 1, attempt: 1, hand: 'both', what: 'one level from the middle to the end' },
    { aspect: 'notes', kind: 'addedNote', notes: ['r22-1'], semitones: -2, delayMs: 0, bars: ['22', '22'], pass: 1, attempt: 1, hand: 'right', what: 'G struck along with the high A' },
  ],
};

/** Two weeks later: nearly ready. */
export const nearlyReady: TakePlan = {
  name: 'mei-castellow-2025-10-21',
  piece: 'rowing-home',
  seed: 3303,
  player: mei,
  instrument: { touch: true, pedal: 'continuous' },
  recordedAt: '2025-10-21T19:55:00',
  purpose: 'polishing',
  about: 'Clean from beginning to end, with small flaws',
  faults: [
    { aspect: 'notes', kind: 'missedNote', notes: ['r19-1'], bars: ['19', '19'], pass: 1, attempt: 1, hand: 'right', what: 'the A under the F does not sound' },
    { aspect: 'pedal', kind: 'blurred', bars: ['12', '12'], pass: 1, attempt: 1, hand: 'both', what: 'A minor rings on into E minor' },
    { aspect: 'notes', kind: 'addedNote', notes: ['r27-1'], semitones: -1, delayMs: 15, bars: ['27', '27'], pass: 1, attempt: 1, hand: 'right', what: 'G sharp struck along with the A of the close' },
  ],
};

/** Five weeks after his first: foot and close in order, other things now. */
export const footAwake: TakePlan = {
  name: 'jonas-brekkewood-2025-11-18',
  piece: 'rowing-home',
  seed: 3505,
  player: { ...jonas, tempo: 1.02 },
  instrument: { touch: true, pedal: 'switch' },
  recordedAt: '2025-11-18T21:55:00',
  purpose: 'run-through',
  about: 'Foot and close in order; left hand late in the coda, one note is hit, G natural in bar 26',
  faults: [
    { aspect: 'rhythm', kind: 'handLate', lateMs: 85, bars: ['24', '27'], pass: 1, attempt: 1, hand: 'left', what: 'left hand behind in the coda' },
    { aspect: 'dynamics', kind: 'sticksOut', notes: ['r11-2'], by: 30, bars: ['11', '11'], pass: 1, attempt: 1, hand: 'right', what: 'the passing D is hit' },
    { aspect: 'notes', kind: 'wrongNote', notes: ['l26-5'], semitones: -1, bars: ['26', '26'], pass: 1, attempt: 1, hand: 'left', what: 'G natural for G sharp before the close' },
  ],
};
