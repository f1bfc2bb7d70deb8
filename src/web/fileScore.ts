/** A score file on its way in: a new piece, or a newer version of the score of one that is here. */
import type { IncomingFile, Piece, StoredScore } from '../store/index.js';
import { refusal, type Filed } from './filed.js';
import { partChoice } from './partChoice.js';
import { pieceAddress, scoreFile, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import { USUAL_WIDTH_PX } from './width.js';

/** Longest title taken from a file, characters. */
const LONGEST_TITLE = 200;

/** How a score is filed. */
export interface ScoreFiling {
  readonly say: (text: string) => void;
  /** The piece that this is a newer version of, or null for a piece of its own. */
  readonly versionOf: Piece | null;
}

/** Reads a score, and keeps it where it can be read. Analysis and engraving are begun, so that the piece's page need not wait for them. */
export async function fileScore(room: Room, file: IncomingFile, { say, versionOf }: ScoreFiling): Promise<{ readonly outcome: Filed; readonly piece: Piece | null }> {
  try {
    say('reading the score');
    const score = await room.pipeline.score(file);
    const piece = versionOf === null ? room.store.addPiece({ title: titleFor(score.title, file.name), composer: score.composer, score: file }) : versionOf;
    if (versionOf !== null) room.store.addScore(piece.id, file);
    void begin(room, room.store.scoreOfPiece(piece.id));
    const whole = titlesOf(room).get(piece.id)?.whole ?? piece.title;
    const part = partChoice(score, room.store.scoreOfPiece(piece.id));
    const what = versionOf === null ? `Filed as the score of ${whole}.` : `Filed as the newest score of ${whole}; recordings that came before stay with the score they were read against.`;
    return { outcome: { file: file.name, ok: true, text: `${what}${part === null ? '' : ` ${part.text}; its page lets you choose another.`}`, href: pieceAddress(piece.slug), guessed: null }, piece };
  } catch (error) {
    return { outcome: refusal(room, file.name, error), piece: null };
  }
}

/** Analyses and engraves; whatever is wrong is told on the page that asks for it. */
async function begin(room: Room, score: StoredScore): Promise<void> {
  const file = scoreFile(room.store, score);
  await Promise.allSettled([room.pipeline.analysis(file), room.pipeline.engraving(file, USUAL_WIDTH_PX)]);
}

/** The title in the score, else the file's name. */
function titleFor(title: string, fileName: string): string {
  return (title.trim() === '' ? fileName.replace(/\.[^.]*$/, '') : title).slice(0, LONGEST_TITLE);
}
