/**
 * People who send recordings. Only what the pages need is kept of them: a name, and how to speak of them.
 */
import { InputError } from '../base/index.js';
import { moment, tidyName, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, numberOrNull, textOf, textOrNull } from './rows.js';
import { freeSlug, slugOf } from './slug.js';
import type { Lesson, Pronoun, Pupil } from './types.js';

/** A time of day, "16:30". */
const TIME_OF_DAY = /^([01]\d|2[0-3]):[0-5]\d$/;

/** Nobody plays the piano at this age (>=), years. */
const OLDEST = 120;

/** What may be said of a new pupil beyond the name. */
export interface PupilOptions {
  readonly pronoun?: Pronoun | null;
  readonly invented?: boolean;
}

/**
 * Adds a pupil.
 * @throws InputError code `empty` or `too-large` for the name
 */
export function addPupil(context: StoreContext, name: string, options: PupilOptions = {}): Pupil {
  const { database } = context;
  const tidy = tidyName(name, 'pupil’s name');
  return database.together(() => {
    const slug = freeSlug(slugOf(tidy, 'pupil'), (candidate) => pupilBySlug(context, candidate) !== null);
    const { id } = database.run('INSERT INTO pupils (slug, name, pronoun, invented, created_at) VALUES (?, ?, ?, ?, ?)', [
      slug, tidy, options.pronoun ?? null, options.invented === true ? 1 : 0, moment(context),
    ]);
    return pupilById(context, id);
  });
}

/** The pupil at an address, or null. */
export function pupilBySlug(context: StoreContext, slug: string): Pupil | null {
  const row = context.database.get('SELECT * FROM pupils WHERE slug = ?', [slug]);
  return row === null ? null : pupilOf(row);
}

/** All pupils by name; those taken off the lists where asked for. */
export function allPupils(context: StoreContext, { removed = false }: { readonly removed?: boolean } = {}): readonly Pupil[] {
  const byName = new Intl.Collator('en-GB');
  const rows = context.database.all(`SELECT * FROM pupils WHERE removed_at IS ${removed ? 'NOT ' : ''}NULL ORDER BY id`);
  return rows.map(pupilOf).sort((a, b) => byName.compare(a.name, b.name));
}

/**
 * Gives a pupil another name. The address follows it: whoever shortens a name to initials wants no full name left there.
 * @throws InputError code `empty` or `too-large`
 */
export function renamePupil(context: StoreContext, id: number, name: string): Pupil {
  const tidy = tidyName(name, 'pupil’s name');
  return context.database.together(() => {
    const slug = freeSlug(slugOf(tidy, 'pupil'), (candidate) => (pupilBySlug(context, candidate)?.id ?? id) !== id);
    context.database.run('UPDATE pupils SET name = ?, slug = ? WHERE id = ?', [tidy, slug, id]);
    return pupilById(context, id);
  });
}

/**
 * Says when a pupil comes each week; null where there is no fixed day.
 * @throws InputError code `bad-value` where there is no such day or time
 */
export function setLesson(context: StoreContext, id: number, lesson: Lesson | null): Pupil {
  if (lesson !== null && !(Number.isInteger(lesson.day) && lesson.day >= 1 && lesson.day <= 7)) throw new InputError('bad-value', 'A week has no such day. Choose one of the seven and save again.');
  if (lesson?.time !== undefined && lesson.time !== null && !TIME_OF_DAY.test(lesson.time)) throw new InputError('bad-value', 'This is no time of day. Write it as 16:30 and save again.');
  context.database.run('UPDATE pupils SET lesson_day = ?, lesson_time = ? WHERE id = ?', [lesson?.day ?? null, lesson?.time ?? null, id]);
  return pupilById(context, id);
}

/**
 * Says in which year a pupil was born; null forgets it.
 * @throws InputError code `bad-value` for a year in which nobody alive was born
 */
export function setBorn(context: StoreContext, id: number, born: number | null): Pupil {
  const thisYear = context.now().getUTCFullYear();
  if (born !== null && !(Number.isInteger(born) && born > thisYear - OLDEST && born <= thisYear)) throw new InputError('bad-value', 'This is no year of birth. Write four figures, or leave it empty.');
  context.database.run('UPDATE pupils SET born = ? WHERE id = ?', [born, id]);
  return pupilById(context, id);
}

/** Takes a pupil, and with the pupil everything that was sent, off the lists. It can be put back at any time. */
export function removePupil(context: StoreContext, id: number): Pupil {
  context.database.run('UPDATE pupils SET removed_at = ? WHERE id = ? AND removed_at IS NULL', [moment(context), id]);
  return pupilById(context, id);
}

/** Undoes a removal. */
export function restorePupil(context: StoreContext, id: number): Pupil {
  context.database.run('UPDATE pupils SET removed_at = NULL WHERE id = ?', [id]);
  return pupilById(context, id);
}

/** A row as a record. */
export function pupilOf(row: Row): Pupil {
  return {
    id: numberOf(row, 'id'),
    slug: textOf(row, 'slug'),
    name: textOf(row, 'name'),
    pronoun: pronounOf(textOrNull(row, 'pronoun')),
    invented: numberOf(row, 'invented') === 1,
    born: numberOrNull(row, 'born'),
    lesson: lessonOf(row),
    createdAt: textOf(row, 'created_at'),
    removedAt: textOrNull(row, 'removed_at'),
  };
}

/** Day and time of the lesson, where a day is known. */
function lessonOf(row: Row): Lesson | null {
  const day = numberOrNull(row, 'lesson_day');
  return day === null ? null : { day, time: textOrNull(row, 'lesson_time') };
}

/** The pupil with this number. @throws RangeError where there is none */
export function pupilById(context: StoreContext, id: number): Pupil {
  const row = context.database.get('SELECT * FROM pupils WHERE id = ?', [id]);
  if (row === null) throw new RangeError('no such pupil');
  return pupilOf(row);
}

/** A pronoun we know, else null. */
function pronounOf(text: string | null): Pronoun | null {
  return text === 'she' || text === 'he' || text === 'they' ? text : null;
}
