/** Who comes next, by day, and what waits to be said to each. */
import { countInWords } from '../base/index.js';
import type { Lesson, Pupil, Tally } from '../store/index.js';

/** A pupil who comes on a day. */
export interface Coming {
  readonly pupil: Pupil;
  /** "16:30"; "" where only the day is known. */
  readonly time: string;
  /** "two not heard, one comment open"; "" where nothing waits. */
  readonly waits: string;
}

/** One day and who comes on it. */
export interface LessonDay {
  /** "Today", "Tomorrow", "Friday". */
  readonly name: string;
  readonly pupils: readonly Coming[];
}

/** Days of the week as ISO 8601 counts them, 1 to 7. */
export const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

/** A lesson that began this long ago (>) is over, minutes: common lengths are 30 to 60. */
const LESSON_OVER_MIN = 60;

/** Later than every time of day: where lessons without a time stand. */
const LAST = '24:00';

/** The week from now on, day by day; days without a lesson are left out. */
export function weekAhead(pupils: readonly Pupil[], tallies: readonly Tally[], now: Date): readonly LessonDay[] {
  const waiting = new Map(tallies.map((tally) => [tally.pupilId, tally]));
  const coming = pupils.flatMap((pupil) => (pupil.lesson === null ? [] : [{ pupil, lesson: pupil.lesson, days: daysUntil(pupil.lesson, now) }]));
  return [...new Set(coming.map(({ days }) => days))].sort((a, b) => a - b).map((days) => ({
    name: dayName(days, now),
    pupils: coming
      .filter((one) => one.days === days)
      .map(({ pupil, lesson }) => ({ pupil, time: lesson.time ?? '', waits: waitsInWords(waiting.get(pupil.id)) }))
      // lessons without a time come last on their day
      .sort((a, b) => (a.time || LAST).localeCompare(b.time || LAST) || a.pupil.name.localeCompare(b.pupil.name)),
  }));
}

/** The next lesson of one pupil: "today at 16:30", "on Friday", "in a week"; "" where no day is known. */
export function nextLesson({ lesson }: Pupil, now: Date): string {
  if (lesson === null) return '';
  const days = daysUntil(lesson, now);
  const name = dayName(days, now);
  const day = days === 0 || days === 1 ? name.toLowerCase() : days === 7 ? `next ${name}` : `on ${name}`;
  return lesson.time === null ? day : `${day} at ${lesson.time}`;
}

/** Whole days until a lesson: 0 today, 7 where today's is over. */
function daysUntil({ day, time }: Lesson, now: Date): number {
  const days = (day - isoDay(now) + 7) % 7;
  if (days > 0 || time === null) return days;
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  const agoMin = now.getHours() * 60 + now.getMinutes() - (hours * 60 + minutes);
  return agoMin > LESSON_OVER_MIN ? 7 : 0;
}

/** 1 Monday to 7 Sunday. */
function isoDay(now: Date): number {
  return now.getDay() === 0 ? 7 : now.getDay();
}

/** Near days as they are called. */
function dayName(days: number, now: Date): string {
  if (days < 2) return days === 0 ? 'Today' : 'Tomorrow';
  return WEEKDAYS[(isoDay(now) - 1 + days) % 7] ?? '';
}

/** What waits of a pupil. */
function waitsInWords(tally: Tally | undefined): string {
  const { unheard = 0, open = 0 } = tally ?? {};
  const parts = [unheard === 0 ? '' : `${countInWords(unheard)} not heard`, open === 0 ? '' : `${countInWords(open)} ${open === 1 ? 'comment' : 'comments'} open`];
  return parts.filter((part) => part !== '').join(', ');
}
