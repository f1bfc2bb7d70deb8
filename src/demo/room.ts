/** The invented people, town and list of recordings of the demo room. Any likeness to a real person is chance. */
import { barcarolleFacts } from './barcarolleFacts.js';
import { blurredAndRushed, footAwake, nearlyReady, wentBackTwice, withoutTheFoot } from './barcarolleTakes.js';
import { marchFacts } from './marchFacts.js';
import { dotsLearned, evenAndHeld, firstReading, halfTheDots, leftOut, notesOnly, repeatTaken, sharpsRead } from './marchTakes.js';
import { eveningFacts } from './eveningFacts.js';
import { eveningOverSkerrowby } from './eveningOverSkerrowby.js';
import { bassesCaught, footLateAndLazy, tiesHeld, tiesStruckAgain } from './eveningTakes.js';
import type { PieceFacts } from './facts.js';
import { gullChase } from './gullChase.js';
import { gullChaseFacts } from './gullChaseFacts.js';
import { cleanRun, overTheTop, runsRushed, stumblesAtTheJump } from './gullChaseTakes.js';
import type { Piece } from './piece.js';
import type { TakePlan } from './plan.js';
import { quaysideMarch } from './quaysideMarch.js';
import { rowingHome } from './rowingHome.js';
import { comments, lessons } from './talk.js';

/** The invented teacher, who also wrote the pieces. */
export const TEACHER = 'Hester Quillane';
/** The invented town. */
export const TOWN = 'Skerrowby';

/** The pieces of the room. */
export const pieces: readonly Piece[] = [rowingHome, quaysideMarch, eveningOverSkerrowby, gullChase];

/** The planned recordings, oldest first. */
export const takes: readonly TakePlan[] = [
  withoutTheFoot, notesOnly, wentBackTwice, firstReading, blurredAndRushed, evenAndHeld, leftOut, nearlyReady, sharpsRead,
  tiesStruckAgain, runsRushed, footLateAndLazy, stumblesAtTheJump, repeatTaken, halfTheDots, cleanRun, tiesHeld,
  footAwake, dotsLearned, bassesCaught, overTheTop,
];

/** What the composer planned in the pieces, in the same order. */
export const facts: readonly PieceFacts[] = [barcarolleFacts, marchFacts, eveningFacts, gullChaseFacts];

/** The invented pupils. */
const pupils = [
  { slug: 'nilo-tarrand', name: 'Nilo Tarrand', pronoun: 'he', born: 2017, ageGroup: 'child', about: 'Eight years old, second year. His grandmother sits beside him and presses record.' },
  { slug: 'asha-vellory', name: 'Asha Vellory', pronoun: 'she', born: 2012, ageGroup: 'teenager', about: 'Thirteen. Learns the notes in a day and needs patience for the rest.' },
  { slug: 'jonas-brekkewood', name: 'Jonas Brekkewood', pronoun: 'he', born: 2009, ageGroup: 'teenager', about: 'Sixteen. Plays from memory, likes it fast and late in the evening.' },
  { slug: 'mei-castellow', name: 'Mei Castellow', pronoun: 'she', born: 1991, ageGroup: 'adult', about: 'Thirty-four, works shifts at the harbour office and practises when the house is quiet.' },
  { slug: 'desmond-yarrick', name: 'Desmond Yarrick', pronoun: 'he', born: 1958, ageGroup: 'adult', about: 'Sixty-seven, back at the piano after forty years, on an old keyboard without touch response.' },
] as const;

/** What a pupil sent that is no recording: a sound file from a telephone, named as if it were one. */
export const unreadableFile = { pupil: 'asha-vellory', piece: 'quayside-march', file: 'unreadable/asha-vellory-2025-10-09.mid', recordedAt: '2025-10-09T18:31:00', about: 'A sound file from her telephone, named .mid: it cannot be read' } as const;

/** `room.json`: who and what the room holds. Paths are relative to that file; local times without a zone. */
export function roomJson(): string {
  const room = {
    format: 'barwise-room/1',
    invented: true,
    teacher: TEACHER,
    town: TOWN,
    pupils,
    pieces: pieces.map(({ slug, title }) => ({ slug, title, score: `${slug}/score.musicxml` })),
    recordings: takes.map((take) => ({
      pupil: take.player.pupil, piece: take.piece, file: `${take.piece}/${take.name}.mid`, recordedAt: take.recordedAt, about: take.about,
    })),
    unreadable: [unreadableFile],
    lessons,
    comments,
  };
  return `${JSON.stringify(room, null, 2)}\n`;
}
