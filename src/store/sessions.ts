/** Who has said the passphrase. Only hashes of the cookies are kept: whoever reads the database cannot pose as anybody. */
import { moment, type StoreContext } from './context.js';

/** Keeps a session until a moment (ISO 8601); those that have ended are forgotten. */
export function addSession(context: StoreContext, tokenHash: string, endsAt: string): void {
  context.database.together(() => {
    context.database.run('DELETE FROM sessions WHERE ends_at <= ?', [moment(context)]);
    context.database.run('INSERT INTO sessions (token_hash, ends_at) VALUES (?, ?)', [tokenHash, endsAt]);
  });
}

/** True for a session that has not ended. */
export function hasSession(context: StoreContext, tokenHash: string): boolean {
  return context.database.get('SELECT 1 FROM sessions WHERE token_hash = ? AND ends_at > ?', [tokenHash, moment(context)]) !== null;
}

/** Ends one session, or all of them. */
export function endSessions(context: StoreContext, tokenHash?: string): void {
  if (tokenHash === undefined) context.database.run('DELETE FROM sessions');
  else context.database.run('DELETE FROM sessions WHERE token_hash = ?', [tokenHash]);
}
