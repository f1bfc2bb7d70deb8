import { join, resolve } from 'node:path';

/** What decides where the data folder is; handed in so that it can be tried on any system. */
export interface Surroundings {
  /** The option `--data`, where given. */
  readonly option?: string | undefined;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  readonly home: string;
}

/**
 * The data folder: the option, else the variable BARWISE_DATA, else the place the system keeps
 * such things.
 */
export function dataFolder(surroundings: Surroundings): string {
  const { option, env } = surroundings;
  const chosen = [option, env['BARWISE_DATA']].find((path) => path !== undefined && path !== '');
  return chosen === undefined ? systemFolder(surroundings) : resolve(chosen);
}

/**
 * Where each system keeps an application's data: macOS and Windows by their guides, elsewhere the
 * XDG base folders.
 */
function systemFolder({ env, platform, home }: Surroundings): string {
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Barwise');
  if (platform === 'win32') return join(env['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'), 'Barwise');
  return join(env['XDG_DATA_HOME'] ?? join(home, '.local', 'share'), 'barwise');
}
