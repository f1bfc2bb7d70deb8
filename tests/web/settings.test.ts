import { describe, expect, it } from 'vitest';
import { spokenIn } from '../../src/base/index.js';
import { openStore } from '../../src/store/index.js';
import { furnishedStore, ownFolder } from '../store/folder.js';
import { openFurnishedRoom, openTestRoom, REVIEW, sample, type TestRoom } from './room.js';

/** What a page says: its text, and the words that only a screen reader says; without the foot, which names both kinds of words. */
function wordsOf(page: string): readonly string[] {
  const body = page.replace(/<footer[\s\S]*?<\/footer>/, '');
  const spoken = [...body.matchAll(/ (?:aria-label|title|placeholder)="([^"]*)"/g)].map((match) => match[1] ?? '');
  const texts = body.replace(/<(style|script)[\s\S]*?<\/\1>/g, '').split(/<[^>]*>/);
  return [...spoken, ...texts].map((text) => text.trim()).filter((text) => text !== '');
}

/** What a page says in British English although American was asked for. */
async function britishOn(room: TestRoom, path: string): Promise<readonly string[]> {
  const { status, body } = await room.call(path);
  expect(status).toBe(200);
  expect(body).toContain('<html lang="en-US">');
  return wordsOf(body).filter((text) => spokenIn(text, 'american') !== text).map((text) => `${path}: ${text}`);
}

describe('the language of the pages', () => {
  it('is set at the foot of any page, leads back there, and stays set', async () => {
    const room = await openFurnishedRoom();
    const before = await room.call(`${REVIEW}?try=1`);
    expect(before.body).toContain('<html lang="en-GB">');
    expect(before.body).toContain('Bar by bar');
    expect(before.body).toContain(`name="back" value="${REVIEW}?try=1"`);
    const { status, headers } = await room.post('/settings', { language: 'american', back: `${REVIEW}?try=1` });
    expect([status, headers.location]).toEqual([303, `${REVIEW}?try=1`]);
    const after = await room.call(REVIEW);
    expect(after.body).toContain('Measure by measure');
    await room.post('/settings', { language: 'british', back: '/' });
    expect((await room.call(REVIEW)).body).toContain('Bar by bar');
  });

  it('is kept in the data folder', () => {
    const folder = ownFolder();
    furnishedStore(folder).setLanguage('american');
    const again = openStore(folder);
    expect(again.language()).toBe('american');
    again.close();
  });

  it('changes every trade word on every kind of page', async () => {
    const room = await openTestRoom();
    const mei = room.store.addPupil('Mei Castellow', { invented: true });
    const piece = (slug: string, title: string, recording: string): void => {
      const { id } = room.store.addPiece({ title, invented: true, score: sample(`${slug}/score.musicxml`) });
      room.store.addRecording({ pupilId: mei.id, scoreId: room.store.scoreOfPiece(id).id, file: sample(`${slug}/${recording}.mid`), line: 'once through' });
    };
    piece('rowing-home', 'Rowing Home', 'mei-castellow-2025-10-07');
    piece('gull-chase', 'Gull Chase', 'jonas-brekkewood-2025-11-06');
    piece('quayside-march', 'Quayside March', 'asha-vellory-2025-10-16');
    piece('evening-over-skerrowby', 'Evening over Skerrowby', 'desmond-yarrick-2025-11-16');
    room.store.addComment({ recordingId: 1, key: crypto.randomUUID(), bars: ['7', '8'], barIndexes: [7, 8], text: 'Ring it.' });
    room.store.setLanguage('american');
    // a recording of each piece
    const reviews = room.store.pieces().map((piece) => room.store.recordings({ pieceId: piece.id })[0]).map((recording) => `/pupils/${recording?.pupil.slug ?? ''}/recordings/${recording?.id ?? ''}`);
    const pages = ['/', '/help', '/pupils/mei-castellow', ...reviews, ...room.store.pieces().map(({ slug }) => `/pieces/${slug}`)];
    const left: string[] = [];
    for (const path of pages) left.push(...(await britishOn(room, path)));
    // "an pickup" counts as well: `spokenIn` sets the article
    expect(left).toEqual([]);
  });

  it.each(['//elsewhere.example', '/\\elsewhere.example', 'https://elsewhere.example', ''])('leads back nowhere but into the room (%j)', async (back) => {
    const room = await openTestRoom();
    expect((await room.post('/settings', { language: 'american', back })).headers.location).toBe('/');
  });

  it('is one of two', async () => {
    const room = await openTestRoom();
    expect((await room.post('/settings', { language: 'latin', back: '/' })).status).toBe(422);
    expect(room.store.language()).toBe('british');
  });
});
