/** How the pages look and what they are printed on: light, size of reading, paper. Each has a usual value, so that nothing has to be set. */
import type { Language } from '../base/index.js';
import type { Store } from '../store/index.js';

/** One choice of a setting. */
interface Choice {
  readonly value: string;
  readonly name: string;
}

/** A setting with a few values. */
interface Setting {
  /** Name of the form's field, and of the setting in the store. */
  readonly name: string;
  /** What it is about. */
  readonly title: string;
  readonly choices: readonly Choice[];
}

/** Everything that is chosen by its name, in the order of the page. */
export const LOOKS: readonly Setting[] = [
  { name: 'light', title: 'Light', choices: [{ value: 'system', name: 'as the computer has it' }, { value: 'light', name: 'light paper' }, { value: 'dark', name: 'dark room' }] },
  { name: 'size', title: 'Size of the words', choices: [{ value: 'usual', name: 'usual' }, { value: 'larger', name: 'larger' }, { value: 'largest', name: 'largest' }] },
  { name: 'paper', title: 'Paper for printing', choices: [{ value: 'a4', name: 'A4' }, { value: 'letter', name: 'Letter' }] },
];

/** How the room looks. */
export interface Look {
  readonly light: string;
  readonly size: string;
  readonly paper: string;
}

/** What holds; where nothing was set the paper follows the words. */
export function lookOf(store: Pick<Store, 'setting'>, language: Language): Look {
  return {
    light: store.setting('light') ?? 'system',
    size: store.setting('size') ?? 'usual',
    paper: store.setting('paper') ?? (language === 'american' ? 'letter' : 'a4'),
  };
}

/** True for a value that a setting can have. */
export function isChoice(name: string, value: string): boolean {
  return LOOKS.some((one) => one.name === name && one.choices.some((choice) => choice.value === value));
}
