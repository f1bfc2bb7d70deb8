/*
 * The teacher's question: does this recording need me?
 *
 * Conventions: what is worth saying now is held against everything seen in the pupil's recording of the piece before it,
 *   and against the comments that are still open. Bars are places in `Score.bars`.
 * Method: a remark is known where the recording before had one of the same aspect, kind and hand in the same bars, give or
 *   take one. Nothing worth saying: nothing new. All of it known: the same again. Anything else, and every first
 *   recording that has something to say, needs the teacher.
 * Source: our own rule. One bar of tolerance: a hesitation falls a bar earlier or later from one playing to the next.
 * What it does not tell: whether the pupil plays better. What no longer stands out is named, not praised.
 */
import { countInWords, groupBy, listInWords } from '../base/index.js';
import { barsOf, rangesOf, type BarRange, type Glance, type GlanceRemark } from './glance.js';

/** Whether a recording needs the teacher. */
export interface Verdict {
  readonly kind: 'nothing' | 'same' | 'needs' | 'unread';
  /** "nothing new", "the same two bars as last week", "needs you". */
  readonly text: string;
  /** What it rests on, for a second look: "bars 7 and 12"; "" where the verdict says all. */
  readonly because: string;
}

/** A recording as far as the verdict goes. */
export interface Seen {
  readonly glance: Glance;
  readonly receivedAt: string;
}

/** Bars (<=) by which a remark may have moved and be the same one. */
const NEAR_BARS = 1;

/** More bars than this (>) are too many to be taken in at a glance: things are counted in their place. */
const MOST_BARS_NAMED = 4;

/** What is in more (>) than this share of the bars played goes through the whole piece. */
const WHOLE_SHARE = 0.6;

/** Days from which (>=) and up to which (<=) a recording is "last week". */
const WEEK_DAYS = { from: 5, to: 9 } as const;

const DAY_MS = 86_400_000;

/** The verdict on one recording. @param open bars of the comments on earlier recordings of the piece that are still open */
export function verdictOf(now: Seen, before: Seen | null, open: readonly BarRange[] = []): Verdict {
  const { glance } = now;
  if (glance.problem !== '') return { kind: 'unread', text: 'could not be read', because: glance.problem };
  const worth = glance.remarks.filter((remark) => remark.worth);
  const fresh = worth.filter((remark) => before === null || !before.glance.remarks.some((old) => isSame(old, remark)));
  if (worth.length === 0) return nothingNew(glance, before?.glance ?? null, open);
  if (before !== null && fresh.length === 0) return theSame(now, before, worth);
  const what = thingsNamed(glance, fresh);
  return { kind: 'needs', text: 'needs you', because: before === null ? `first recording of this piece: ${what}` : `new: ${what}` };
}

/** "tempo; notes in bar 15": an aspect at a time; what goes through the piece needs no bars. */
function thingsNamed(glance: Glance, remarks: readonly GlanceRemark[]): string {
  const played = glance.played.flatMap(barsOf).length;
  return [...groupBy(remarks, ({ aspect }) => aspect)]
    .map(([aspect, some]) => (barsIn(some).length > played * WHOLE_SHARE ? aspect : `${aspect} in ${barsNamed(glance, some)}`))
    .join('; ');
}

/** Nothing is worth saying: what stood out before and does not now, and which comments may be done. */
function nothingNew(glance: Glance, before: Glance | null, open: readonly BarRange[]): Verdict {
  const gone = before?.remarks.filter((remark) => remark.worth && isPlayed(glance, remark.bars)) ?? [];
  const done = open.filter((bars) => isPlayed(glance, [bars]));
  const because = [
    before !== null && gone.length > 0 ? `${barsNamed(before, gone)} no longer ${isOneBar(gone) ? 'stands' : 'stand'} out` : '',
    done.length > 0 ? `${done.length === 1 ? 'a comment' : `${countInWords(done.length)} comments`} may be settled` : '',
  ];
  return { kind: 'nothing', text: before === null ? 'nothing stands out' : 'nothing new', because: because.filter((part) => part !== '').join('; ') };
}

/** All of it was there the time before. */
function theSame(now: Seen, before: Seen, worth: readonly GlanceRemark[]): Verdict {
  const bars = barsIn(worth);
  const what = bars.length === 1 ? 'bar' : bars.length <= MOST_BARS_NAMED ? `${countInWords(bars.length)} bars` : worth.length === 1 ? 'thing' : `${countInWords(worth.length)} things`;
  return { kind: 'same', text: `the same ${what} as ${whenBefore(before.receivedAt, now.receivedAt)}`, because: barsNamed(now.glance, worth) };
}

/** How a pupil would call the recording before: "last week". */
function whenBefore(before: string, now: string): string {
  const days = Math.round((Date.parse(now) - Date.parse(before)) / DAY_MS);
  if (days >= WEEK_DAYS.from && days <= WEEK_DAYS.to) return 'last week';
  return days === 0 ? 'earlier that day' : 'last time';
}

/** True where two remarks are about the same thing. */
function isSame(old: GlanceRemark, now: GlanceRemark): boolean {
  const isLike = old.aspect === now.aspect && old.kind === now.kind && (old.hand === now.hand || old.hand === '' || now.hand === '');
  return isLike && now.bars.every((range) => old.bars.some((other) => overlap(other, range)));
}

/** True where two stretches meet, give or take. */
function overlap([from, to]: BarRange, [otherFrom, otherTo]: BarRange): boolean {
  return from <= otherTo + NEAR_BARS && to >= otherFrom - NEAR_BARS;
}

/** True where all of some bars were played. */
function isPlayed({ played }: Glance, bars: readonly BarRange[]): boolean {
  return bars.every(([from, to]) => played.some(([first, last]) => first <= from && last >= to));
}

/** All bars of some remarks, each once. */
function barsIn(remarks: readonly GlanceRemark[]): readonly number[] {
  return [...new Set(remarks.flatMap((remark) => remark.bars.flatMap(barsOf)))].sort((a, b) => a - b);
}

/** True for remarks about one bar alone. */
function isOneBar(remarks: readonly GlanceRemark[]): boolean {
  return barsIn(remarks).length === 1;
}

/** "bar 7", "bars 7 and 12", "bars 1–8, 12 and more". */
function barsNamed({ names }: Glance, remarks: readonly GlanceRemark[]): string {
  const ranges = rangesOf(barsIn(remarks));
  const name = (bar: number): string => names[String(bar)] ?? '';
  const texts = ranges.slice(0, MOST_BARS_NAMED).map(([from, to]) => (from === to ? name(from) : `${name(from)}–${name(to)}`));
  const all = listInWords(ranges.length > MOST_BARS_NAMED ? [...texts, 'more'] : texts);
  if (!/^\d/.test(all)) return all;
  return `${isOneBar(remarks) ? 'bar' : 'bars'} ${all}`;
}
