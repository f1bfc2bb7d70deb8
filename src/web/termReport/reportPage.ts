/**
 * A term report for parents: the pieces, what came of each in plain words and a picture, and the teacher's text. What the
 * program says is counted from what is kept of the recordings; judging the term is the teacher's.
 */
import { countInWords, listInWords, sentenceCase } from '../../base/index.js';
import { cleanTwiceRunning, type WeekEntry } from '../../progress/index.js';
import type { FiledRecording, Pupil } from '../../store/index.js';
import { barsOf, type Glance } from '../glance.js';
import { pupilAddress, type Room } from '../shared.js';
import { barMapSvg } from '../weeks/barMap.js';
import { followedOf, mapOf } from '../weeks/weeksPage.js';

/** A piece of the term. */
export interface TermPiece {
  readonly title: string;
  readonly sentences: readonly string[];
  /** The bars through the recordings; "" for a single recording, and for pieces beyond the first few. */
  readonly map: string;
}

/** What the teacher writes. */
export interface ReportBody {
  /** First day of the term, ISO 8601. */
  readonly from: string;
  readonly text: string;
}

/** Everything the page shows. */
export interface ReportView {
  readonly pupil: Pupil;
  readonly address: string;
  readonly back: string;
  readonly from: string;
  /** "1 September to 25 November 2026". */
  readonly span: string;
  readonly pieces: readonly TermPiece[];
  readonly text: string;
  readonly longest: number;
  readonly kept: boolean;
}

/** Longest text, characters: with three pieces the report is still one side. */
export const LONGEST_TEXT = 1500;

/** More pieces (>) than this have no picture. */
const MOST_PICTURES = 3;

/** A term, where no day was chosen, ms: three months. */
const TERM_MS = 92 * 86_400_000;

/** Address of a pupil's report. */
export function reportAddress(pupil: Pupil): string {
  return `${pupilAddress(pupil.slug)}/report`;
}

/** Builds the page. */
export function reportView(room: Room, pupil: Pupil): ReportView {
  const kept = room.store.termReport(pupil.id);
  const body = (kept === null ? null : readReport(kept.body)) ?? { from: firstDay(room, pupil), text: '' };
  const recordings = room.store.recordings({ pupilId: pupil.id }).filter(({ receivedAt }) => receivedAt.slice(0, 10) >= body.from).reverse();
  const pieces = [...new Map(recordings.map(({ piece }) => [piece.id, piece])).values()];
  return {
    pupil, address: reportAddress(pupil), back: pupilAddress(pupil.slug),
    from: body.from, span: spanInWords(body.from, room.now()),
    pieces: pieces.map((piece, i) => termPiece(room, recordings.filter((one) => one.piece.id === piece.id), i < MOST_PICTURES)),
    text: body.text, longest: LONGEST_TEXT, kept: kept !== null,
  };
}

/** The first day that is shown before one is chosen: three months back from the newest recording. */
function firstDay(room: Room, pupil: Pupil): string {
  const [newest] = room.store.recordings({ pupilId: pupil.id, most: 1 });
  const end = newest === undefined ? room.now().getTime() : Date.parse(newest.receivedAt);
  return new Date(end - TERM_MS).toISOString().slice(0, 10);
}

/** "from 1 September 2026 to 25 November 2026". */
function spanInWords(from: string, now: Date): string {
  const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long' });
  return `${day.format(new Date(`${from}T12:00:00`))} to ${day.format(now)}`;
}

/** One piece in plain words. @param recordings of it in the term, oldest first, at least one */
function termPiece(room: Room, recordings: readonly FiledRecording[], pictured: boolean): TermPiece {
  const followed = followedOf(room, recordings).filter(({ glance }) => glance.problem === '');
  const map = pictured && followed.length > 1 ? barMapSvg({ ...mapOf(room, followed, null), variant: 'wide' }) : '';
  return { title: recordings[0]?.piece.title ?? '', sentences: sentencesOf(recordings.length, followed.map(({ glance }) => glance)), map };
}

/** What is said of a piece. */
function sentencesOf(count: number, glances: readonly Glance[]): readonly string[] {
  const bars = Math.max(0, ...glances.map((glance) => glance.bars));
  const clean = cleanTwiceRunning(glances.map(entryOf)).length;
  return [
    `${sentenceCase(countInWords(count))} ${count === 1 ? 'recording was' : 'recordings were'} sent.`,
    clean === 0 || bars === 0 ? '' : `${sentenceCase(countInWords(clean))} of ${bars} bars went well twice running.`,
    tempoSentence(glances),
    goneSentence(glances),
    glances.at(-1)?.praise[0] ?? '',
  ].filter((sentence) => sentence !== '');
}

/** A recording's bars. */
function entryOf({ played, remarks }: Glance): WeekEntry {
  return { played: new Set(played.flatMap(barsOf)), remarked: new Set(remarks.flatMap((remark) => remark.bars.flatMap(barsOf))) };
}

/** Less (<) of a change of tempo is none, as a share: within a tenth is the same tempo, common practice. */
const SAME_TEMPO = 0.1;

/** How the tempo of the playings went; practice does not count. */
function tempoSentence(glances: readonly Glance[]): string {
  const tempos = glances.flatMap(({ figures }) => (figures.practice || figures.tempo === null ? [] : [figures.tempo]));
  const [first, last] = [tempos[0], tempos.at(-1)];
  if (first === undefined || last === undefined || tempos.length < 2) return '';
  if (Math.abs(last / first - 1) < SAME_TEMPO) return `The tempo stayed at about ${last}.`;
  return `The tempo went from ${first} to ${last} beats a minute.`;
}

/** What was worth saying of the first recording and is not seen in the last. */
function goneSentence(glances: readonly Glance[]): string {
  const [first, last] = [glances[0], glances.at(-1)];
  if (first === undefined || last === undefined || glances.length < 2) return '';
  const still = new Set(last.remarks.map(({ aspect }) => aspect));
  const gone = [...new Set(first.remarks.filter(({ worth }) => worth).map(({ aspect }) => aspect))].filter((aspect) => !still.has(aspect));
  return gone.length === 0 ? '' : `What there was to say about ${listInWords(gone)} at first is no longer heard.`;
}

/** A report that was kept; null for what this program did not write. */
export function readReport(json: string): ReportBody | null {
  const kept: unknown = JSON.parse(json);
  return typeof kept === 'object' && kept !== null && 'from' in kept && typeof kept.from === 'string' && 'text' in kept && typeof kept.text === 'string' ? { from: kept.from, text: kept.text } : null;
}
