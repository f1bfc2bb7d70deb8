/** A moment for people: in words, and exact on demand. */
export interface MomentWords {
  /** "this morning", "Tuesday evening", "3 November". */
  readonly words: string;
  /** ISO 8601, for `<time datetime>`. */
  readonly iso: string;
  /** "Tuesday 3 November 2026, 18:04". */
  readonly exact: string;
}

/** Making one of these takes longer than all else that a page does; they hold nothing. */
const EXACT = new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeStyle: 'short' });
const WEEKDAY = new Intl.DateTimeFormat('en-GB', { weekday: 'long' });
const DATE = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long' });
const DATE_OF_YEAR = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Hour at which the night ends. */
const NIGHT_ENDS = 5;

/** Parts of the day by the hour at which they end, common usage. */
const DAY_PARTS = [
  { until: NIGHT_ENDS, name: 'night' },
  { until: 12, name: 'morning' },
  { until: 18, name: 'afternoon' },
  { until: 22, name: 'evening' },
  { until: 24, name: 'night' },
] as const;

/** Says when something was, as seen from now; days and hours are those of this machine. */
export function momentInWords(iso: string, now: Date): MomentWords {
  const moment = new Date(iso);
  const exact = EXACT.format(moment);
  return { words: words(moment, now), iso, exact };
}

/** A day by its date: "Tuesday 7 October". */
export function dayInWords(iso: string): string {
  return new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long' }).format(new Date(iso));
}

/** Below this a recording is a matter of seconds, s. */
const UNDER_A_MINUTE_S = 50;

/** A length of time as it is said: "20 seconds" (to the nearest five), "1 minute", "1½ minutes", "3 minutes". */
export function lengthInWords(seconds: number): string {
  if (seconds < UNDER_A_MINUTE_S) return `${Math.max(5, Math.round(seconds / 5) * 5)} seconds`;
  const halves = Math.round(seconds / 30);
  if (halves <= 2) return '1 minute';
  return halves === 3 ? '1½ minutes' : `${Math.round(seconds / 60)} minutes`;
}

/** A moment of a recording on the clock: "0:07", "12:40". */
export function clockTime(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Near days by name, others by date, other years with the year. */
function words(moment: Date, now: Date): string {
  const part = DAY_PARTS.find(({ until }) => moment.getHours() < until)?.name ?? 'night';
  // the small hours belong to the night that began the day before
  const evening = moment.getHours() < NIGHT_ENDS ? new Date(moment.getTime() - NIGHT_ENDS * HOUR_MS) : moment;
  const days = Math.round((startOfDay(now) - startOfDay(evening)) / DAY_MS);
  if (days === 0) return part === 'night' ? 'tonight' : `this ${part}`;
  if (days === 1) return part === 'night' ? 'last night' : `yesterday ${part}`;
  if (days > 1 && days < 7) return `${WEEKDAY.format(evening)} ${part}`;
  return (moment.getFullYear() === now.getFullYear() ? DATE : DATE_OF_YEAR).format(moment);
}

/** Midnight before a moment, ms. */
function startOfDay(moment: Date): number {
  return new Date(moment.getFullYear(), moment.getMonth(), moment.getDate()).getTime();
}
