/** How the room is set. Few things, each with a usual value, so that a new room needs no setting up. */
import type { Language } from '../base/index.js';
import type { StoreContext } from './context.js';
import { textOf } from './rows.js';

/** Under this name the language is kept. */
const LANGUAGE = 'language';

/** Which English the pages speak; British until somebody says otherwise. */
export function language(context: StoreContext): Language {
  return setting(context, LANGUAGE) === 'american' ? 'american' : 'british';
}

/** Sets which English the pages speak. */
export function setLanguage(context: StoreContext, chosen: Language): void {
  setSetting(context, LANGUAGE, chosen);
}

/** What a setting was set to; null until somebody has set it. */
export function setting(context: StoreContext, name: string): string | null {
  const row = context.database.get('SELECT value FROM settings WHERE name = ?', [name]);
  return row === null ? null : textOf(row, 'value');
}

/** Sets a setting; null takes it back. */
export function setSetting(context: StoreContext, name: string, value: string | null): void {
  if (value === null) context.database.run('DELETE FROM settings WHERE name = ?', [name]);
  else context.database.run('INSERT INTO settings (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value', [name, value]);
}
