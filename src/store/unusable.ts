import { basename } from 'node:path';
import { InputError } from '../base/index.js';

/** What the system's and the database's codes mean to the person who chose the folder. */
const REASONS: ReadonlyMap<string, string> = new Map([
  ['EEXIST', 'A file of this name stands where the data folder should be.'],
  ['ENOTDIR', 'A file of this name stands where the data folder should be.'],
  ['EACCES', 'This account may not write into the data folder.'],
  ['EPERM', 'This account may not write into the data folder.'],
  ['EROFS', 'This account may not write into the data folder.'],
  ['SQLITE_CANTOPEN', 'This account may not write into the data folder.'],
  ['SQLITE_READONLY', 'This account may not write into the data folder.'],
  ['SQLITE_NOTADB', 'The database in the data folder is damaged, or another program’s.'],
  ['SQLITE_CORRUPT', 'The database in the data folder is damaged, or another program’s.'],
  ['ENOSPC', 'The disk with the data folder is full.'],
  ['SQLITE_FULL', 'The disk with the data folder is full.'],
  ['SQLITE_BUSY', 'Another program has the data folder’s database in use.'],
]);

/** Says in words why a data folder cannot be opened; what is not about the folder stays as it is. */
export function unusable(folder: string, error: unknown): unknown {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  const reason = REASONS.get(code);
  return reason === undefined ? error : new InputError('unsupported', `${reason} Choose another one with --data.`, { file: basename(folder) });
}
