import { basename } from 'node:path';
import { InputError } from '../base/index.js';

/** What the system's and the database's codes mean to the person whose folder it is. */
const REASONS: ReadonlyMap<string, string> = new Map([
  ['EEXIST', 'A file of this name stands where the data folder should be.'],
  ['ENOTDIR', 'A file of this name stands where the data folder should be.'],
  ['ENOENT', 'The data folder has gone.'],
  ['EACCES', 'This account may not write into the data folder.'],
  ['EPERM', 'This account may not write into the data folder.'],
  ['EROFS', 'This account may not write into the data folder.'],
  ['SQLITE_CANTOPEN', 'This account may not write into the data folder.'],
  ['SQLITE_READONLY', 'This account may not write into the data folder.'],
  ['EISDIR', 'The database in the data folder is damaged, or another program’s.'],
  ['SQLITE_NOTADB', 'The database in the data folder is damaged, or another program’s.'],
  ['SQLITE_CORRUPT', 'The database in the data folder is damaged, or another program’s.'],
  ['ENOSPC', 'The disk with the data folder is full.'],
  ['EDQUOT', 'The disk with the data folder is full.'],
  ['SQLITE_FULL', 'The disk with the data folder is full.'],
  ['EIO', 'The disk with the data folder does not answer.'],
  ['SQLITE_IOERR', 'The disk with the data folder does not answer.'],
  ['SQLITE_BUSY', 'Another program has the data folder’s database in use.'],
  ['SQLITE_LOCKED', 'Another program has the data folder’s database in use.'],
]);

/** Says in words why a data folder cannot be opened; what is not about the folder stays as it is. */
export function unusable(folder: string, error: unknown): unknown {
  const reason = reasonOf(error);
  return reason === null ? error : new InputError('unsupported', `${reason} Choose another one with --data.`, { file: basename(folder) });
}

/** Says in words why something could not be written; what is not about the disk stays as it is. */
export function unsaved(error: unknown): unknown {
  const reason = reasonOf(error);
  return reason === null ? error : new InputError('not-saved', `${reason} So nothing was saved. Put that right and save again.`);
}

/** The reason for a code; SQLite adds the details of a code behind it ("SQLITE_IOERR_WRITE"). */
function reasonOf(error: unknown): string | null {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  return REASONS.get(code) ?? REASONS.get(code.split('_').slice(0, 2).join('_')) ?? null;
}
