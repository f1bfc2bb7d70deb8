/** One pupil's piece through the weeks, as one record, from what is kept of each recording. Nothing is read anew for it. */
import { listInWords, sentenceCase } from '../../base/index.js';
import { ASPECTS, type Aspect } from '../../judge/index.js';
import { cleanTwiceRunning, comingBack, settledBy, type WeekEntry } from '../../progress/index.js';
import type { FiledComment, FiledRecording } from '../../store/index.js';
import { barsOf, rangesOf, type Glance } from '../glance.js';
import { momentInWords, type MomentWords } from '../moments.js';
import { printedBars } from '../pupilPage.js';
import { pieceAddress, pupilAddress, recordingAddress, sinceAddress, weeksAddress, type Room } from '../shared.js';
import { barMapSvg, type BarMap, type MapRow } from './barMap.js';

/** One recording. */
export interface WeekView {
  readonly href: string;
  readonly when: MomentWords;
  readonly line: string;
  /** Where it is held against the one before; "" for the first. */
  readonly since: string;
  readonly figures: Glance['figures'];
  /** Bars that were clean now and the time before. */
  readonly clean: number;
  /** "bars 5–8, 11"; "" for none. */
  readonly seen: string;
}

/** A comment and what became of it. */
export interface CommentFollowed {
  readonly where: string;
  readonly text: string;
  readonly href: string;
  readonly when: MomentWords;
  /** "settled", "nothing there since 4 November", "still open". */
  readonly state: string;
}

/** Everything the page shows. */
export interface WeeksView {
  readonly pupil: FiledRecording['pupil'];
  readonly piece: FiledRecording['piece'];
  readonly pupilHref: string;
  readonly pieceHref: string;
  /** What the weeks come to. */
  readonly sentences: readonly string[];
  readonly weeks: readonly WeekView[];
  readonly aspects: readonly { readonly text: string; readonly href: string; readonly current: boolean }[];
  readonly mapWide: string;
  readonly mapNarrow: string;
  readonly comments: readonly CommentFollowed[];
  /** How many are still being looked at. */
  readonly waiting: number;
  /** Recordings that could not be read, and why. */
  readonly unread: readonly { readonly href: string; readonly when: MomentWords; readonly problem: string }[];
}

/** A recording with what is kept of it. */
export interface Followed {
  readonly recording: FiledRecording;
  readonly glance: Glance;
}

/** Builds the page. @param recordings of one pupil and piece, at least one, oldest first */
export function weeksView(room: Room, recordings: readonly FiledRecording[], aspect: Aspect | null): WeeksView {
  const known = followedOf(room, recordings);
  const followed = known.filter(({ glance }) => glance.problem === '');
  const [{ pupil, piece }] = [recordings[0] ?? none()];
  const entries = followed.map(({ glance }) => entryOf(glance, null));
  const numbers = numbersOf(followed);
  const map = mapOf(room, followed, aspect);
  const address = weeksAddress({ pupil, piece });
  return {
    pupil, piece,
    pupilHref: pupilAddress(pupil.slug), pieceHref: pieceAddress(piece.slug),
    sentences: sentencesOf(entries, numbers),
    weeks: followed.map((one, i) => weekView(room, followed, i, one)),
    aspects: [null, ...ASPECTS.filter((one) => followed.some(({ glance }) => glance.remarks.some((remark) => remark.aspect === one)))].map((one) => ({ text: one ?? 'everything', href: one === null ? `${address}#map` : `${address}?aspect=${one}#map`, current: one === aspect })),
    mapWide: barMapSvg({ ...map, variant: 'wide' }), mapNarrow: barMapSvg({ ...map, variant: 'narrow' }),
    comments: commentsOf(room, followed, entries),
    waiting: recordings.length - known.length,
    unread: known.flatMap(({ recording, glance }) => (glance.problem === '' ? [] : [{ href: recordingAddress(recording), when: momentInWords(recording.receivedAt, room.now()), problem: glance.problem }])),
  };
}

/** Recordings with what is kept of them; those that nothing is kept of yet are left out. */
export function followedOf(room: Room, recordings: readonly FiledRecording[]): readonly Followed[] {
  return recordings.flatMap((recording) => {
    const glance = room.glances.at(recording);
    return glance === null ? [] : [{ recording, glance }];
  });
}

/** The tempo is about the piece, not about its bars: under "everything" it would hatch them all. */
const OF_THE_WHOLE: Aspect = 'tempo';

/** The bars of one recording, under one aspect or all. */
function entryOf({ played, remarks }: Glance, aspect: Aspect | null): WeekEntry & { readonly worth: ReadonlySet<number> } {
  const own = remarks.filter((remark) => (aspect === null ? remark.aspect !== OF_THE_WHOLE : remark.aspect === aspect));
  const bars = (some: typeof own): ReadonlySet<number> => new Set(some.flatMap((remark) => remark.bars.flatMap(barsOf)));
  return { played: new Set(played.flatMap(barsOf)), remarked: bars(own), worth: bars(own.filter(({ worth }) => worth)) };
}

/** Rows and numbers of the map of some recordings, oldest first. */
export function mapOf(room: Room, followed: readonly Followed[], aspect: Aspect | null): Omit<BarMap, 'variant'> {
  return { rows: followed.map((one) => rowOf(room, one, aspect)), numbers: numbersOf(followed) };
}

/** One row of the map. */
function rowOf(room: Room, { recording, glance }: Followed, aspect: Aspect | null): MapRow {
  const { played, remarked, worth } = entryOf(glance, aspect);
  return { name: shortDate(recording.receivedAt, room.now()), href: recordingAddress(recording), played, seen: remarked, worth };
}

/** "7 Oct", with the year where it is another. */
function shortDate(moment: string, now: Date): string {
  const day = new Date(moment);
  return new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', ...(day.getFullYear() === now.getFullYear() ? {} : { year: '2-digit' }) }).format(day);
}

/** Printed numbers of the bars by their places, as far as some recording names them; where none does, places are counted. */
function numbersOf(followed: readonly Followed[]): readonly string[] {
  const count = Math.max(0, ...followed.map(({ glance }) => glance.bars));
  const known = new Map(followed.flatMap(({ glance }) => Object.entries(glance.names).map(([bar, name]) => [Number(bar), name] as const)));
  const shift = [...known].map(([bar, name]) => Number(name) - bar).find((by) => Number.isInteger(by)) ?? 1;
  return Array.from({ length: count }, (_, bar) => known.get(bar) ?? String(bar + shift));
}

/** One recording in the list. */
function weekView(room: Room, followed: readonly Followed[], at: number, { recording, glance }: Followed): WeekView {
  const before = followed[at - 1];
  const upToNow = followed.slice(0, at + 1).map((one) => entryOf(one.glance, null));
  return {
    href: recordingAddress(recording),
    when: momentInWords(recording.receivedAt, room.now()),
    line: recording.line,
    since: before === undefined ? '' : sinceAddress(recording, before.recording),
    figures: glance.figures,
    clean: cleanTwiceRunning(upToNow).length,
    seen: inWords([...entryOf(glance, null).remarked], numbersOf(followed)),
  };
}

/** What the weeks come to, in sentences. */
function sentencesOf(entries: readonly WeekEntry[], numbers: readonly string[]): readonly string[] {
  const [clean, stubborn] = [cleanTwiceRunning(entries), comingBack(entries)];
  return [
    clean.length === 0 ? '' : `Clean twice running: ${inWords(clean, numbers)}.`,
    stubborn.length === 0 ? '' : `${sentenceCase(inWords(stubborn, numbers))} came up in each of the last three recordings.`,
  ].filter((sentence) => sentence !== '');
}

/** "bars 5–8, 11 and 13"; "the upbeat, and bars 1–9". */
function inWords(bars: readonly number[], numbers: readonly string[]): string {
  const named = (bar: number): boolean => /^\d/.test(numbers[bar] ?? '');
  const ranges = rangesOf(bars.filter(named)).map(([from, to]) => (from === to ? numbers[from] ?? '' : `${numbers[from] ?? ''}–${numbers[to] ?? ''}`));
  const many = ranges.length > 1 || ranges[0]?.includes('–') === true;
  const numbered = ranges.length === 0 ? '' : `${many ? 'bars' : 'bar'} ${listInWords(ranges)}`;
  return [...bars.filter((bar) => !named(bar)).map((bar) => numbers[bar] ?? ''), numbered].filter((part) => part !== '').join(', ');
}

/** The comments on these recordings, newest first, with what became of them. */
function commentsOf(room: Room, followed: readonly Followed[], entries: readonly WeekEntry[]): readonly CommentFollowed[] {
  const places = new Map(followed.map(({ recording }, i) => [recording.id, i]));
  const pupilId = followed[0]?.recording.pupil.id;
  const all = pupilId === undefined ? [] : room.store.commentsOfPupil(pupilId);
  return all.flatMap((comment) => {
    const at = places.get(comment.recordingId);
    const recording = at === undefined ? undefined : followed[at]?.recording;
    if (at === undefined || recording === undefined) return [];
    return [{
      where: sentenceCase(printedBars(comment)), text: comment.text, when: momentInWords(comment.createdAt, room.now()),
      href: `${recordingAddress(recording)}#comment-${comment.id}`, state: stateOf(room, comment, { followed, entries, at }),
    }];
  });
}

/** What became of a comment. */
function stateOf(room: Room, comment: FiledComment, { followed, entries, at }: { readonly followed: readonly Followed[]; readonly entries: readonly WeekEntry[]; readonly at: number }): string {
  if (comment.settledAt !== null) return 'settled';
  if (comment.whole) return 'still open';
  const by = settledBy(entries, at, barsOf(comment.barIndexes));
  const recording = by === null ? undefined : followed[by]?.recording;
  return recording === undefined ? 'still open' : `nothing there since ${momentInWords(recording.receivedAt, room.now()).words}`;
}

/** A page of a pupil's piece has at least one recording. */
function none(): never {
  throw new RangeError('no recording');
}
