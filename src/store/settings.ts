/** How the room is set. Few things, each with a usual value, so that a new room needs no setting up. */
import type { Language } from '../base/index.js';
import type { StoreContext } from './context.js';
import { textOf } from './rows.js';

/** Under this name the language is kept. */
const LANGUAGE = 'language';

/** Which English the pages speak; British until somebody says otherwise. */
export function language(context: StoreContext): Language {
  const row = context.database.get('SELECT value FROM settings WHERE name = ?', [LANGUAGE]);
  return row !== null && textOf(row, 'value') === 'american' ? 'american' : 'british';
}

/** Sets which English the pages speak. */
export function setLanguage(context: StoreContext, chosen: Language): void {
  context.database.run('INSERT INTO settings (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value', [LANGUAGE, chosen]);
}
