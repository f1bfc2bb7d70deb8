/** The lines of the desk: each recording with what it holds in words, whether it was heard, and whether it needs the teacher. */
import type { FiledComment, FiledRecording } from '../store/index.js';
import type { BarRange, Glance } from './glance.js';
import { momentInWords, type MomentWords } from './moments.js';
import { recordingAddress, type Room } from './shared.js';
import { titlesOf, type Title } from './titles.js';
import { verdictOf, type Verdict } from './verdict.js';

/** One recording on the desk. */
export interface DeskLine {
  readonly id: number;
  readonly href: string;
  readonly pupil: string;
  readonly pupilSlug: string;
  readonly piece: string;
  readonly pieceSlug: string;
  readonly apart: string;
  /** "Bars 1–16 twice; slow; 3 minutes". */
  readonly line: string;
  readonly comments: number;
  readonly when: MomentWords;
  readonly heard: boolean;
  /** Null until its files have been read again. */
  readonly verdict: Verdict | null;
  /** Sentences to answer with, ready to be edited. */
  readonly ready: readonly string[];
  /** Idempotency key of the answer's form. */
  readonly key: string;
}

/** Lines for some recordings. @param newKey makes idempotency keys */
export function deskLines(room: Room, recordings: readonly FiledRecording[], newKey: () => string): readonly DeskLine[] {
  const titles = titlesOf(room);
  const comments = rememberComments(room);
  const glances = rememberGlances(room);
  return recordings.map((recording) => {
    const glance = glances(recording);
    return {
      ...named(recording, titles),
      line: recording.line,
      comments: recording.comments,
      when: momentInWords(recording.receivedAt, room.now()),
      heard: recording.heardAt !== null,
      verdict: glance === null ? null : verdictAt(room, recording, { glance, glances, comments: comments(recording.pupilId) }),
      ready: glance === null ? [] : readyTexts(glance),
      key: newKey(),
    };
  });
}

/** Whose and what, and where it is. */
function named(recording: FiledRecording, titles: ReadonlyMap<number, Title>): Pick<DeskLine, 'id' | 'href' | 'pupil' | 'pupilSlug' | 'piece' | 'pieceSlug' | 'apart'> {
  const { pupil, piece } = recording;
  return { id: recording.id, href: recordingAddress(recording), pupil: pupil.name, pupilSlug: pupil.slug, piece: piece.title, pieceSlug: piece.slug, apart: titles.get(piece.id)?.apart ?? '' };
}

/** The verdict on a recording, against the one before it and the comments on earlier ones that are open. */
function verdictAt(room: Room, recording: FiledRecording, { glance, glances, comments }: { readonly glance: Glance; readonly glances: (recording: FiledRecording) => Glance | null; readonly comments: readonly FiledComment[] }): Verdict {
  const before = room.store.recordingBefore(recording);
  const earlier = before === null ? null : glances({ ...recording, ...before });
  const open = comments.filter((comment) => comment.pieceId === recording.piece.id && comment.settledAt === null && !comment.whole && comment.receivedAt < recording.receivedAt);
  const seenBefore = before === null || earlier === null || earlier.problem !== '' ? null : { glance: earlier, receivedAt: before.receivedAt };
  return verdictOf({ glance, receivedAt: recording.receivedAt }, seenBefore, open.map(({ barIndexes }): BarRange => barIndexes));
}

/** What is worth saying, then what goes well. */
function readyTexts({ remarks, praise }: Glance): readonly string[] {
  return [...remarks.flatMap(({ worth, text }) => (worth ? [text] : [])), ...praise];
}

/** Glances, each looked up once a page: one recording's is the next one's before. */
export function rememberGlances(room: Room): (recording: FiledRecording) => Glance | null {
  const known = new Map<number, Glance | null>();
  return (recording) => {
    const glance = known.get(recording.id) ?? room.glances.at(recording);
    known.set(recording.id, glance);
    return glance;
  };
}

/** Comments of a pupil, looked up once a page. */
function rememberComments(room: Room): (pupilId: number) => readonly FiledComment[] {
  const known = new Map<number, readonly FiledComment[]>();
  return (pupilId) => {
    const comments = known.get(pupilId) ?? room.store.commentsOfPupil(pupilId);
    known.set(pupilId, comments);
    return comments;
  };
}
