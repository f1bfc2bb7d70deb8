/** Choosing the passphrase at the command line: asked for twice at a terminal, unseen; read as one line where it comes from a program. */
import { homedir } from 'node:os';
import { createInterface } from 'node:readline/promises';
import { Writable } from 'node:stream';
import { InputError } from '../base/index.js';
import { dataFolder, openStore } from '../store/index.js';
import { PASSPHRASE_SETTING } from './door.js';
import { keepPassphrase } from './openDoor.js';

/** Where it is asked and kept. */
export interface PassphraseOptions {
  readonly data?: string;
  /** Takes it back: the room then opens on this computer alone. */
  readonly remove: boolean;
  readonly input: NodeJS.ReadStream;
  /** Questions go here. */
  readonly output: NodeJS.WriteStream;
}

/**
 * Asks for the passphrase and keeps its hash, or takes it back. Every device has to come in anew.
 * @throws InputError code `bad-value` where it is too short or was not typed the same twice
 */
export async function choosePassphrase({ data, remove, input, output }: PassphraseOptions): Promise<void> {
  const folder = dataFolder({ option: data, env: process.env, platform: process.platform, home: homedir() });
  const said = remove ? null : await ask(input, output);
  const store = openStore(folder);
  try {
    if (said !== null) await keepPassphrase(store, said);
    else {
      store.setSetting(PASSPHRASE_SETTING, null);
      store.endSessions();
    }
  } finally {
    store.close();
  }
}

/** The passphrase as it was typed or sent. */
async function ask(input: NodeJS.ReadStream, output: NodeJS.WriteStream): Promise<string> {
  // what is typed is not repeated on the screen
  const unseen = new Writable({ write: (_chunk, _encoding, done) => done() });
  const lines = createInterface({ input, output: unseen, terminal: input.isTTY });
  try {
    if (!input.isTTY) return await lines.question('');
    output.write('Passphrase for other devices (nothing is shown as you type): ');
    const first = await lines.question('');
    output.write('\nOnce more: ');
    const second = await lines.question('');
    output.write('\n');
    if (first !== second) throw new InputError('bad-value', 'These were two different passphrases. Nothing was changed; try once more.');
    return first;
  } finally {
    lines.close();
  }
}
