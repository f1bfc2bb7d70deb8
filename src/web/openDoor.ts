/** Opening the room to other devices: never without a passphrase. */
import { InputError } from '../base/index.js';
import type { Store } from '../store/index.js';
import { PASSPHRASE_SETTING, type Door } from './door.js';
import { isOwnComputer, namesFor } from './ownNames.js';
import { hashPassphrase, isPassphrase } from './passphrase.js';

/**
 * The door of a room on some address; null where only this computer reaches it. A passphrase that is given is kept, and ends all sessions
 * where it is another one than before.
 * @throws InputError code `unsupported` where there is no passphrase, else for its length
 */
export async function doorFor(store: Store, host: string, given: string | undefined): Promise<Door | null> {
  if (isOwnComputer(host)) return null;
  if (given !== undefined && given !== '') await keepPassphrase(store, given);
  if (store.setting(PASSPHRASE_SETTING) === null) {
    throw new InputError('unsupported', 'The room opens to other devices only with a passphrase. Choose one with "barwise passphrase", or put it into BARWISE_PASSPHRASE, and open the room again.');
  }
  return { names: () => namesFor(host) };
}

/**
 * Keeps a passphrase; all devices have to say it anew where it is another one than before.
 * @throws InputError for its length
 */
export async function keepPassphrase(store: Pick<Store, 'setting' | 'setSetting' | 'endSessions'>, passphrase: string): Promise<void> {
  const kept = store.setting(PASSPHRASE_SETTING);
  if (kept !== null && (await isPassphrase(passphrase, kept))) return;
  store.setSetting(PASSPHRASE_SETTING, await hashPassphrase(passphrase));
  store.endSessions();
}
