/**
 * People who send recordings. Only what the pages need is kept of them: a name, and how to speak of them.
 */
import { moment, tidyName, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, textOf, textOrNull } from './rows.js';
import { freeSlug, slugOf } from './slug.js';
import type { Pronoun, Pupil } from './types.js';

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

/** All pupils by name. */
export function allPupils(context: StoreContext): readonly Pupil[] {
  const byName = new Intl.Collator('en-GB');
  return context.database.all('SELECT * FROM pupils ORDER BY id').map(pupilOf).sort((a, b) => byName.compare(a.name, b.name));
}

/** A row as a record. */
export function pupilOf(row: Row): Pupil {
  return {
    id: numberOf(row, 'id'),
    slug: textOf(row, 'slug'),
    name: textOf(row, 'name'),
    pronoun: pronounOf(textOrNull(row, 'pronoun')),
    invented: numberOf(row, 'invented') === 1,
    createdAt: textOf(row, 'created_at'),
  };
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
