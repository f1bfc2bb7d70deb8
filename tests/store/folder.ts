import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { openStore, type Store } from '../../src/store/index.js';

/** A folder of its own for one test, gone afterwards. */
export function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A clock that stands at a moment until it is set. */
export function handClock(start: string): { now: () => Date; set: (moment: string) => void } {
  let moment = start;
  return { now: () => new Date(moment), set: (next) => (moment = next) };
}

/** Readable stand-in for a file: the store keeps any bytes. */
export function fileOf(name: string, text: string): { name: string; bytes: Uint8Array } {
  return { name, bytes: new TextEncoder().encode(text) };
}

/** A store with one pupil, one piece and one recording (number 1), invented. */
export function furnishedStore(folder = ownFolder(), now = handClock('2026-03-03T18:00:00.000Z').now): Store {
  const store = openStore(folder, { now });
  onTestFinished(() => store.close());
  const pupil = store.addPupil('Nell Farrow');
  const piece = store.addPiece({ title: 'Harbour Lights', score: fileOf('harbour.musicxml', '<score-partwise/>') });
  store.addRecording({ pupilId: pupil.id, scoreId: store.scoreOfPiece(piece.id).id, file: fileOf('monday.mid', 'MThd'), line: 'bars 1-8 once through' });
  return store;
}

/** A comment on bar 7 of the furnished store's recording. */
export function onBarSeven(key: string, text: string) {
  return { recordingId: 1, key, bars: ['7', '7'] as const, barIndexes: [6, 6] as const, text };
}
