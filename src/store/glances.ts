/**
 * What the desk says of recordings, kept so that a full desk costs no more than an empty one. A glance can always be made
 * again from the files; it says itself what it was made from.
 */
import type { StoreContext } from './context.js';
import { textOf } from './rows.js';

/** A glance as it is kept. */
export interface KeptGlance {
  /** Files, decisions and version of the program that it was made from, as one text. */
  readonly madeFrom: string;
  /** JSON; whoever makes glances reads them. */
  readonly body: string;
}

/** The glance at a recording, or null. */
export function glanceAt({ database }: StoreContext, recordingId: number): KeptGlance | null {
  const row = database.get('SELECT made_from, body FROM glances WHERE recording_id = ?', [recordingId]);
  return row === null ? null : { madeFrom: textOf(row, 'made_from'), body: textOf(row, 'body') };
}

/** Keeps a glance in place of the one before. */
export function keepGlance({ database }: StoreContext, recordingId: number, { madeFrom, body }: KeptGlance): void {
  database.run(
    'INSERT INTO glances (recording_id, made_from, body) VALUES (?, ?, ?) ON CONFLICT (recording_id) DO UPDATE SET made_from = excluded.made_from, body = excluded.body',
    [recordingId, madeFrom, body],
  );
}
