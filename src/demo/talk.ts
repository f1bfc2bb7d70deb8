/** What the invented teacher of the demo room wrote about the recordings, and when the pupils come. All of it is made up. */

/** One comment. */
export interface PlannedComment {
  /** Recording, by its file. */
  readonly file: string;
  /** First and last printed bar; null for the recording as a whole. All demo pieces begin with an upbeat numbered 0. */
  readonly bars: readonly [first: number, last: number] | null;
  readonly text: string;
  /** Local time without a zone. */
  readonly writtenAt: string;
  /** True where what it asks for was done later. */
  readonly settled: boolean;
}

/** When a pupil comes. */
export interface PlannedLesson {
  readonly pupil: string;
  /** 1 Monday to 7 Sunday. */
  readonly day: number;
  readonly time: string;
}

/** Lessons of the week. */
export const lessons: readonly PlannedLesson[] = [
  { pupil: 'nilo-tarrand', day: 4, time: '15:30' },
  { pupil: 'asha-vellory', day: 5, time: '16:30' },
  { pupil: 'jonas-brekkewood', day: 5, time: '17:15' },
  { pupil: 'mei-castellow', day: 3, time: '18:30' },
  { pupil: 'desmond-yarrick', day: 2, time: '10:00' },
];

/** Comments, oldest first. */
export const comments: readonly PlannedComment[] = [
  { file: 'rowing-home/mei-castellow-2025-09-30.mid', bars: [4, 8], text: 'Put the foot down again after bar 4: up as the new bass sounds, down when it is clear.', writtenAt: '2025-10-01T21:05:00', settled: true },
  { file: 'quayside-march/asha-vellory-2025-10-02.mid', bars: null, text: 'The notes are safe already. Now the dotted pairs: count four semiquavers and place the short note on the last.', writtenAt: '2025-10-02T21:20:00', settled: true },
  { file: 'rowing-home/mei-castellow-2025-10-07.mid', bars: [7, 7], text: 'You go back whenever the left hand misses bar 7. Start at 7 itself, then play through once without stopping.', writtenAt: '2025-10-07T21:30:00', settled: true },
  { file: 'rowing-home/mei-castellow-2025-10-07.mid', bars: [9, 12], text: 'Catch each bass with the foot before the hand leaves it.', writtenAt: '2025-10-07T21:34:00', settled: true },
  { file: 'quayside-march/nilo-tarrand-2025-10-08.mid', bars: [5, 6], text: 'For your grandmother: Nilo waits before bar 6. Two notes into bar 6, three times a day, and nothing else there.', writtenAt: '2025-10-08T19:10:00', settled: true },
  { file: 'rowing-home/jonas-brekkewood-2025-10-14.mid', bars: [13, 15], text: 'Bars 13–15 run away. Say the three quavers of each beat aloud, and play to your own voice.', writtenAt: '2025-10-15T09:40:00', settled: true },
  { file: 'rowing-home/jonas-brekkewood-2025-10-14.mid', bars: null, text: 'Change the pedal with the harmony, not with the phrase. Once through with the left hand and the foot alone.', writtenAt: '2025-10-15T09:44:00', settled: true },
  { file: 'quayside-march/asha-vellory-2025-10-16.mid', bars: [1, 8], text: 'Left hand alone: the dots half as long as they feel. Then add the smooth tune above.', writtenAt: '2025-10-16T21:15:00', settled: false },
  { file: 'quayside-march/desmond-yarrick-2025-10-19.mid', bars: null, text: 'A fine walking tempo. Take the repeat next time: the second bar of the march comes twice for a reason.', writtenAt: '2025-10-20T10:45:00', settled: true },
  { file: 'rowing-home/mei-castellow-2025-10-21.mid', bars: null, text: 'Ready for the harbour evening. Nothing to change; play it to somebody.', writtenAt: '2025-10-21T22:00:00', settled: true },
  { file: 'evening-over-skerrowby/desmond-yarrick-2025-10-26.mid', bars: [1, 4], text: 'The tied notes are played again. Hold them, and say “hold” on one.', writtenAt: '2025-10-27T10:40:00', settled: true },
  { file: 'gull-chase/asha-vellory-2025-10-30.mid', bars: [1, 8], text: 'The semiquavers first in groups of four with a stop on each first note, then two groups, then the bar.', writtenAt: '2025-10-30T20:50:00', settled: true },
  { file: 'evening-over-skerrowby/mei-castellow-2025-11-04.mid', bars: [22, 24], text: 'Catch each bass with the foot before the hand leaves it.', writtenAt: '2025-11-04T21:40:00', settled: true },
  { file: 'gull-chase/jonas-brekkewood-2025-11-06.mid', bars: [18, 18], text: 'The crossing: left hand alone, and move before you need to. Start at bar 18 itself.', writtenAt: '2025-11-07T09:30:00', settled: false },
  { file: 'quayside-march/nilo-tarrand-2025-11-12.mid', bars: null, text: 'No wait before bar 6 any more! Now the left hand a little softer than the tune.', writtenAt: '2025-11-12T19:00:00', settled: false },
  { file: 'evening-over-skerrowby/desmond-yarrick-2025-11-16.mid', bars: [28, 32], text: 'In the coda the pedal stays down until the sound has gone by itself.', writtenAt: '2025-11-17T10:55:00', settled: false },
];
