/** The next lesson of a pupil: what to play first, what came in since the last one, what was set, what is still open. */
import { randomUUID } from 'node:crypto';
import type { FiledRecording, LessonSheet, Pupil } from '../../store/index.js';
import { deskLines, type DeskLine } from '../deskLines.js';
import { nextLesson } from '../lessons.js';
import { readBody, type SheetThing } from '../lessonSheet/sheetBody.js';
import { sheetAddress } from '../lessonSheet/sheetPage.js';
import { momentInWords, type MomentWords } from '../moments.js';
import { saidOf, type SaidView } from '../pupilPage.js';
import { pupilAddress, type Room } from '../shared.js';

/** A sheet that was handed out. */
export interface SetView {
  readonly href: string;
  readonly piece: string;
  readonly when: MomentWords;
  readonly things: readonly SheetThing[];
}

/** Everything the page shows. */
export interface LessonView {
  readonly pupil: Pupil;
  readonly pupilHref: string;
  /** "on Friday at 16:30"; "" where no day is known. */
  readonly next: string;
  /** What to begin with; null where nothing came in. */
  readonly first: { readonly href: string; readonly piece: string; readonly text: string } | null;
  /** Recordings since the last sheet, newest first; all of them where there was none. */
  readonly cameIn: readonly DeskLine[];
  /** The last sheet; null where none was made. */
  readonly set: SetView | null;
  readonly open: readonly SaidView[];
  /** The lessons before, newest first. */
  readonly before: readonly SetView[];
}

/** More recordings (>) than this are for the pupil's own page. */
const MOST_LINES = 12;

/** Builds the page. */
export function lessonView(room: Room, pupil: Pupil): LessonView {
  const { store } = room;
  const recordings = store.recordings({ pupilId: pupil.id });
  const kept = store.lessonSheetsOf(pupil.id);
  const sheets = kept.flatMap((sheet) => setView(room, recordings, sheet));
  const [last] = kept;
  const since = recordings.filter(({ receivedAt }) => last === undefined || Date.parse(receivedAt) > Date.parse(last.savedAt));
  const lines = deskLines(room, since.slice(0, MOST_LINES), randomUUID);
  return {
    pupil, pupilHref: pupilAddress(pupil.slug), next: nextLesson(pupil, room.now()),
    first: firstToPlay(lines), cameIn: lines,
    set: sheets[0] ?? null, before: sheets.slice(1),
    open: saidOf(room, recordings, store.commentsOfPupil(pupil.id).filter(({ settledAt }) => settledAt === null)),
  };
}

/** The newest recording that needs the teacher, with the first thing to say of it; else the newest. */
function firstToPlay(lines: readonly DeskLine[]): LessonView['first'] {
  const line = lines.find(({ verdict }) => verdict?.kind === 'needs' || verdict?.kind === 'same') ?? lines[0];
  return line === undefined ? null : { href: line.href, piece: line.piece, text: line.ready[0] ?? '' };
}

/** One sheet; none where it is not one that this program wrote. */
function setView(room: Room, recordings: readonly FiledRecording[], sheet: LessonSheet): readonly SetView[] {
  const recording = recordings.find(({ id }) => id === sheet.recordingId);
  const body = readBody(sheet.body);
  if (recording === undefined || body === null) return [];
  return [{ href: sheetAddress(recording), piece: recording.piece.title, when: momentInWords(sheet.savedAt, room.now()), things: body.things }];
}
